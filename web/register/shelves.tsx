/** The sample book and the drawer: what was sewn and proved, what lies there to be copied. */
import { useMemo, useState } from "preact/hooks";
import { Section } from "../frame/section.js";
import type { HomeView } from "../api/types.js";
import { withUnit } from "../order/field.js";
import type { Problem } from "../lib/quantity.js";
import { LengthField } from "../parts/length.js";
import type { Unit } from "../parts/length.js";
import { Line, Lines } from "../parts/line.js";
import { Acts, Ticket, Word } from "../parts/touch.js";
import { Trouble } from "../parts/trouble.js";
import { headed } from "./adapt.js";
import { API, make, problemOf, useDocument, useLoaded, useTrying } from "./asking.js";
import type { Document, Loaded } from "./asking.js";
import { Day, Pick, TextField } from "./fields.js";
import { LengthLine, textAt, WordsLine } from "./lengths.js";
import type { Body } from "./lengths.js";
import { Form } from "./new.js";
import { Page, ShelfItem, Waiting } from "./shell.js";

/** All documents of one kind. */
export function useShelf(kind: string): {
  readonly items: readonly Document<Body>[] | null;
  readonly loaded: Loaded<readonly Document<Body>[]>;
} {
  const loaded = useLoaded<readonly Document<Body>[]>(`${API}/documents?kind=${kind}`, { follow: true });
  return { items: loaded.value, loaded };
}

/** `/samples`. */
export function SamplesPage() {
  const { items, loaded } = useShelf("sample");
  const [adding, setAdding] = useState(false);
  const marks = useMemo(
    () => [
      { id: "stitches", name: "Stitches", state: "good" as const },
      { id: "irons", name: "Iron", state: "good" as const },
    ],
    [],
  );
  if (!items) return <Waiting title="Sample book" loaded={loaded} />;
  const stitches = items.filter((item) => textAt(item.body, "of") !== "iron");
  const irons = items.filter((item) => textAt(item.body, "of") === "iron");
  const good = (of: readonly Document<Body>[]): number => of.filter((item) => textAt(item.body, "verdict") === "good").length;
  return (
    <Page title="Sample book" lead="What was really sewn or pressed on a scrap, and how it came out." marks={marks}>
      <Section open id="stitches" name="Stitches" state="good" summary={`${stitches.length} sewn, ${good(stitches)} good.`}>
        {stitches.length === 0 && <p class="lead">No stitch has been proved on a scrap yet.</p>}
        <ul class="shelflist">
          {stitches.map((item) => (
            <Sample key={item.id} item={item} />
          ))}
        </ul>
        {adding ? (
          <NewSample onLeave={() => setAdding(false)} again={loaded.again} />
        ) : (
          <Acts>
            <Ticket onClick={() => setAdding(true)}>Add a sample</Ticket>
          </Acts>
        )}
      </Section>
      <Section open id="irons" name="Iron" state="good" summary={`${irons.length} pressed, ${good(irons)} good.`}>
        {irons.length === 0 && <p class="reading">No iron has been tried on a scrap yet. Coolest first, through a cloth.</p>}
        <ul class="shelflist">
          {irons.map((item) => (
            <Sample key={item.id} item={item} />
          ))}
        </ul>
      </Section>
    </Page>
  );
}

function NewSample({ onLeave, again }: { readonly onLeave: () => void; readonly again: () => Promise<void> }) {
  const [name, setName] = useState("");
  const [of, setOf] = useState<"stitch" | "iron">("stitch");
  const trying = useTrying();
  const add = (): void =>
    void trying.run(async () => {
      await make("sample", { name: name.trim(), of }, `${name.trim()} added`);
      await again();
      onLeave();
    });
  return (
    <Form name="Add a sample" ticket="Add the sample" trying={trying} onAdd={add} onLeave={onLeave}>
      <Pick
        name="A sample of"
        options={[
          { value: "stitch", says: "A stitch" },
          { value: "iron", says: "The iron" },
        ]}
        value={of}
        onPick={setOf}
      />
      <TextField
        label="What you call it"
        hint={of === "stitch" ? "As: three-step zigzag, 5 by 1.3." : "As: two dots, through a cloth."}
        text={name}
        problem={trying.problem}
        onText={setName}
        onKeep={add}
        onLeave={onLeave}
      />
    </Form>
  );
}

