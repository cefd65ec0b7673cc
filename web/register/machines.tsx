/** Machines of the workroom: what each forms, its feet, its feed; added as they are sold, then made one's own. */
import { useState } from "preact/hooks";
import type { RoomView } from "../api/types.js";
import { Lines } from "../parts/line.js";
import { Acts, Ticket, Word } from "../parts/touch.js";
import { Trouble } from "../parts/trouble.js";
import { useTrying } from "./asking.js";
import type { Editable } from "./asking.js";
import { Pick } from "./fields.js";
import { faultsOf, ItemLength, ItemPick, ItemTick, ItemTicks, ItemWords, ListFoot, ListItem, useItems } from "./items.js";
import type { Items } from "./items.js";
import { textAt, WordsLine } from "./lengths.js";
import type { Body } from "./lengths.js";
import { Form } from "./new.js";

const UTILITY = [
  { value: "three-step", says: "Three-step zigzag" },
  { value: "triple-straight", says: "Triple straight" },
  { value: "slanted", says: "Narrow slanted stretch stitch" },
  { value: "household-overlock", says: "Overlock-like stitch" },
] as const;
const FEET = [
  { value: "walking", says: "Walking foot" },
  { value: "roller", says: "Roller foot" },
  { value: "zip", says: "Zip foot" },
  { value: "elastic", says: "Elastic guide" },
] as const;
const THREADS = [
  { value: "three", says: "Three" },
  { value: "three-or-four", says: "Three or four" },
] as const;
const NEEDLES = [
  { value: "2", says: "Two" },
  { value: "3", says: "Three" },
] as const;

/** The section's body. */
export function Machines({ doc, room }: { readonly doc: Editable<Body>; readonly room: RoomView | null }) {
  const items = useItems(doc, "machines");
  const [adding, setAdding] = useState(false);
  const [added, setAdded] = useState<number | null>(null);
  const faults = faultsOf(room, "machines");
  return (
    <>
      {room && <p class={room.is_assumed ? "lead" : "reading"}>{room.says}</p>}
      <ul class="shelflist">
        {items.list.map((machine, at) => (
          <ListItem
            key={`${at} ${textAt(machine, "kind")}`}
            items={items}
            at={at}
            name={textAt(machine, "name") || "Machine"}
            about={about(machine)}
            faults={faults}
            start={added === at}
          >
            <MachineLines items={items} at={at} />
          </ListItem>
        ))}
      </ul>
      <ListFoot items={items} />
      {adding && room ? (
        <NewMachine
          room={room}
          items={items}
          onStart={() => setAdded(items.list.length)}
          onAdded={() => setAdding(false)}
          onLeave={() => setAdding(false)}
        />
      ) : (
        <Acts>
          <Ticket onClick={() => setAdding(true)}>Add a machine</Ticket>
        </Acts>
      )}
      <Lines>
        <WordsLine doc={doc} path="notes" name="Notes" kind="long" />
      </Lines>
    </>
  );
}

function NewMachine({ room, items, onStart, onAdded, onLeave }: {
  readonly room: RoomView;
  readonly items: Items;
  /** It is about to stand at the end of the list. */
  readonly onStart: () => void;
  readonly onAdded: () => void;
  readonly onLeave: () => void;
}) {
  const trying = useTrying();
  const [which, setWhich] = useState<string>(room.machines[1]?.name ?? "");
  const add = (): void =>
    void trying.run(async () => {
      const start = room.machines.find((machine) => machine.name === which);
      if (!start) return;
      onStart();
      await items.add(start.body as Body, `${start.name} added`);
      onAdded();
    });
  return (
    <Form name="Add a machine" ticket="Add the machine" trying={trying} onAdd={add} onLeave={onLeave}>
      <Pick name="It is a" options={room.machines.map(({ name }) => ({ value: name, says: name }))} value={which} onPick={setWhich} />
      <p class="small">It comes in as such machines are sold; what yours has is changed on its lines.</p>
      <Trouble problem={trying.problem} />
    </Form>
  );
}

