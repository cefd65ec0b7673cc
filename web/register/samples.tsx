/** The sample book: what was sewn, pressed or pulled on a scrap, how far it went, and how it came out. */
import { useMemo, useState } from "preact/hooks";
import type { HomeView, RoomView, ScrapStart, TestView } from "../api/types.js";
import { Photo } from "../cloth/layer.js";
import { Section } from "../frame/section.js";
import { go, place } from "../lib/router.js";
import { asReason, shown } from "../order/quantity.js";
import { Figure } from "../parts/figure.js";
import { Line, Lines } from "../parts/line.js";
import { Ask } from "../parts/slip.js";
import { Acts, Ticket, Word } from "../parts/touch.js";
import { Trouble } from "../parts/trouble.js";
import { API, make, useDocument, useLoaded, useTrying } from "./asking.js";
import type { Document } from "./asking.js";
import { Day, Pick, TextField, Tick } from "./fields.js";
import { FIBRES } from "./goods.js";
import { Faulty } from "./items.js";
import { LengthLine, NumberLine, textAt, WordsLine } from "./lengths.js";
import type { Body } from "./lengths.js";
import { Form } from "./new.js";
import { useShelf } from "./shelf.js";
import { Page, ShelfItem, Waiting } from "./shell.js";

/** Stitches, the plainest first, as the workroom file names them. */
const STITCHES = [
  { value: "straight", says: "Straight" },
  { value: "twin-needle", says: "Twin needle" },
  { value: "zigzag", says: "Zigzag" },
  { value: "three-step", says: "Three-step zigzag" },
  { value: "triple-straight", says: "Triple straight" },
  { value: "slanted", says: "Narrow slanted stretch stitch" },
  { value: "household-overlock", says: "Overlock-like stitch" },
  { value: "chain", says: "Two-thread chainstitch" },
  { value: "two-needle-cover", says: "Two-needle cover" },
  { value: "three-needle-cover", says: "Three-needle cover" },
  { value: "three-thread-overedge", says: "Three-thread overedge" },
  { value: "four-thread-overlock", says: "Four-thread overlock" },
  { value: "top-and-bottom-cover", says: "Top and bottom cover" },
] as const;

const VERDICTS = [
  { value: "good", says: "Good" },
  { value: "not yet", says: "Not yet" },
  { value: "no", says: "Not for this cloth" },
] as const;

/** `/samples`; `?for=SUIT&scrap=PLACE` begins with a scrap of that suit's plan. */
export function SamplesPage() {
  const { items, loaded } = useShelf("sample");
  const { value: room, again } = useLoaded<RoomView>(`${API}/room`, { follow: true });
  const { value: home } = useLoaded<HomeView>(`${API}/home`);
  const [adding, setAdding] = useState(false);
  const [fresh, setFresh] = useState("");
  const marks = useMemo(
    () => [
      { id: "stitches", name: "Stitches", state: "good" as const },
      { id: "irons", name: "Iron", state: "good" as const },
      { id: "elastics", name: "Elastic", state: "good" as const },
      { id: "wet", name: "Wet", state: "good" as const },
    ],
    [],
  );
  const isScrap = place.value.query.has("scrap");
  if (!items) return <Waiting title="Sample book" loaded={loaded} />;
  const stitches = items.filter((item) => textAt(item.body, "of") !== "iron");
  const irons = items.filter((item) => textAt(item.body, "of") === "iron");
  const good = (of: readonly Document<Body>[]): number => of.filter((item) => textAt(item.body, "verdict") === "good").length;
  const onMade = async (id: string): Promise<void> => {
    setFresh(id);
    setAdding(false);
    await loaded.again();
    await again();
  };
  const list = (of: readonly Document<Body>[]) => (
    <ul class="shelflist">
      {of.map((item) => (
        <Sample key={item.id} item={item} room={room} home={home} start={item.id === fresh} />
      ))}
    </ul>
  );
  return (
    <Page title="Sample book" lead="What was really sewn, pressed or pulled on a scrap, and how it came out." marks={marks}>
      <Section open id="stitches" name="Stitches" state="good" summary={`${stitches.length} sewn, ${good(stitches)} good.`}>
        <FromScrap onMade={onMade} />
        {stitches.length === 0 && <p class="lead">No stitch has been proved on a scrap yet.</p>}
        {list(stitches)}
        {adding ? (
          <NewSample onLeave={() => setAdding(false)} onMade={onMade} />
        ) : (
          !isScrap && (
            <Acts>
              <Ticket onClick={() => setAdding(true)}>Add a sample</Ticket>
            </Acts>
          )
        )}
      </Section>
      <Section open id="irons" name="Iron" state="good" summary={`${irons.length} pressed, ${good(irons)} good.`}>
        {irons.length === 0 && <p class="reading">No iron has been tried on a scrap yet. Coolest first, through a cloth.</p>}
        {list(irons)}
      </Section>
      <Section open id="elastics" name="Elastic" state="good" summary="Pulled by itself, washed first.">
        <Lines>
          {(home?.elastics ?? []).map((elastic) => (
            <ElasticLine key={elastic.id} id={elastic.id} name={elastic.name} test={room?.tests.find((test) => test.id === elastic.id)} />
          ))}
        </Lines>
        {home?.elastics.length === 0 && <p class="reading">No elastic is in stock yet.</p>}
      </Section>
      <Section open id="wet" name="Wet" state="good" summary="Each cloth wetted and stretched over a printed page.">
        <p class="reading">How a cloth looks wet is written down on its own page.</p>
        <Acts>
          {(home?.cloths ?? []).map((cloth) => (
            <Word key={cloth.id} href={`/cloths/${encodeURIComponent(cloth.id)}#stock`}>
              {cloth.name}
            </Word>
          ))}
        </Acts>
      </Section>
    </Page>
  );
}

