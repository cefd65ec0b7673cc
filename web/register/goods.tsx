/** Needles, threads and the rest of the stock; prices by the pack; what an hour costs. */
import { useState } from "preact/hooks";
import type { RoomView } from "../api/types.js";
import { Lines } from "../parts/line.js";
import { Acts, Word } from "../parts/touch.js";
import { Trouble } from "../parts/trouble.js";
import { useTrying } from "./asking.js";
import type { Editable } from "./asking.js";
import { Pick } from "./fields.js";
import { faultsOf, ItemLength, ItemNumber, ItemPick, ItemTick, ItemWords, ListFoot, ListItem, useItems } from "./items.js";
import type { Items } from "./items.js";
import { ELASTICS } from "./kinds.js";
import { NumberLine, textAt, WordsLine } from "./lengths.js";
import type { Body } from "./lengths.js";
import { Form } from "./new.js";

const POINTS = [
  { value: "stretch", says: "Stretch" },
  { value: "ball", says: "Ball point" },
  { value: "light-ball", says: "Light ball point" },
] as const;

/** Threads, as the trade names their fibre. */
export const FIBRES = [
  { value: "spun-polyester", says: "Spun polyester" },
  { value: "textured-polyester", says: "Textured polyester" },
  { value: "textured-polyamide", says: "Textured polyamide" },
  { value: "polyamide-filament", says: "Polyamide filament" },
  { value: "elastic", says: "Elastic thread" },
  { value: "cotton", says: "Cotton" },
] as const;

interface Known {
  readonly value: string;
  readonly says: string;
  /** What a new line of it begins with. */
  readonly start: Body;
  /** Measured, not counted. */
  readonly isLength: boolean;
}

const known = (value: string, says: string, isLength = false, start: Body = {}): Known => ({ value, says, start, isLength });
const THINGS: readonly Known[] = [
  known("elastic", "Elastic", true, { kind: "braided-rubber", width: "8 mm" }),
  known("thread", "Thread", true, { fibre: "spun-polyester" }),
  known("needle", "Needles", false, { point: "stretch", size: 75 }),
  known("cups", "Cups, a pair"),
  known("ring", "Rings"),
  known("slider", "Sliders"),
  known("hook", "Hooks"),
  known("clasp", "Clasps"),
  known("zip", "Zips"),
  known("eyelet", "Eyelets"),
  known("cord", "Cord", true),
  known("boning", "Boning", true),
  known("pins", "Pins or clips"),
];

/** Needles and threads. */
export function NeedlesAndThreads({ doc, room }: { readonly doc: Editable<Body>; readonly room: RoomView | null }) {
  const needles = useItems(doc, "needles");
  const threads = useItems(doc, "threads");
  return (
    <>
      <h3>Needles</h3>
      <Before doc={doc} path="needles" />
      <ul class="shelflist">
        {needles.list.map((needle, at) => (
          <ListItem
            key={at}
            items={needles}
            at={at}
            name={needleWords(needle)}
            about={`${textAt(needle, "count") || "none"} in stock`}
            faults={faultsOf(room, "needles")}
          >
            <NeedleLines items={needles} at={at} />
            <Lines>
              <ItemNumber items={needles} at={at} path="count" name="In stock" />
            </Lines>
          </ListItem>
        ))}
      </ul>
      <ListFoot items={needles} />
      <Add items={needles} doc={doc} path="needles" says="Add needles" item={{ point: "stretch", size: 75, count: 5 }} />
      <h3 class="apart">Thread</h3>
      <Before doc={doc} path="threads" />
      <ul class="shelflist">
        {threads.list.map((thread, at) => (
          <ListItem
            key={at}
            items={threads}
            at={at}
            name={[wordOf(FIBRES, textAt(thread, "fibre")), textAt(thread, "colour")].filter((one) => one !== "").join(", ")}
            about={`${textAt(thread, "metres") || "0"} m`}
            faults={faultsOf(room, "threads")}
          >
            <ItemPick items={threads} at={at} path="fibre" name="Fibre" options={FIBRES} />
            <Lines>
              <ItemNumber items={threads} at={at} path="tex" name="Size" unit="Tex" hint="Grams of a kilometre; left empty it is the usual." />
              <ItemWords items={threads} at={at} path="colour" name="Colour" />
              <ItemNumber items={threads} at={at} path="packages" name="Spools or cones" />
              <ItemNumber items={threads} at={at} path="metres" name="On all of them" unit="m" />
            </Lines>
          </ListItem>
        ))}
      </ul>
      <ListFoot items={threads} />
      <Add items={threads} doc={doc} path="threads" says="Add thread" item={{ fibre: "spun-polyester", packages: 1, metres: 500 }} />
    </>
  );
}

