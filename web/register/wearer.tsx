/** A wearer's own page: who she is, how she was measured, her readings; and deleting her for good, with all that goes along. */
import { useMemo, useState } from "preact/hooks";
import { Section } from "../frame/section.js";
import { withUnit } from "../order/field.js";
import { get, remove } from "../lib/api.js";
import { Line, Lines } from "../parts/line.js";
import { Acts, Word } from "../parts/touch.js";
import { Trouble } from "../parts/trouble.js";
import { useForm, turnFor } from "../wearer/form.js";
import { Rings } from "../wearer/rings.js";
import { API, useDocument, useTrying } from "./asking.js";
import type { Editable } from "./asking.js";
import { DIMENSIONS } from "./dimensions.js";
import { Pick, Tick } from "./fields.js";
import { NumberLine, textAt, textsAt, WordsLine } from "./lengths.js";
import type { Body } from "./lengths.js";
import { Page, ReallyDelete, Waiting } from "./shell.js";

/** `/wearers/:id`. */
export function WearerPage({ id }: { readonly id: string }) {
  const doc = useDocument<Body>(id);
  const [gone, setGone] = useState<string | null>(null);
  const marks = useMemo(
    () => [
      { id: "body", name: "Body", state: "good" as const },
      { id: "readings", name: "Readings", state: "good" as const },
      { id: "record", name: "Record", state: "good" as const },
    ],
    [],
  );
  if (gone !== null) {
    return (
      <Page title="Deleted" lead={gone} marks={[]}>
        <Acts>
          <Word href="/">To the first page</Word>
        </Acts>
      </Page>
    );
  }
  if (!doc.value) return <Waiting title="Wearer" loaded={doc} />;
  const { body } = doc.value;
  const name = textAt(body, "name");
  const taken = DIMENSIONS.filter(([key]) => textsAt(body, `dimensions.${key}.readings`).length > 0).length;
  return (
    <Page title={name === "" ? "Wearer" : name} lead="All of this stays on this machine." marks={marks}>
      <Section open id="body" name="Body" state="good" summary="Who it is, and how she is measured.">
        <Whole doc={doc} />
      </Section>
      <Section open id="readings" name="Readings" state="good" summary={`${taken} taken. In a suit each is judged.`}>
        <Readings doc={doc} id={id} />
      </Section>
      <Section open id="record" name="Record" state="good" summary="Notes, and taking her off this machine.">
        <Lines>
          <WordsLine doc={doc} path="notes" name="Notes" kind="long" />
        </Lines>
        <Deleting id={id} name={name === "" ? "this wearer" : name} onGone={setGone} />
      </Section>
    </Page>
  );
}

function Whole({ doc }: { readonly doc: Editable<Body> }) {
  const body = doc.value?.body ?? {};
  const trying = useTrying();
  const form = textAt(body, "form");
  const isChild = form === "child" || Number(textAt(body, "age") || 99) < 18;
  const choose = (path: string) => (value: string): void => void trying.run(() => doc.set({ [path]: value }));
  const consent = typeof body["protocol"] === "object" && body["protocol"] !== null && (body["protocol"] as Body)["consent"] === true;
  return (
    <>
      <Pick
        name="Body"
        options={[
          { value: "woman", says: "Woman" },
          { value: "man", says: "Man" },
          { value: "child", says: "Child" },
        ]}
        value={form === "" ? null : form}
        onPick={choose("form")}
      />
      <Trouble problem={trying.problem} />
      <Lines>
        <WordsLine doc={doc} path="name" name="Name" />
        <NumberLine doc={doc} path="age" name="Age" unit="years" hint="Needed for a child." />
        <NumberLine doc={doc} path="mass_kg" name="Body mass" unit="kg" hint="Sharpens estimates; leave it out if she would rather not." />
      </Lines>
      <div class="choices">
        <Pick
          name="Waist taken at"
          options={[
            { value: "natural", says: "The natural waist" },
            { value: "navel", says: "The navel" },
          ]}
          value={textAt(body, "waist_level") === "" ? "natural" : textAt(body, "waist_level")}
          onPick={choose("waist_level")}
        />
        {form !== "child" && (
          <Pick
            name="Front waist length taken"
            options={[
              { value: "over-bust-point", says: "Over the bust point" },
              { value: "midline", says: "Down the middle" },
            ]}
            value={textAt(body, "front_taken") === "" ? "over-bust-point" : textAt(body, "front_taken")}
            onPick={choose("front_taken")}
          />
        )}
      </div>
      <h3 class="apart">Before the tape</h3>
      <Tick
        done={consent}
        says={isChild ? "The carer agrees to the measuring and to the record." : "She agrees to the measuring and to the record."}
        onTick={(done) => void trying.run(() => doc.set({ "protocol.consent": done }))}
      />
      <Lines>
        <WordsLine doc={doc} path="protocol.worn" name="Worn for it" />
        <WordsLine doc={doc} path="protocol.present" name="Present" />
        {isChild && <WordsLine doc={doc} path="protocol.carer" name="Carer" />}
        <WordsLine doc={doc} path="protocol.taken_on" name="Taken on" kind="date" />
        <WordsLine doc={doc} path="protocol.taken_by" name="Taken by" />
        {isChild && <WordsLine doc={doc} path="protocol.again_on" name="Measure again on" kind="date" />}
      </Lines>
    </>
  );
}

