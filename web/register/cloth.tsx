/** A cloth's own page and an elastic's: what was read off them, their look, stock, and taking them out with a way back. */
import { useState } from "preact/hooks";
import type { ComponentChildren } from "preact";
import { Pinked } from "../cloth/pinked.js";
import { Photo } from "../cloth/layer.js";
import { LOOKS } from "../cloth/weaves.js";
import type { RoomView } from "../api/types.js";
import type { SectionMark } from "../frame/marks.js";
import { Section } from "../frame/section.js";
import { Lines } from "../parts/line.js";
import { Trouble } from "../parts/trouble.js";
import { API, useDocument, useLoaded, useTrying } from "./asking.js";
import type { Editable } from "./asking.js";
import { Pick, Tick } from "./fields.js";
import { ELASTICS } from "./kinds.js";
import { LengthLine, NumberLine, textAt, WordsLine } from "./lengths.js";
import type { Body } from "./lengths.js";
import { Faulty } from "./items.js";
import { Worked } from "./samples.js";
import { Binned, Page, TakeOut, Waiting } from "./shell.js";

const noMarks: readonly [] = [];
const PLAIN_COLOUR = "#8A9499";

/** The page of a cloth or an elastic: on its way, in the bin with the way back, or as it is. */
function OwnPage({ id, title, marks, children }: {
  readonly id: string;
  /** Its title while it has no name. */
  readonly title: string;
  readonly marks: readonly SectionMark[];
  readonly children: (doc: Editable<Body>, name: string, onGone: (says: string) => void) => ComponentChildren;
}) {
  const doc = useDocument<Body>(id);
  const [gone, setGone] = useState<string | null>(null);
  if (!doc.value) return <Waiting title={title} loaded={doc} />;
  const name = textAt(doc.value.body, "name") || title;
  if (gone !== null || doc.value.in_bin) {
    const back = (): void => {
      setGone(null);
      void doc.again();
    };
    return (
      <Page title={name} marks={noMarks}>
        <Binned id={id} name={name} says={gone ?? ""} onBack={back} />
      </Page>
    );
  }
  return (
    <Page title={name} marks={marks}>
      {children(doc, name, setGone)}
    </Page>
  );
}

const CLOTH_MARKS: readonly SectionMark[] = [
  { id: "swatch", name: "Swatch", state: "good" },
  { id: "pull", name: "Pull", state: "good" },
  { id: "stock", name: "Stock", state: "good" },
];

/** `/cloths/:id`. */
export function ClothPage({ id }: { readonly id: string }) {
  return (
    <OwnPage id={id} title="Cloth" marks={CLOTH_MARKS}>
      {(doc, name, onGone) => (
        <>
          <Section open id="swatch" name="Swatch" state="good" summary="What it is and how it is drawn.">
            <Swatch doc={doc} id={id} name={name} />
          </Section>
          <Section open id="pull" name="Pull" state="good" summary="10 cm on the fold, pulled, and a minute later.">
            <div class="two">
              {(["across", "along"] as const).map((direction) => (
                <div key={direction}>
                  <h3>{direction === "across" ? "Across, selvedge to selvedge" : "Along the selvedge"}</h3>
                  <Lines>
                    <LengthLine doc={doc} path={`${direction}.rest`} name="At rest" hint="Usually 10 cm." />
                    <LengthLine doc={doc} path={`${direction}.pulled`} name="Pulled to" hint="Until it resists sharply." />
                    <LengthLine doc={doc} path={`${direction}.back_to`} name="Back to" hint="A minute after letting go." />
                  </Lines>
                </div>
              ))}
            </div>
            <p class="small">In a suit the test goes step by step, with a ruler on the screen.</p>
          </Section>
          <Section open id="stock" name="Stock and care" state="good" summary="Width, weight, what is left.">
            <Stock doc={doc} />
            <TakeOut id={id} name={name} onGone={onGone} />
          </Section>
        </>
      )}
    </OwnPage>
  );
}

function Swatch({ doc, id, name }: { readonly doc: Editable<Body>; readonly id: string; readonly name: string }) {
  const trying = useTrying();
  const body = doc.value?.body ?? {};
  const look = {
    colour: textAt(body, "look.colour") || PLAIN_COLOUR,
    weave: textAt(body, "look.weave") || "plain",
    photo: textAt(body, "photo") || null,
  };
  const choose = (path: string, value: unknown): void => void trying.run(() => doc.set({ [path]: value }));
  return (
    <div class="ownswatch">
      <Pinked look={look} says={look.photo === null ? `${name}, drawn` : `Photo of ${name}`} />
      <div>
        <Pick
          name="For"
          options={[
            { value: "shell", says: "Shell" },
            { value: "lining", says: "Lining" },
            { value: "mesh", says: "Mesh" },
          ]}
          value={textAt(body, "role") || null}
          onPick={(value) => choose("role", value)}
        />
        <Pick
          name="Drawn as"
          options={LOOKS}
          value={LOOKS.find((one) => one.value === look.weave)?.value ?? null}
          onPick={(value) => choose("look.weave", value)}
        />
        <label class="colourline">
          <input type="color" value={look.colour} onChange={(event) => choose("look.colour", event.currentTarget.value)} />
          <span>Colour it is drawn in</span>
        </label>
        <Trouble problem={trying.problem} />
        <Photo
          document={id}
          photo={look.photo}
          name={name}
          onPhoto={(photo) => doc.set({ photo }, photo === null ? "photo taken out" : "photo of the swatch")}
        />
        <Lines>
          <WordsLine doc={doc} path="name" name="Name" />
        </Lines>
      </div>
    </div>
  );
}