function NeedleLines({ items, at }: { readonly items: Items; readonly at: number }) {
  return (
    <>
      <ItemPick items={items} at={at} path="point" name="Point" options={POINTS} />
      <Lines>
        <ItemNumber items={items} at={at} path="size" name="Size" unit="NM" hint="65, 70, 75, 80 or 90." />
        <ItemLength items={items} at={at} path="twin" name="Twin needle, spacing" hint="Leave it empty for a single one." />
      </Lines>
    </>
  );
}

/** The rest of the stock. */
export function SmallParts({ doc, room }: { readonly doc: Editable<Body>; readonly room: RoomView | null }) {
  const items = useItems(doc, "stock");
  const things = THINGS.filter((thing) => !["elastic", "thread", "needle"].includes(thing.value));
  return (
    <>
      <h3 class="apart">Small parts</h3>
      <p class="reading">Cord and boning too. What is left of a cloth or an elastic stands on its own page.</p>
      <ul class="shelflist">
        {items.list.map((item, at) => (
          <ListItem key={at} items={items} at={at} name={itemWords(item)} about={textAt(item, "amount")} faults={faultsOf(room, "stock")}>
            <Particulars items={items} at={at} />
            <Lines>
              <Amount items={items} at={at} path="amount" name="In stock" />
            </Lines>
          </ListItem>
        ))}
      </ul>
      <ListFoot items={items} />
      <AddThing says="Add to the stock" things={things} items={items} rest={(thing) => ({ amount: thing.isLength ? "1 m" : 1 })} />
    </>
  );
}

/** Prices and packs, the hour and the margin. */
export function Prices({ doc, room }: { readonly doc: Editable<Body>; readonly room: RoomView | null }) {
  const items = useItems(doc, "prices");
  return (
    <>
      <p class="reading">What one pack holds and costs. A cloth's price of a metre stands on its own page, an elastic's too.</p>
      <ul class="shelflist">
        {items.list.map((item, at) => (
          <ListItem
            key={at}
            items={items}
            at={at}
            name={itemWords(item)}
            about={`${textAt(item, "price")} for ${textAt(item, "pack")}`}
            faults={faultsOf(room, "prices")}
          >
            <Particulars items={items} at={at} />
            <Lines>
              <Amount items={items} at={at} path="pack" name="In one pack" />
              <ItemNumber items={items} at={at} path="price" name="Price of a pack" />
            </Lines>
            <ItemTick items={items} at={at} path="whole" name="Sold in whole packs only" usual={!isCutOff(item)} />
          </ListItem>
        ))}
      </ul>
      <ListFoot items={items} />
      <AddThing says="Add a price" things={THINGS} items={items} rest={(thing) => ({ pack: thing.isLength ? (thing.value === "thread" ? "500 m" : "1 m") : 1, price: 0 })} />
      <h3 class="apart">For a quote</h3>
      <Lines>
        <WordsLine doc={doc} path="terms.currency" name="Currency" hint="The word or sign behind an amount." />
        <NumberLine doc={doc} path="terms.hour_rate" name="Price of an hour" unit={textAt(doc.value?.body ?? {}, "terms.currency")} />
        <NumberLine
          doc={doc}
          path="terms.own_hours"
          name="Hours of your own for a suit"
          unit="h"
          hint="What you really take. Left empty, the quote goes by the plan’s own range."
        />
        <NumberLine doc={doc} path="terms.margin" name="Margin" unit="%" hint="On materials and hours together." />
      </Lines>
    </>
  );
}

