/** A wearer's own page: who she is, how she was measured, her readings; and deleting her for good, with all that goes along. */
import { useMemo, useState } from "preact/hooks";
import type { DimensionView, Note as Found, SidedView, WearerView } from "../api/types.js";
import { Note } from "../frame/margin.js";
import { Section } from "../frame/section.js";
import { sectionState } from "../order/context.js";
import { withUnit } from "../order/field.js";
import { get, remove } from "../lib/api.js";
import { opensItself, worst as worstOf } from "../lib/state.js";
import type { State } from "../lib/state.js";
import { Line, Lines } from "../parts/line.js";
import { Acts, Word } from "../parts/touch.js";
import { Trouble } from "../parts/trouble.js";
import { useForm, turnFor } from "../wearer/form.js";
import { Rings } from "../wearer/rings.js";
import { headed } from "./adapt.js";
import { API, useDocument, useLoaded, useTrying } from "./asking.js";
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
  const judged = useLoaded<WearerView>(`${API}/wearers/${encodeURIComponent(id)}`, { follow: true });
  const open = judged.value ? openOf(judged.value) : null;
  const [ofBody, ofReadings] = [worst(open?.protocol), worst(open?.readings)];
  const marks = useMemo(
    () => [
      { id: "body", name: "Body", state: ofBody },
      { id: "readings", name: "Readings", state: ofReadings },
      { id: "record", name: "Record", state: "good" as const },
    ],
    [ofBody, ofReadings],
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
  return (
    <Page title={name === "" ? "Wearer" : name} lead="All of this stays on this machine." marks={marks}>
      <Section
        open
        id="body"
        name="Body"
        state={ofBody}
        summary="Who it is, and how she is measured."
        {...(open && open.protocol.length > 0 && { notes: <Notes of={open.protocol} /> })}
      >
        <Whole doc={doc} />
      </Section>
      <Section
        open
        id="readings"
        name="Readings"
        state={ofReadings}
        summary={judged.value ? standing(judged.value) : ""}
        {...(open && open.readings.length > 0 && { notes: <Notes of={open.readings} /> })}
      >
        <Trouble problem={judged.problem} />
        <Readings doc={doc} id={id} lines={judged.value?.dimensions ?? []} />
        <RightSide doc={doc} sided={judged.value?.sided ?? []} />
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

/** What is still open of a wearer on her own: of how she was measured, and of the readings. */
function openOf(view: WearerView): { readonly protocol: readonly Found[]; readonly readings: readonly Found[] } {
  const isOpen = (note: Found): boolean => opensItself(sectionState(note.state));
  const protocol = view.protocol.missing.filter(isOpen);
  return {
    protocol,
    readings: view.head.notes.filter((note) => isOpen(note) && !protocol.some((other) => other.says === note.says)),
  };
}

function worst(notes: readonly Found[] = []): State {
  return worstOf(notes.map((note) => sectionState(note.state)));
}

/** `21 taken, 1 in doubt, 2 missing.` */
function standing(view: WearerView): string {
  const used = view.dimensions.filter((line) => line.need !== "not used");
  const count = (state: State, words: string): string[] => {
    const n = used.filter((line) => line.state === state).length;
    return n === 0 ? [] : [`${n} ${words}`];
  };
  const taken = used.filter((line) => line.readings.length > 0).length;
  return `${[`${taken} taken`, ...count("stop", "refused"), ...count("doubtful", "in doubt"), ...count("missing", "missing")].join(", ")}.`;
}

function Notes({ of }: { readonly of: readonly Found[] }) {
  return (
    <>
      {of.map((note) => (
        <Note
          key={`${note.field ?? ""} ${note.says}`}
          state={note.state}
          says={note.says}
          {...(note.next !== "" && { next: note.next })}
          {...(note.field !== null && { by: lineId(note.field) })}
        />
      ))}
    </>
  );
}

/** Where a note stands beside: the line of its field. */
function lineId(field: string): string {
  return `of-${field.replaceAll(".", "-")}`;
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

function Readings({ doc, id, lines }: {
  readonly doc: Editable<Body>;
  readonly id: string;
  readonly lines: readonly DimensionView[];
}) {
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
          const state = sectionState(lines.find((line) => line.key === key)?.state ?? "good");
          return (
            <Line
              key={key}
              id={lineId(`dimensions.${key}`)}
              name={name}
              state={state}
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

/** What differs on the right; folded away while both sides are alike. */
function RightSide({ doc, sided }: { readonly doc: Editable<Body>; readonly sided: readonly SidedView[] }) {
  const written = sided.filter((one) => one.right.typed !== null);
  const [open, setOpen] = useState(false);
  if (sided.length === 0) return null;
  return (
    <details class="more group" open={open} onToggle={(event) => setOpen(event.currentTarget.open)}>
      <summary>
        <span class="groupname">Left and right differ</span>
        <span class="small">{written.length === 0 ? "taken as alike" : headed(written.map((one) => one.name).join(", "))}</span>
      </summary>
      {open && (
        <div class="groupbody">
          <p class="reading">Write the right side where it is more than a finger’s width off the left. The reading above is then her left.</p>
          <Lines name="Right side">
            {sided.map((one) => (
              <Line
                key={one.right.path}
                id={lineId(one.right.path)}
                name={one.right.label}
                state={sectionState(one.right.state)}
                empty="as the left"
                {...(one.right.typed !== null && { says: one.right.typed })}
                onEdit={{
                  unit: "cm",
                  units: ["cm", "in"],
                  hint: "Empty makes both sides alike.",
                  onKeep: (text, unit) => doc.set({ [one.right.path]: withUnit(text, unit) }),
                }}
              />
            ))}
          </Lines>
        </div>
      )}
    </details>
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
