/** A class worked out: who can sew, the room's sessions drawn as bars, how the cloth is laid, what to buy for all together. */
import { useEffect } from "preact/hooks";
import type { ClassBuyView, ClassPersonView, ClassSessionView, ClassView } from "../api/types.js";
import { word } from "../lib/state.js";
import { sectionState } from "../order/context.js";
import { Icon } from "../parts/icon.js";
import { Table } from "../parts/table.js";
import type { Column } from "../parts/table.js";
import { Trouble } from "../parts/trouble.js";
import { API, useLoaded } from "../register/asking.js";
import { ClassCloth } from "./cloth.js";
import { Session } from "./session.js";

/** Worked out again whenever a document changes, and when `made` says that kits were made: the cloth is laid then. */
export function Plan({ id, made }: { readonly id: string; readonly made: boolean }) {
  const { value: plan, problem, again } = useLoaded<ClassView>(`${API}/classes/${encodeURIComponent(id)}/plan`, { follow: true });
  useEffect(() => {
    if (made) void again();
  }, [made, again]);
  // What is written does not go together: an older plan would only mislead.
  if (problem) return <Trouble problem={problem} />;
  if (!plan) return <p class="small">The suits of the class are being drafted.</p>;
  return (
    <div class="classplan">
      <p class="reading">{plan.summary}</p>
      <Table caption="Who takes part" columns={personColumns} rows={plan.people} rowKey={(one) => one.letter + one.name} />
      <Stops people={plan.people} />
      <h4>Timetable</h4>
      <p class="small">{plan.room}</p>
      <ul class="sentences">
        {plan.says.map((says) => (
          <li key={says}>{says}</li>
        ))}
      </ul>
      {plan.sessions.map((session: ClassSessionView) => (
        <Session key={session.name} session={session} />
      ))}
      <ClassCloth id={id} cloth={plan.cloth} onLaid={again} />
      <h4>Shopping list</h4>
      <Table caption="Shopping list for all together" columns={buyColumns} rows={plan.shopping} rowKey={(line) => line.what} />
    </div>
  );
}

const personColumns: readonly Column<ClassPersonView>[] = [
  {
    key: "name",
    head: "Who",
    cell: (one) => (
      <>
        {one.letter !== "" && <b class="letter">{one.letter}</b>} {one.name}
      </>
    ),
  },
  {
    key: "state",
    head: "Suit",
    phone: "suit",
    cell: (one) => {
      const state = sectionState(one.state);
      return (
        <span class={`stateword ${state}`}>
          <Icon name={state} /> {one.letter === "" ? "not drafted" : word[state]}
        </span>
      );
    },
  },
  { key: "works", head: "Works", right: true, phone: "works", cell: (one) => one.works },
  { key: "waits", head: "Waits", right: true, phone: "waits", cell: (one) => one.waits },
];

/** Why somebody cannot sew, or should not yet. */
function Stops({ people }: { readonly people: readonly ClassPersonView[] }) {
  const told = people.filter((one) => one.says.length > 0);
  if (told.length === 0) return null;
  return (
    <ul class="sentences" aria-label="What stands in the way">
      {told.map((one) => (
        <li key={one.letter + one.name}>
          <b>{one.name}</b>: {one.says.join(" ")}
        </li>
      ))}
    </ul>
  );
}

const buyColumns: readonly Column<ClassBuyView>[] = [
  {
    key: "what",
    head: "What",
    cell: (line) => (
      <>
        {line.what}
        {line.note !== "" && <small class="below">{line.note}</small>}
        {line.shares !== "" && <small class="below">{line.shares}</small>}
      </>
    ),
  },
  { key: "needed", head: "Needed", right: true, phone: "needed", cell: (line) => line.needed },
  { key: "buy", head: "Buy", right: true, phone: "buy", cell: (line) => line.buy },
];