/** What was written before these were lists. */
function Before({ doc, path }: { readonly doc: Editable<Body>; readonly path: string }) {
  const text = doc.value?.body[path];
  return typeof text === "string" && text !== "" ? <p class="small">Written before: {text}. It is kept among the notes.</p> : null;
}

function Add({ items, doc, path, says, item }: {
  readonly items: Items;
  readonly doc: Editable<Body>;
  readonly path: string;
  readonly says: string;
  readonly item: Body;
}) {
  const add = (): void =>
    void items.trying.run(() => {
      const body = doc.value?.body ?? {};
      const old = body[path];
      const notes = [textAt(body, "notes"), typeof old === "string" ? old : ""].filter((one) => one !== "").join("\n");
      return items.add(item, `${path} added`, typeof old === "string" && old !== "" ? { notes } : {});
    });
  return (
    <Acts>
      <Word onClick={add}>{says}</Word>
    </Acts>
  );
}

function AddThing({ says, things, items, rest }: {
  readonly says: string;
  readonly things: readonly Known[];
  readonly items: Items;
  readonly rest: (thing: Known) => Body;
}) {
  const [adding, setAdding] = useState(false);
  const [which, setWhich] = useState<string | null>(null);
  const trying = useTrying();
  const thing = things.find((one) => one.value === which);
  const add = (): void =>
    void trying.run(async () => {
      if (!thing) return;
      await items.add({ item: thing.value, ...thing.start, ...rest(thing) }, `${thing.says} added`);
      setAdding(false);
    });
  if (!adding) {
    return (
      <Acts>
        <Word onClick={() => setAdding(true)}>{says}</Word>
      </Acts>
    );
  }
  return (
    <Form name={says} ticket={says} trying={trying} onAdd={add} onLeave={() => setAdding(false)}>
      <Pick name="What it is" options={things} value={which} onPick={setWhich} />
      <Trouble problem={trying.problem} />
    </Form>
  );
}

/** What a line is of, beyond its word. */
function Particulars({ items, at }: { readonly items: Items; readonly at: number }) {
  switch (textAt(items.list[at] ?? {}, "item")) {
    case "elastic":
      return (
        <>
          <ItemPick items={items} at={at} path="kind" name="Kind" options={ELASTICS} />
          <Lines>
            <ItemLength items={items} at={at} path="width" name="Width" />
          </Lines>
        </>
      );
    case "thread":
      return <ItemPick items={items} at={at} path="fibre" name="Fibre" options={FIBRES} />;
    case "needle":
      return <NeedleLines items={items} at={at} />;
    default:
      return null;
  }
}

/** An amount as it is written: "2.4 m" of what is measured, a number of the rest. */
function Amount({ items, at, path, name }: { readonly items: Items; readonly at: number; readonly path: string; readonly name: string }) {
  const isLength = THINGS.find((thing) => thing.value === textAt(items.list[at] ?? {}, "item"))?.isLength ?? false;
  if (!isLength) return <ItemNumber items={items} at={at} path={path} name={name} />;
  return <ItemWords items={items} at={at} path={path} name={name} hint="With its unit: 2.4 m, 140 cm, 36 in." />;
}

const isCutOff = (item: Body): boolean => ["elastic", "cord", "boning", "cloth"].includes(textAt(item, "item"));

function wordOf(options: readonly { readonly value: string; readonly says: string }[], value: string): string {
  return options.find((one) => one.value === value)?.says ?? value;
}

function needleWords(needle: Body): string {
  const twin = textAt(needle, "twin");
  return [wordOf(POINTS, textAt(needle, "point")), textAt(needle, "size"), twin === "" ? "" : `twin, ${twin}`].filter((one) => one !== "").join(" ");
}

function itemWords(item: Body): string {
  const what = textAt(item, "item");
  if (what === "elastic") return `Elastic: ${wordOf(ELASTICS, textAt(item, "kind")).toLowerCase()}, ${textAt(item, "width")}`;
  if (what === "thread") return `Thread: ${wordOf(FIBRES, textAt(item, "fibre")).toLowerCase()}`;
  if (what === "needle") return `Needles: ${needleWords(item).toLowerCase()}`;
  if (what === "cloth") return `Cloth: ${textAt(item, "cloth")}`;
  return THINGS.find((thing) => thing.value === what)?.says ?? what;
}
