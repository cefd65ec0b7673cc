/** The copy: what contradicts first, then the suit that was found over what was measured, its ease, how each measure is met. */
import { useState } from "preact/hooks";
import type { ComponentChildren } from "preact";
import type { CopiedSuit, CopyView, EaseLine, FoundLine, MetLine, Quantity, SuspectLine, Why } from "../api/types.js";
import { Section } from "../frame/section.js";
import { post } from "../lib/api.js";
import { go } from "../lib/router.js";
import type { Problem } from "../lib/quantity.js";
import { word } from "../lib/state.js";
import { sectionState } from "../order/context.js";
import { withUnit } from "../order/field.js";
import { asReason, shown } from "../order/quantity.js";
import { Figure } from "../parts/figure.js";
import { Icon } from "../parts/icon.js";
import { LengthField } from "../parts/length.js";
import type { Unit } from "../parts/length.js";
import { Lines } from "../parts/line.js";
import { Progress } from "../parts/progress.js";
import { Ask } from "../parts/slip.js";
import { Table } from "../parts/table.js";
import { Acts, Ticket, Word } from "../parts/touch.js";
import { Trouble } from "../parts/trouble.js";
import { headed } from "../register/adapt.js";
import { problemOf, useLoaded, useTrying } from "../register/asking.js";
import { Drawn } from "./drawn.js";
import { bare, unitOf } from "./measures.js";
import { notes } from "./page.js";
import { at } from "./tools.js";
import type { DrawerTools } from "./tools.js";

/** The section of the result. `onMeasure` takes a measure in hand. */
export function CopySection({ tools, n, onMeasure }: {
  readonly tools: DrawerTools;
  readonly n: number;
  readonly onMeasure: (key: string) => void;
}) {
  const { view } = tools;
  const [anyway, setAnyway] = useState(false);
  const isReady = view.waits_for.length === 0;
  const wants = isReady || anyway;
  const { id, revision } = view.item;
  const loaded = useLoaded<CopyView>(wants ? `${at(id)}/copy?of=${revision}` : null, { follow: true });
  const found = loaded.value;
  const state = !wants ? ("missing" as const) : found ? sectionState(found.head.state) : ("good" as const);
  return (
    <Section
      open
      id="result"
      n={n}
      name="The copy"
      state={state}
      summary={found ? found.head.summary : wants ? "Being found." : "Not everything is there yet."}
      {...(found ? notes(found.head) : {})}
    >
      {!wants && <WaitsFor of={view.waits_for} onAnyway={() => setAnyway(true)} />}
      {wants && !found && !loaded.problem && (
        <Progress says="Finding the suit: drafts are laid against the measures until they meet" share={null} />
      )}
      <Trouble problem={loaded.problem} />
      {found && !found.copy && (
        <>
          <p class="lead">It cannot be worked out yet.</p>
          <Waits of={found.head.notes.map((note) => `${note.says} ${note.next}`.trim())} />
        </>
      )}
      {found?.copy && <Copy tools={tools} copy={found.copy} onMeasure={onMeasure} />}
    </Section>
  );
}

/** What a result waits for, and how to have it without. */
export function WaitsFor({ of, onAnyway }: { readonly of: readonly string[]; readonly onAnyway: () => void }) {
  return (
    <>
      <p class="lead">It waits for:</p>
      <Waits of={of} />
      <Acts>
        <Word onClick={onAnyway}>Try with what is there</Word>
      </Acts>
    </>
  );
}

/** What is still missing, a line each. */
export function Waits({ of }: { readonly of: readonly string[] }) {
  return (
    <ul class="waits">
      {of.map((says) => (
        <li key={says}>
          <Icon name="missing" />
          {says}
        </li>
      ))}
    </ul>
  );
}