/** Without these no form can be computed; it is not asked for before. */
const FORM_NEEDS = ["bust_girth", "waist_girth", "hip_girth", "crotch_length"] as const;

function Readings({ doc, id }: { readonly doc: Editable<Body>; readonly id: string }) {
  const body = doc.value?.body ?? {};
  const isComplete = FORM_NEEDS.every((key) => textsAt(body, `dimensions.${key}.readings`).length > 0);
  const { form } = useForm(id, doc.value && isComplete ? String(doc.value.revision) : null);
  const [turn, setTurn] = useState(turnFor(undefined));
  return (
    <div class="two measuring">
      <div>
        <p class="reading">
          Write readings down here when they come from elsewhere. To take them one after the other, with the tape drawn on the form, open a
          suit for her.
        </p>
        {form && (
          <figure class="formfigure">
            <Rings form={form} turn={turn} onTurn={setTurn} label="The form in section rings." />
            {form.says !== "" && <figcaption class="small">{form.says}</figcaption>}
          </figure>
        )}
      </div>
      <Lines name="Readings">
        {DIMENSIONS.map(([key, name]) => {
          const readings = textsAt(body, `dimensions.${key}.readings`);
          const [first, ...others] = readings;
          return (
            <Line
              key={key}
              name={name}
              {...(first !== undefined && { says: first })}
              {...(others.length > 0 && { hint: `then ${others.join(", ")}` })}
              onEdit={{
                unit: "cm",
                units: ["cm", "in"],
                hint: others.length > 0 ? "Replaces all readings of it." : "Empty takes it out.",
                onKeep: (text, unit) => {
                  const typed = withUnit(text, unit);
                  return doc.set({ [`dimensions.${key}`]: typed === null ? null : { readings: [typed] } });
                },
              }}
            />
          );
        })}
      </Lines>
    </div>
  );
}

function Deleting({ id, name, onGone }: { readonly id: string; readonly name: string; readonly onGone: (says: string) => void }) {
  const [goes, setGoes] = useState<readonly string[] | null>(null);
  const trying = useTrying();
  const at = `${API}/wearers/${encodeURIComponent(id)}`;
  if (goes !== null) {
    return (
      <ReallyDelete
        name={name}
        goes={goes}
        onLeave={() => setGoes(null)}
        onDelete={async () => {
          const gone = await remove<{ readonly says?: string } | undefined>(at);
          onGone(gone?.says ?? `${name} is deleted.`);
        }}
      />
    );
  }
  return (
    <>
      <Acts>
        <Word
          onClick={() =>
            void trying.run(async () => {
              const along = await get<{ readonly says: readonly string[] }>(`${at}/goes-along`);
              setGoes(along.says);
            })
          }
        >
          Delete {name}: see what goes along
        </Word>
      </Acts>
      <Trouble problem={trying.problem} />
    </>
  );
}
