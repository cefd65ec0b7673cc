/** The sample book: what was sewn or pressed on a scrap, and how it came out. */
import { useMemo, useState } from "preact/hooks";
import { Section } from "../frame/section.js";
import type { HomeView } from "../api/types.js";
import { Lines } from "../parts/line.js";
import { Acts, Ticket } from "../parts/touch.js";
import { Trouble } from "../parts/trouble.js";
import { API, make, useDocument, useLoaded, useTrying } from "./asking.js";
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