function MachineLines({ items, at }: { readonly items: Items; readonly at: number }) {
  const machine = items.list[at] ?? {};
  const kind = textAt(machine, "kind");
  const own = { items, at };
  if (!["lockstitch", "overlocker", "coverstitch"].includes(kind)) return <OldMachine items={items} at={at} />;
  return (
    <>
      <div class="choices">
        {kind === "overlocker" && <ItemPick {...own} path="threads" name="Threads" options={THREADS} usual="three-or-four" />}
        {kind === "coverstitch" && (
          <>
            <NeedlesPick {...own} />
            <ItemTick {...own} path="top_cover" name="A looper above as well: top and bottom cover" />
            <ItemTick {...own} path="chain" name="Sews the two-thread chainstitch too" />
          </>
        )}
        {kind === "lockstitch" && <ItemTicks {...own} path="utility" name="Stitches beside straight and zigzag" options={UTILITY} />}
        <ItemTicks {...own} path="feet" name="Presser feet beside the usual one" options={FEET} />
        <ItemTick {...own} path="differential_feed" name="Differential feed: its front feed can be set" />
        <ItemTick {...own} path="foot_pressure" name="The pressure of its foot can be set" />
      </div>
      <Lines>
        <ItemWords {...own} path="name" name="What you call it" />
        {kind === "lockstitch" && (
          <>
            <ItemLength {...own} path="most_width" name="Widest zigzag" hint="0 mm where it sews straight only." />
            <ItemLength {...own} path="twin_needle" name="Widest twin needle" hint="Leave it empty where it takes none." />
          </>
        )}
        <ItemLength {...own} path="foot_width" name="Width of its foot" hint="Edges are led along it." />
      </Lines>
    </>
  );
}

/** Two or three needles: a number in the document. */
function NeedlesPick({ items, at }: { readonly items: Items; readonly at: number }) {
  const value = textAt(items.list[at] ?? {}, "needles") || "2";
  return (
    <Pick
      name="Needles"
      options={NEEDLES}
      value={NEEDLES.find((one) => one.value === value)?.value ?? null}
      onPick={(to) => void items.trying.run(() => items.set(at, { needles: Number(to) }, `needles ${to}`))}
    />
  );
}

/** A machine written down as a word: taken as such machines are sold until it is written anew. */
function OldMachine({ items, at }: { readonly items: Items; readonly at: number }) {
  return (
    <Lines>
      <ItemWords items={items} at={at} path="name" name="What you call it" />
      <ItemWords items={items} at={at} path="kind" name="What it sews" hint="Taken as such machines are sold. To say more, take it out and add it again." />
    </Lines>
  );
}

function about(machine: Body): string {
  const kind = textAt(machine, "kind");
  const width = textAt(machine, "most_width");
  switch (kind) {
    case "lockstitch":
      return /^0(\s|$)/.test(width) || width === "" ? "Straight stitch." : `Zigzag, up to ${width} wide.`;
    case "overlocker":
      return textAt(machine, "threads") === "three" ? "Overlocker, three threads." : "Overlocker, three or four threads.";
    case "coverstitch":
      return `Coverstitch, ${textAt(machine, "needles") === "3" ? "three" : "two"} needles.`;
    default:
      return `${kind.charAt(0).toUpperCase()}${kind.slice(1)}.`;
  }
}

/** "Take it as a file": the workroom as the command line reads it. */
export function RoomFile() {
  return (
    <>
      <h3 class="apart">A workroom file</h3>
      <p class="reading">Machines, stock, prices and samples as the text file the command line reads.</p>
      <Acts>
        <Word href="/api/v1/room/file" save="workroom.toml">
          Take the workroom as a file
        </Word>
      </Acts>
    </>
  );
}
