/** Which suit, which size table, and drafting it: a job that tells how far it is and can be stopped. */
import { useEffect, useState } from "preact/hooks";
import type { RangesView, SizeTableView } from "../api/types.js";
import { Failed, post } from "../lib/api.js";
import type { Problem } from "../lib/quantity.js";
import { go } from "../lib/router.js";
import { LengthField } from "../parts/length.js";
import { Acts, Ticket } from "../parts/touch.js";
import { Trouble } from "../parts/trouble.js";
import { API, problemOf } from "../register/asking.js";
import { Pick, TakeFile, Tick } from "../register/fields.js";
import { JobLine, useJob } from "../register/jobs.js";
import { addressOf, sizesOf } from "./asked.js";
import type { Asked, Own } from "./asked.js";

const FORMS = [
  { value: "woman", says: "women" },
  { value: "man", says: "men" },
  { value: "child", says: "children" },
] as const;
const UNITS = [
  { value: "", says: "as its heads say" },
  { value: "cm", says: "cm" },
  { value: "in", says: "in" },
  { value: "mm", says: "mm" },
] as const;

/** The body of the section. */
export function Choose({ offered, asked, onAsked }: {
  readonly offered: RangesView;
  readonly asked: Asked;
  readonly onAsked: (asked: Asked) => void;
}) {
  const [own, setOwn] = useState<SizeTableView | null>(null);
  const table = asked.table === "own" ? own : (offered.tables.find((one) => one.key === asked.table) ?? null);
  const drafting = useJob(`${API}/ranges`, () => ({ suit: asked.suit, sizes: sizesOf(asked, table) }));
  const isDone = drafting.job?.state === "done";
  const range = drafting.answer?.["range"] ?? null;
  useEffect(() => {
    if (isDone && range !== null) go(addressOf(asked, range), { replace: true });
    // Once, when it is done: what is changed afterwards is for the next draft.
  }, [isDone, range]);
  const unit = offered.unit === "in" ? "in" : "cm";
  const chosen = table ? table.sizes.filter((size) => !asked.without.includes(size.name)).length : 0;
  const lacks =
    asked.suit === "" ? "Choose a suit first." : !table ? "Choose a size table first." : chosen === 0 ? "Tick at least one size." : "";
  if (offered.suits.length === 0) return <p class="lead">A range takes cloth and design from a suit; there is none yet.</p>;
  return (
    <div class="rangeform">
      <Pick
        name="Cloth and design of"
        options={offered.suits.map((suit) => ({ value: suit.id, says: suit.name }))}
        value={asked.suit === "" ? null : asked.suit}
        onPick={(suit) => onAsked({ ...asked, suit })}
      />
      <Pick
        name="Size table"
        options={[...offered.tables.map((one) => ({ value: one.key, says: one.key })), { value: "own", says: "my own" }]}
        value={asked.table === "" ? null : asked.table}
        onPick={(key) => onAsked({ ...asked, table: key, without: [] })}
      />
      {asked.table === "own" && (
        <OwnTable
          own={asked.own}
          table={own}
          onOwn={(next) => onAsked({ ...asked, own: next, without: [] })}
          onTable={setOwn}
        />
      )}
      {table && asked.table !== "own" && <p class="reading provenance">{table.provenance}</p>}
      {table && !table.has_stature && (
        <LengthField
          label="Stature for every size"
          text={asked.stature}
          unit={unit}
          hint="The table has none. Left empty, it is estimated, and lengths with it."
          onText={(stature) => onAsked({ ...asked, stature })}
        />
      )}
      {table && (
        <fieldset class="sizeticks">
          <legend class="small label">Sizes to draft</legend>
          <ul class="ticks">
            {table.sizes.map((size) => (
              <li key={size.name}>
                <Tick
                  done={!asked.without.includes(size.name)}
                  says={
                    <>
                      {size.name}
                      {size.note !== "" && <small> {size.note}</small>}
                    </>
                  }
                  onTick={(done) =>
                    onAsked({ ...asked, without: done ? asked.without.filter((one) => one !== size.name) : [...asked.without, size.name] })
                  }
                />
              </li>
            ))}
          </ul>
        </fieldset>
      )}
      <Acts>
        <Ticket off={lacks !== "" || drafting.isRunning} describedBy="range-lacks" onClick={drafting.start}>
          Draft the sizes
        </Ticket>
        <span id="range-lacks" class="small">
          {lacks === "" ? "Each from its own body, never scaled from a neighbour." : lacks}
        </span>
      </Acts>
      <JobLine working={isDone && drafting.job ? { ...drafting, job: { ...drafting.job, result: null } } : drafting} file="" />
    </div>
  );
}

/** Her own table: the file, whose bodies, its unit; every fault with line and column. */
function OwnTable({ own, table, onOwn, onTable }: {
  readonly own: Own;
  readonly table: SizeTableView | null;
  readonly onOwn: (own: Own) => void;
  readonly onTable: (table: SizeTableView | null) => void;
}) {
  const [problems, setProblems] = useState<readonly Problem[]>([]);
  const read = async (next: Own): Promise<void> => {
    onOwn(next);
    if (next.csv === "") return;
    try {
      const sizes = { table: "own", csv: next.csv, name: next.name, form: next.form, unit: next.unit, stature: "", only: [] };
      onTable(await post<SizeTableView>(`${API}/ranges/sizes`, sizes));
      setProblems([]);
    } catch (error) {
      onTable(null);
      const one = problemOf(error);
      setProblems(error instanceof Failed ? error.problems : one ? [one] : []);
    }
  };
  return (
    <div class="owntable">
      <p class="reading">
        A CSV file with a size a line: a column <b>size</b>, and one for each dimension, as <b>bust_cm</b>, <b>waist_cm</b>, <b>hip_cm</b>,{" "}
        <b>stature_cm</b>.
      </p>
      <Pick name="For" options={FORMS} value={own.form === "man" || own.form === "child" ? own.form : "woman"} onPick={(form) => void read({ ...own, form })} />
      <Pick
        name="Its numbers are"
        options={UNITS}
        value={UNITS.find((one) => one.value === own.unit)?.value ?? ""}
        onPick={(unit) => void read({ ...own, unit })}
      />
      <Acts>
        <TakeFile
          says={own.csv === "" ? "Bring the table" : "Bring another table"}
          accept=".csv,.tsv,.txt,text/csv"
          onFile={(file) =>
            void file.text().then((csv) => read({ ...own, csv, name: file.name.replace(/\.[a-z]+$/i, "") }))
          }
        />
        <span class="small" role="status">
          {table ? `${table.name}: ${table.sizes.length} sizes read.` : ""}
        </span>
      </Acts>
      {problems.length > 0 && (
        <div class="tablefaults">
          {problems.map((problem, i) => (
            <Trouble key={i} problem={problem} />
          ))}
        </div>
      )}
    </div>
  );
}
