/** The head of a work order: its name, what it is for, when it was last kept, and undo with the history behind it. */
import { useEffect, useState } from "preact/hooks";
import { Failed, get } from "../lib/api.js";
import { dateInWords, momentInWords } from "../lib/dates.js";
import type { Problem } from "../lib/quantity.js";
import { kept } from "../lib/store.js";
import { Note } from "../frame/margin.js";
import { Choice } from "../parts/choice.js";
import { Trouble } from "../parts/trouble.js";
import { Word } from "../parts/touch.js";
import { BackOne } from "../parts/undo.js";
import { fieldId } from "./context.js";
import { Next } from "./next.js";
import type { Order } from "./tools.js";
import { suitAt } from "./studio.js";
import { Written } from "./written.js";

/** One change of the past, as the studio tells it. */
interface HistoryLine {
  readonly seq: number;
  readonly at: string;
  readonly words: string;
  readonly kind: string;
  readonly document: string;
}

/** The head; `order` is the one the page keeps. */
export function OrderHead({ order }: { readonly order: Order }) {
  const { tools } = order;
  const { suit, back, forward } = tools.order.value;
  const text = (path: string, stored: string): string => {
    const waits = tools.waiting(suit.id, path);
    return typeof waits === "string" ? waits : stored;
  };
  const keep = (path: string, words: string) => (value: string) => tools.keep([{ document: suit.id, path, value }], `${words} ${dateInWords(value)}`);
  const from = text("to_wear_from", suit.to_wear_from);
  const isDate = from === "" || /^\d{4}-\d{2}-\d{2}$/.test(from);
  return (
    <header class="head orderhead">
      <a class="textlink homeword" href="/">
        Slackwater
      </a>
      <div class="title">
        <h1 id={fieldId("name")}>
          <Written label="name of the order" value={text("name", suit.name)} empty="No name yet" onKeep={keep("name", "name")} />
        </h1>
      </div>
      <p class="pencil kept" role="status" aria-live="polite">
        {kept.value}
      </p>
      <dl class="facts">
        <div>
          <dt>Work order</dt>
          <dd>
            No. {suit.number}, version {suit.version}
          </dd>
        </div>
        <div>
          <dt>For</dt>
          <dd>
            <a class="forwhom" href="#wearer">
              {suit.wearer === "" ? "nobody yet" : suit.wearer}
            </a>
          </dd>
        </div>
        <div id={fieldId("to_wear_from")}>
          <dt>To wear from</dt>
          <dd>
            <Written
              label="date to wear from"
              value={from}
              shown={dateInWords(from)}
              empty="not said"
              kind={isDate ? "date" : "text"}
              onKeep={keep("to_wear_from", "to wear from")}
            />
          </dd>
        </div>
        <div id={fieldId("units")}>
          <dt>Units</dt>
          <dd>
            <Choice
              tight
              hideName
              name="Units of this order"
              options={[
                { value: "cm", says: "cm", spoken: "centimetres first" },
                { value: "in", says: "in ⅛", spoken: "inches and eighths first" },
              ]}
              value={text("units", tools.units) === "in" ? "in" : "cm"}
              onChange={(value) => void tools.edit([{ document: suit.id, path: "units", value }], `units ${value}`)}
            />
          </dd>
        </div>
      </dl>
      <div id={fieldId("notes")} class="ordernotes">
        <Written
          label="notes on the order"
          value={text("notes", suit.notes)}
          empty="Write a note on this order"
          kind="lines"
          onKeep={keep("notes", "note")}
        />
      </div>
      <Next view={tools.order.value} />
      <div class="past">
        <BackOne back={back} forward={forward} onBack={() => void tools.undo("back")} onForward={() => void tools.undo("forward")} />
        <History order={order} />
      </div>
      {order.refused.value.map((one) => (
        <Note
          key={one}
          state="doubtful"
          says={`${one.words === "" ? "A change" : one.words}: not kept. ${one.problem.what}`}
          {...(one.problem.next !== undefined && { next: one.problem.next })}
          action={{
            says: "Put it away",
            onClick: () => {
              order.refused.value = order.refused.value.filter((other) => other !== one);
            },
          }}
        />
      ))}
    </header>
  );
}

/** What was changed, newest first, as sentences. Read when it is opened, and again when the order changes. */
function History({ order }: { readonly order: Order }) {
  const [open, setOpen] = useState(false);
  const [lines, setLines] = useState<readonly HistoryLine[] | null>(null);
  const [problem, setProblem] = useState<Problem | null>(null);
  const view = order.tools.order.value;
  useEffect(() => {
    if (!open) return;
    let here = true;
    get<readonly HistoryLine[]>(suitAt(view.suit.id, "/history")).then(
      (read) => {
        if (!here) return;
        setProblem(null);
        setLines(read);
      },
      (error: unknown) => {
        if (here) setProblem(error instanceof Failed ? error.first : { what: "The history could not be read." });
      },
    );
    return () => {
      here = false;
    };
  }, [open, view]);
  return (
    <div class="history">
      <Word expanded={open} controls="history-list" onClick={() => setOpen(!open)}>
        {open ? "Fold the history" : "History"}
      </Word>
      <div id="history-list" hidden={!open}>
        {open && problem && <Trouble problem={problem} />}
        {open && lines && lines.length === 0 && <p class="small">Nothing was changed yet.</p>}
        {open && lines && lines.length > 0 && (
          <ol tabIndex={0} aria-label="History, the newest first">
            {lines.map((line) => (
              <li key={line.seq}>
                <time class="small" dateTime={line.at}>
                  {momentInWords(line.at)}
                </time>
                <span>{line.words}</span>
              </li>
            ))}
          </ol>
        )}
      </div>
    </div>
  );
}