function Sample({ item }: { readonly item: Document<Body> }) {
  const verdict = textAt(item.body, "verdict");
  const on = textAt(item.body, "on");
  return (
    <ShelfItem
      id={item.id}
      name={textAt(item.body, "name") || "Sample"}
      about={
        <>
          {[verdict === "" ? "no verdict yet" : verdict, textAt(item.body, "machine")].filter((word) => word !== "").join(", ")}
          {on !== "" && <>, <Day date={on} /></>}
        </>
      }
    >
      <SampleLines id={item.id} />
    </ShelfItem>
  );
}

function SampleLines({ id }: { readonly id: string }) {
  const doc = useDocument<Body>(id);
  const { value: home } = useLoaded<HomeView>(`${API}/home`);
  const trying = useTrying();
  if (!doc.value) return <Trouble problem={doc.problem} />;
  const { body } = doc.value;
  const isIron = textAt(body, "of") === "iron";
  const choose = (path: string) => (value: string): void => void trying.run(() => doc.set({ [path]: value === "" ? null : value }));
  return (
    <>
      <div class="choices">
        <Pick
          name="Verdict"
          options={[
            { value: "good", says: "Good" },
            { value: "not yet", says: "Not yet" },
          ]}
          value={textAt(body, "verdict") || null}
          onPick={choose("verdict")}
        />
        {home && home.cloths.length > 0 && (
          <Pick
            name="On which cloth"
            options={[...home.cloths.map((one) => ({ value: one.id, says: one.name })), { value: "", says: "Another" }]}
            value={textAt(body, "cloth")}
            onPick={choose("cloth")}
          />
        )}
      </div>
      <Trouble problem={trying.problem} />
      <Lines>
        <WordsLine doc={doc} path="name" name="Name" />
        {!isIron && <WordsLine doc={doc} path="machine" name="Machine" />}
        <WordsLine
          doc={doc}
          path="settings"
          name={isIron ? "Setting" : "Settings"}
          hint={isIron ? "Dots, steam, press cloth." : "Stitch, width, length, tensions, needle, thread."}
        />
        {!isIron && (
          <>
            <LengthLine doc={doc} path="relaxed" name="Seam at rest" hint="Mark 10 cm on the sewn seam." />
            <LengthLine doc={doc} path="stretched" name="Stretched to" hint="As far as the seam must go." />
            <LengthLine doc={doc} path="first_pop" name="First stitch popped at" hint="Leave empty if none did." />
          </>
        )}
        <WordsLine doc={doc} path="on" name="Sewn on" kind="date" />
        <WordsLine doc={doc} path="note" name="Note" kind="long" />
      </Lines>
    </>
  );
}

/** `/drawer`. */
export function DrawerPage() {
  const { items, loaded } = useShelf("drawer");
  const [adding, setAdding] = useState(false);
  const marks = useMemo(() => [{ id: "drawer", name: "Drawer", state: "good" as const }], []);
  if (!items) return <Waiting title="Drawer" loaded={loaded} />;
  return (
    <Page title="Drawer" lead="Bought patterns, and suits that already fit, measured flat on the table." marks={marks}>
      <Section open id="drawer" name="What lies in it" state="good" summary={`${items.length} kept.`}>
        {items.length === 0 && <p class="lead">The drawer is empty.</p>}
        <ul class="shelflist">
          {items.map((item) => (
            <ShelfItem
              key={item.id}
              id={item.id}
              name={textAt(item.body, "name") || "Without a name"}
              about={`${textAt(item.body, "of") === "pattern" ? "bought pattern" : "suit"}, ${Object.keys(measuresOf(item.body)).length} measured`}
            >
              <DrawerLines id={item.id} />
            </ShelfItem>
          ))}
        </ul>
        {adding ? (
          <NewDrawer onLeave={() => setAdding(false)} again={loaded.again} />
        ) : (
          <Acts>
            <Ticket onClick={() => setAdding(true)}>Add to the drawer</Ticket>
          </Acts>
        )}
      </Section>
    </Page>
  );
}

function measuresOf(body: Body): Readonly<Record<string, unknown>> {
  const measures = body["measures"];
  return typeof measures === "object" && measures !== null ? (measures as Body) : {};
}