function Copy({ tools, copy, onMeasure }: { readonly tools: DrawerTools; readonly copy: CopiedSuit; readonly onMeasure: (key: string) => void }) {
  return (
    <>
      {copy.suspects.length > 0 && <Suspects tools={tools} suspects={copy.suspects} />}
      <div class="two tables">
        {copy.sides.map((side) => (
          <figure key={side.key}>
            <Drawn side={side} label={`${side.name}: the suit that was found, the widths and lengths measured, and the new cut in dots.`} />
            <figcaption class="small">{side.name}</figcaption>
          </figure>
        ))}
      </div>
      <Legend isDoubtful={copy.suspects.length > 0} />

      <h3>How tight it is</h3>
      <p class="reading">
        What the suit uses of its own cloth’s stretch; the new one is cut to use the same share.
      </p>
      <Found lines={copy.shares} />
      <Table<EaseLine>
        caption="Worn stretch by place, in both cloths"
        columns={[
          { key: "place", head: "Worn stretch", cell: (row) => headed(row.place) },
          { key: "old", head: copy.old_cloth, right: true, phone: "was", cell: (row) => <Figure quantity={shown(row.old)} /> },
          { key: "new", head: copy.new_cloth, right: true, phone: "now", cell: (row) => <Asked why={row.why} quantity={row.new} /> },
        ]}
        rows={copy.ease}
        rowKey={(row) => row.place}
      />
      {copy.ease.filter((row) => row.says !== "").map((row) => (
        <p key={row.place} class="inline doubtful">
          <Icon name="doubtful" />
          <span>
            {headed(row.place)}: {row.says}.
          </span>
        </p>
      ))}

      <h3>How each measure is met</h3>
      <Table<MetLine>
        caption="Measured, found, and the difference"
        columns={[
          {
            key: "name",
            head: "Measure",
            cell: (row) => (
              <>
                <Met row={row} />
                {row.says !== "" && <small class="metsays"> {row.says}</small>}
              </>
            ),
          },
          { key: "taken", head: "Measured", right: true, phone: "measured", cell: (row) => <Figure quantity={shown(row.taken)} /> },
          { key: "found", head: "Found", right: true, phone: "found", cell: (row) => <Figure quantity={shown(row.found)} /> },
          { key: "bar", head: "Off by", wideOnly: true, cell: (row) => <Bar row={row} /> },
          { key: "off", head: "", right: true, cell: (row) => <Asked why={row.why} quantity={row.off} /> },
        ]}
        rows={copy.measures}
        rowKey={(row) => row.key}
      />
      <p class="small">The bar is full at four times what two readings of the same suit differ by.</p>
      {copy.unchecked.length > 0 && (
        <p class="reading">
          Nothing checks {listed(copy.unchecked)}: a slip there would go unseen. Measure {copy.unchecked.length === 1 ? "it" : "them"} twice.
        </p>
      )}

      <h3>What was found of the design</h3>
      <Found lines={copy.found} />
      <Make tools={tools} copy={copy} onMeasure={onMeasure} />
    </>
  );
}

function Met({ row }: { readonly row: MetLine }) {
  const state = row.stands === "doubtful" || row.stands === "left_out" ? ("doubtful" as const) : null;
  return (
    <span class="metname">
      {state && <Icon name={state} />}
      {state && <span class="heard">{word[state]}: </span>}
      {row.name}
    </span>
  );
}

/** A bar from the middle: right is larger than measured. */
function Bar({ row }: { readonly row: MetLine }) {
  const half = 46;
  const to = row.bar * half;
  return (
    <svg class={`offbar ${row.stands}`} viewBox="-50 0 100 18" width="100" height="18" aria-hidden="true">
      <path class="zero" d="M0 1v16" />
      <rect x={Math.min(0, to)} y="5" width={Math.max(Math.abs(to), 1.5)} height="8" />
    </svg>
  );
}

function Asked({ why, quantity }: { readonly why: Why; readonly quantity: Quantity }) {
  return (
    <Ask label={why.question.replace(/^Why/, "why")} why={asReason(why)}>
      <Figure quantity={shown(quantity)} />
    </Ask>
  );
}

function Found({ lines }: { readonly lines: readonly FoundLine[] }) {
  return (
    <Lines>
      {lines.map((line) => (
        <div key={line.name} class="line">
          <dt>
            {line.name}
            <small> {line.sure}</small>
          </dt>
          <dd class="value">
            <Asked why={line.why} quantity={line.value} />
          </dd>
          <dd class="second">{line.value.second}</dd>
        </div>
      ))}
    </Lines>
  );
}