function Stock({ doc }: { readonly doc: Editable<Body> }) {
  const trying = useTrying();
  const body = doc.value?.body ?? {};
  const choose = (path: string) => (value: string): void => void trying.run(() => doc.set({ [path]: value === "" ? null : value }));
  return (
    <>
      <div class="choices">
        <Pick
          name="Direction of print or pile"
          options={[
            { value: "free", says: "Free" },
            { value: "one-way", says: "One way up" },
          ]}
          value={textAt(body, "direction") || "free"}
          onPick={choose("direction")}
        />
        <Pick
          name="Lay it"
          options={[
            { value: "", says: "As it stretches most" },
            { value: "upright", says: "Width round the body" },
            { value: "turned", says: "Length round the body" },
          ]}
          value={textAt(body, "lay")}
          onPick={choose("lay")}
        />
        <Pick
          name="Wet, at worn stretch"
          options={[
            { value: "", says: "Not tested" },
            { value: "opaque", says: "Opaque" },
            { value: "shows", says: "Shows a little" },
            { value: "sheer", says: "Sheer" },
          ]}
          value={textAt(body, "wet")}
          onPick={choose("wet")}
        />
      </div>
      <Tick
        done={body["washed"] === true || body["washed"] === "true"}
        says="Washed before it is cut"
        onTick={(done) => void trying.run(() => doc.set({ washed: done }))}
      />
      <Trouble problem={trying.problem} />
      <Lines>
        <LengthLine doc={doc} path="width" name="Usable width" hint="Between the selvedges." />
        <LengthLine doc={doc} path="stock" name="In stock" hint="As 240, or 2.4 m." />
        <NumberLine doc={doc} path="gsm" name="Weight" unit="g/m²" />
        <NumberLine doc={doc} path="shrinkage.along" name="Shrinks along" unit="%" hint="In the first wash." />
        <NumberLine doc={doc} path="shrinkage.across" name="Shrinks across" unit="%" hint="In the first wash." />
        <NumberLine doc={doc} path="price" name="Price of a metre" unit="" hint="In your currency." />
        <WordsLine doc={doc} path="notes" name="Notes" kind="long" />
      </Lines>
    </>
  );
}

const ELASTIC_MARKS: readonly SectionMark[] = [{ id: "elastic", name: "Elastic", state: "good" }];

/** `/elastics/:id`. */
export function ElasticPage({ id }: { readonly id: string }) {
  return (
    <OwnPage id={id} title="Elastic" marks={ELASTIC_MARKS}>
      {(doc, name, onGone) => (
        <Section open id="elastic" name="Elastic" state="good" summary="Read off the label, or pulled by hand.">
          <Elastic doc={doc} id={id} />
          <TakeOut id={id} name={name} onGone={onGone} />
        </Section>
      )}
    </OwnPage>
  );
}

function Elastic({ doc, id }: { readonly doc: Editable<Body>; readonly id: string }) {
  const trying = useTrying();
  const { value: room } = useLoaded<RoomView>(`${API}/room`, { follow: true });
  const test = room?.tests.find((one) => one.id === id);
  const body = doc.value?.body ?? {};
  const choose = (path: string) => (value: string): void => void trying.run(() => doc.set({ [path]: value === "" ? null : value }));
  return (
    <>
      <div class="choices">
        <Pick name="Kind" options={ELASTICS} value={ELASTICS.find((one) => one.value === textAt(body, "kind"))?.value ?? null} onPick={choose("kind")} />
        <Pick
          name="Natural rubber latex"
          options={[
            { value: "", says: "As usual for the kind" },
            { value: "no", says: "No" },
            { value: "yes", says: "Yes" },
            { value: "ask", says: "Ask the seller" },
          ]}
          value={textAt(body, "latex")}
          onPick={choose("latex")}
        />
      </div>
      <Lines>
        <WordsLine doc={doc} path="name" name="Name" />
        <LengthLine doc={doc} path="width" name="Width" unit="mm" />
        <LengthLine doc={doc} path="stock" name="In stock" />
        <NumberLine doc={doc} path="force" name="Force at double length" unit="N" hint="With a spring scale, pulled to twice its length." />
        <NumberLine doc={doc} path="working_extension" name="Working extension" unit="%" hint="How far it may be stretched in wear." />
        <NumberLine doc={doc} path="price" name="Price of a metre" unit="" hint="In your currency." />
      </Lines>
      <h3 class="apart">Pulled by itself</h3>
      <p class="reading">Wash or soak it first. Mark 10 cm, pull as far as it goes without effort, let go, wait a minute.</p>
      <Faulty faults={(room?.faults ?? []).filter((fault) => fault.document === id)} />
      <Lines>
        <LengthLine doc={doc} path="relaxed" name="Marks at rest" hint="Usually 10 cm." />
        <LengthLine doc={doc} path="stretched" name="Stretched to" hint="As far as it goes without effort." />
        <LengthLine doc={doc} path="after" name="After letting go" hint="A minute later." />
      </Lines>
      {test && <Worked test={test} />}
      <Tick
        done={body["prewashed"] === true}
        says="Washed before it is cut"
        onTick={(done) => void trying.run(() => doc.set({ prewashed: done }))}
      />
      <Trouble problem={trying.problem} />
    </>
  );
}