function NewDrawer({ onLeave, again }: { readonly onLeave: () => void; readonly again: () => Promise<void> }) {
  const [name, setName] = useState("");
  const [of, setOf] = useState<"suit" | "pattern">("suit");
  const trying = useTrying();
  const add = (): void =>
    void trying.run(async () => {
      await make("drawer", { name: name.trim(), of, measures: {} }, `${name.trim()} added`);
      await again();
      onLeave();
    });
  return (
    <Form name="Add to the drawer" ticket="Add it" trying={trying} onAdd={add} onLeave={onLeave}>
      <Pick
        name="What it is"
        options={[
          { value: "suit", says: "A suit that fits" },
          { value: "pattern", says: "A bought pattern" },
        ]}
        value={of}
        onPick={setOf}
      />
      <TextField label="What you call it" text={name} problem={trying.problem} onText={setName} onKeep={add} onLeave={onLeave} />
    </Form>
  );
}

/** Measures asked for at first; any others can be added under her own name. */
const USUAL = [
  "across the chest, flat",
  "across the waist, flat",
  "across the hip, flat",
  "side seam",
  "strap",
  "strap to crotch, front",
  "strap to crotch, back",
  "crotch width",
];

function DrawerLines({ id }: { readonly id: string }) {
  const doc = useDocument<Body>(id);
  const [adding, setAdding] = useState(false);
  if (!doc.value) return <Trouble problem={doc.problem} />;
  const measures = measuresOf(doc.value.body);
  const names = [...USUAL, ...Object.keys(measures).filter((name) => !USUAL.includes(name))];
  // A name may hold a dot, which a path would take for a step: the measures are written as one value.
  const set = (name: string, value: string | null): Promise<void> => {
    const rest = Object.fromEntries(Object.entries(measures).filter(([key]) => key !== name));
    return doc.set({ measures: value === null ? rest : { ...rest, [name]: value } });
  };
  return (
    <>
      <p class="reading">Lay it flat and unstretched, smooth it without pulling, and measure from edge to edge.</p>
      <Lines name="Measured flat">
        {names.map((name) => {
          const value = measures[name];
          return (
            <Line
              key={name}
              name={headed(name)}
              {...(typeof value === "string" && { says: value })}
              onEdit={{ unit: "cm", units: ["cm", "in"], hint: "Empty takes it out.", onKeep: (text, unit) => set(name, withUnit(text, unit)) }}
            />
          );
        })}
      </Lines>
      {adding ? (
        <NewMeasure
          onLeave={() => setAdding(false)}
          onKeep={async (name, value) => {
            await set(name, value);
            setAdding(false);
          }}
        />
      ) : (
        <Acts>
          <Word onClick={() => setAdding(true)}>Add a measure</Word>
        </Acts>
      )}
      <Lines>
        <WordsLine doc={doc} path="name" name="Name" />
        <WordsLine doc={doc} path="maker_note" name="What is known of it" />
        <WordsLine doc={doc} path="note" name="Note" kind="long" />
      </Lines>
    </>
  );
}

function NewMeasure({ onKeep, onLeave }: { readonly onKeep: (name: string, value: string) => Promise<void>; readonly onLeave: () => void }) {
  const [name, setName] = useState("");
  const [text, setText] = useState("");
  const [unit, setUnit] = useState<Unit>("cm");
  const [problem, setProblem] = useState<Problem | null>(null);
  const keep = async (): Promise<void> => {
    const value = withUnit(text, unit);
    if (name.trim() === "" || value === null) {
      setProblem({ what: "It wants a name and a length." });
      return;
    }
    try {
      await onKeep(name.trim(), value);
    } catch (error) {
      setProblem(problemOf(error));
    }
  };
  return (
    <div class="startform">
      <TextField label="What was measured" text={name} onText={setName} onLeave={onLeave} />
      <LengthField
        label="Length"
        text={text}
        unit={unit}
        units={["cm", "in"]}
        problem={problem}
        onText={setText}
        onUnit={setUnit}
        onKeep={() => void keep()}
        onLeave={onLeave}
      />
      <Acts>
        <Word onClick={() => void keep()}>Keep it</Word>
        <Word onClick={onLeave}>Leave it</Word>
      </Acts>
    </div>
  );
}