function Legend({ isDoubtful }: { readonly isDoubtful: boolean }) {
  const entry = (kind: string, says: ComponentChildren) => (
    <li>
      <svg viewBox="0 0 44 14" width="44" height="14" aria-hidden="true">
        <path class={`d-${kind}`} d="M2 7h40" />
      </svg>
      {says}
    </li>
  );
  return (
    <ul class="legend small">
      {entry("cut", "found, in the old cloth")}
      {entry("measured", "measured")}
      {isDoubtful && entry("doubtful", "measured, in doubt")}
      {entry("next", "cut from the new cloth")}
    </ul>
  );
}

/** What most likely is wrong, each with a field to put it right. */
function Suspects({ tools, suspects }: { readonly tools: DrawerTools; readonly suspects: readonly SuspectLine[] }) {
  return (
    <div class="suspects">
      {suspects.map((one, i) => (
        <Suspect key={one.key} tools={tools} suspect={one} isFirst={i === 0} />
      ))}
    </div>
  );
}

function Suspect({ tools, suspect, isFirst }: { readonly tools: DrawerTools; readonly suspect: SuspectLine; readonly isFirst: boolean }) {
  const measure = tools.view.measures.find((one) => one.key === suspect.key);
  const [text, setText] = useState(bare(measure?.typed ?? ""));
  const [unit, setUnit] = useState<Unit>(unitOf(measure?.typed ?? "") ?? tools.units);
  const [problem, setProblem] = useState<Problem | null>(null);
  if (!measure) return null;
  const keep = async (): Promise<void> => {
    const value = withUnit(text, unit);
    if (value === null) {
      setProblem({ what: "Nothing is typed.", next: "Measure it again and write what the tape says." });
      return;
    }
    setProblem(null);
    try {
      await tools.keep({ [measure.path]: value }, `${measure.name} ${measure.typed} to ${value}`);
    } catch (error) {
      setProblem(problemOf(error));
    }
  };
  return (
    <div class="suspect" role="group" aria-label={`In doubt: ${suspect.name}`}>
      <h3>
        <Icon name="doubtful" />
        {suspect.says}
      </h3>
      <p class="reading">
        {suspect.is_left_out
          ? "The others agree without it, so it was left out. "
          : "Which of the measures is wrong cannot be told, so nothing was left out. "}
        {suspect.how}
      </p>
      <LengthField
        label={`${headed(suspect.name)}, measured again`}
        text={text}
        unit={unit}
        units={["cm", "in"]}
        problem={problem}
        onText={setText}
        onUnit={setUnit}
        onKeep={() => void keep()}
      />
      <Acts>{isFirst ? <Ticket onClick={() => void keep()}>Keep it</Ticket> : <Word onClick={() => void keep()}>Keep it</Word>}</Acts>
    </div>
  );
}

function Make({ tools, copy, onMeasure }: { readonly tools: DrawerTools; readonly copy: CopiedSuit; readonly onMeasure: (key: string) => void }) {
  const trying = useTrying();
  const make = (): void =>
    void trying.run(async () => {
      const made = await post<{ readonly id: string }>(`${at(tools.view.item.id)}/suit`, {});
      go(`/suits/${encodeURIComponent(made.id)}`);
    });
  const first = copy.suspects[0];
  return (
    <div class="making">
      {tools.view.new.from === "typed" && <p class="reading">The new suit begins without a cloth: its stretch was only typed.</p>}
      <Trouble problem={trying.problem} />
      <Acts>
        {first === undefined ? (
          <Ticket off={trying.busy} onClick={make}>
            Make a suit of it
          </Ticket>
        ) : (
          <>
            {copy.can_make && <Word onClick={make}>Make a suit of it without the {first.name}</Word>}
            <Word onClick={() => onMeasure(first.key)}>See how the {first.name} is taken</Word>
          </>
        )}
      </Acts>
      <p class="small">Nothing here has been proved by sewing: sew a toile in a cloth of like stretch first.</p>
    </div>
  );
}

function listed(names: readonly string[]): string {
  return names.length < 2 ? `the ${names.join("")}` : `the ${names.slice(0, -1).join(", ")} and the ${names.at(-1) ?? ""}`;
}