function ElasticLine({ id, name, test }: { readonly id: string; readonly name: string; readonly test: TestView | undefined }) {
  const href = `/elastics/${encodeURIComponent(id)}`;
  return (
    <Line
      name={name}
      {...(test?.extension && { quantity: shown(test.extension) })}
      empty="not pulled"
      asked={<Word href={href}>{test ? "its page" : "pull it"}</Word>}
      {...(test?.extension_why && { why: asReason(test.extension_why) })}
    />
  );
}

/** A scrap the plan of a suit asks for, filled in as far as the plan knows it. */
function FromScrap({ onMade }: { readonly onMade: (id: string) => Promise<void> }) {
  const { query } = place.value;
  const suit = query.get("for");
  const at = query.get("scrap");
  const wanted = suit !== null && at !== null ? `${API}/suits/${encodeURIComponent(suit)}/scraps/${encodeURIComponent(at)}` : null;
  const { value: scrap, problem } = useLoaded<ScrapStart>(wanted);
  const trying = useTrying();
  if (wanted === null) return null;
  if (!scrap) return <Trouble problem={problem} />;
  const leave = (): void => go("/samples", { replace: true });
  const body = scrap.body as Body | null;
  const add = (): void =>
    void trying.run(async () => {
      if (body === null) {
        go(scrap.href);
        return;
      }
      const id = await make("sample", body, `${textAt(body, "name")} added`);
      leave();
      await onMade(id);
    });
  return (
    <Form name="A scrap to sew first" ticket={body === null ? "To its page" : "Write it down"} trying={trying} onAdd={add} onLeave={leave}>
      <p class="lead">{scrap.says}</p>
      <Trouble problem={trying.problem} />
    </Form>
  );
}

function NewSample({ onLeave, onMade }: { readonly onLeave: () => void; readonly onMade: (id: string) => Promise<void> }) {
  const [name, setName] = useState("");
  const [of, setOf] = useState<"stitch" | "iron">("stitch");
  const trying = useTrying();
  const add = (): void =>
    void trying.run(async () => {
      const start = of === "stitch" ? { relaxed: "10 cm", thread: "spun-polyester" } : { heat: 110, press_cloth: true };
      await onMade(await make("sample", { name: name.trim(), of, ...start }, `${name.trim()} added`));
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

interface Shown {
  readonly room: RoomView | null;
  readonly home: HomeView | null;
}

function Sample({ item, room, home, start }: Shown & { readonly item: Document<Body>; readonly start: boolean }) {
  const verdict = VERDICTS.find((one) => one.value === textAt(item.body, "verdict"))?.says.toLowerCase() ?? "no verdict yet";
  const on = textAt(item.body, "on");
  const test = room?.tests.find((one) => one.id === item.id);
  const cloth = home?.cloths.find((one) => one.id === textAt(item.body, "cloth"))?.name ?? "";
  return (
    <ShelfItem
      id={item.id}
      start={start}
      name={textAt(item.body, "name") || "Sample"}
      about={
        <>
          {[verdict, cloth].filter((word) => word !== "").join(", ")}
          {test?.extension && <>, {test.is_at_least ? "at least " : ""}<Figure quantity={shown(test.extension)} /></>}
          {on !== "" && <>, <Day date={on} /></>}
        </>
      }
    >
      <SampleLines id={item.id} room={room} home={home} />
    </ShelfItem>
  );
}

function SampleLines({ id, room, home }: Shown & { readonly id: string }) {
  const doc = useDocument<Body>(id);
  const trying = useTrying();
  if (!doc.value) return <Trouble problem={doc.problem} />;
  const { body } = doc.value;
  const isIron = textAt(body, "of") === "iron";
  const test = room?.tests.find((one) => one.id === id);
  const faults = (room?.faults ?? []).filter((fault) => fault.document === id);
  const choose = (path: string) => (value: string): void => void trying.run(() => doc.set({ [path]: value === "" ? null : value }));
  const before = [textAt(body, "machine"), textAt(body, "settings")].filter((one) => one !== "").join(", ");
  return (
    <>
      <Faulty faults={faults} />
      <div class="choices">
        <Pick name="Verdict" options={VERDICTS} value={VERDICTS.find((one) => one.value === textAt(body, "verdict"))?.value ?? null} onPick={choose("verdict")} />
        {home && home.cloths.length > 0 && (
          <Pick
            name="On which cloth"
            options={home.cloths.map((one) => ({ value: one.id, says: one.name }))}
            value={textAt(body, "cloth") || null}
            onPick={choose("cloth")}
          />
        )}
        {isIron ? (
          <>
            <Tick says="Through a press cloth" done={body["press_cloth"] === true} onTick={(done) => void trying.run(() => doc.set({ press_cloth: done }))} />
            <Tick says="With steam" done={body["steam"] === true} onTick={(done) => void trying.run(() => doc.set({ steam: done }))} />
          </>
        ) : (
          <>
            <Pick name="Stitch" options={STITCHES} value={STITCHES.find((one) => one.value === textAt(body, "stitch"))?.value ?? null} onPick={choose("stitch")} />
            <Pick name="Thread in the needle" options={FIBRES} value={FIBRES.find((one) => one.value === (textAt(body, "thread") || "spun-polyester"))?.value ?? null} onPick={choose("thread")} />
          </>
        )}
      </div>
      <Trouble problem={trying.problem} />
      {before !== "" && <p class="small">Written before: {before}.</p>}
      <Lines>
        <WordsLine doc={doc} path="name" name="Name" />
        {isIron ? (
          <NumberLine doc={doc} path="heat" name="Heat of the sole" unit="°C" hint="One dot is at most 110, two dots 150." />
        ) : (
          <>
            <LengthLine doc={doc} path="width" name="Stitch width" unit="mm" hint="As the dial says; empty for a straight row." />
            <LengthLine doc={doc} path="length" name="Stitch length" unit="mm" hint="As the dial says." />
            <LengthLine doc={doc} path="relaxed" name="Seam at rest" hint="Mark 10 cm on the sewn seam." />
            <LengthLine doc={doc} path="stretched" name="Stretched to" hint="As far as the seam goes." />
            <LengthLine doc={doc} path="first_pop" name="First stitch popped at" hint="Leave empty if none did." />
            <LengthLine doc={doc} path="after" name="After letting go" hint="A minute later, between the same marks." />
          </>
        )}
        <WordsLine doc={doc} path="on" name={isIron ? "Pressed on" : "Sewn on"} kind="date" />
        <WordsLine doc={doc} path="note" name="Note" kind="long" />
      </Lines>
      {test && <Worked test={test} />}
      <Photo
        document={id}
        photo={textAt(body, "photo") || null}
        name={textAt(body, "name") || "the sample"}
        onPhoto={(photo) => doc.set({ photo }, photo === null ? "photo taken out" : "photo of the sample")}
      />
      {textAt(body, "photo") !== "" && <img class="samplephoto" src={`${API}/photos/${encodeURIComponent(textAt(body, "photo"))}`} alt={`Photo of ${textAt(body, "name")}`} />}
    </>
  );
}

/** What the lengths come to, each with its reason. */
export function Worked({ test }: { readonly test: TestView }) {
  if (!test.extension || !test.extension_why) return null;
  return (
    <div class="sampleworked">
      <p>
        Goes {test.is_at_least ? "at least " : ""}
        <Ask label="why so far?" why={asReason(test.extension_why)}>
          <Figure quantity={shown(test.extension)} />
        </Ask>{" "}
        further{test.is_at_least ? "; nothing popped" : ", then pops"}.
      </p>
      {test.growth && test.growth_why && (
        <p>
          Stays{" "}
          <Ask label="why longer?" why={asReason(test.growth_why)}>
            <Figure quantity={shown(test.growth)} />
          </Ask>{" "}
          longer after letting go.
        </p>
      )}
    </div>
  );
}
