/** Classes: several wearers, one design; a kit for each of them, made in one go. */
import { useMemo, useState } from "preact/hooks";
import { Section } from "../frame/section.js";
import type { HomeView } from "../api/types.js";
import { Plan } from "../class/plan.js";
import { Lines } from "../parts/line.js";
import { Acts, Ticket, Word } from "../parts/touch.js";
import { Trouble } from "../parts/trouble.js";
import { API, make, useDocument, useLoaded, useTrying } from "./asking.js";
import type { Document } from "./asking.js";
import { Pick, TextField, Tick } from "./fields.js";
import { JobLine, useJob } from "./jobs.js";
import { NumberLine, textAt, textsAt, WordsLine } from "./lengths.js";
import type { Body } from "./lengths.js";
import { Form } from "./new.js";
import { Page, ShelfItem, Waiting } from "./shell.js";
import { useShelf } from "./shelf.js";

/** `/classes`. */
export function ClassesPage() {
  const { items, loaded } = useShelf("class");
  const { value: home } = useLoaded<HomeView>(`${API}/home`, { follow: true });
  const [adding, setAdding] = useState(false);
  const marks = useMemo(() => [{ id: "classes", name: "Classes", state: "good" as const }], []);
  if (!items) return <Waiting title="Classes" loaded={loaded} />;
  return (
    <Page title="Classes" lead="Several bodies, one design, a kit for each." marks={marks}>
      <Section open id="classes" name="Taught here" state="good" summary={items.length === 1 ? "One class." : `${items.length} classes.`}>
        {items.length === 0 && <p class="lead">No class is planned yet.</p>}
        <ul class="shelflist">
          {items.map((item) => (
            <ShelfItem key={item.id} id={item.id} name={textAt(item.body, "name") || "Class"} about={about(item, home)}>
              <ClassLines id={item.id} home={home} />
            </ShelfItem>
          ))}
        </ul>
        {adding ? (
          <NewClass onLeave={() => setAdding(false)} again={loaded.again} />
        ) : (
          <Acts>
            {items.length === 0 ? <Ticket onClick={() => setAdding(true)}>Plan a class</Ticket> : <Word onClick={() => setAdding(true)}>Plan a class</Word>}
          </Acts>
        )}
      </Section>
    </Page>
  );
}

function about(item: Document<Body>, home: HomeView | null): string {
  const suit = home?.suits.find((one) => one.id === textAt(item.body, "design_of"));
  const count = textsAt(item.body, "wearers").length;
  return [suit ? `design of ${suit.name}` : "no design chosen", count === 1 ? "one learner" : `${count} learners`, textAt(item.body, "when")]
    .filter((word) => word !== "")
    .join(", ");
}

function NewClass({ onLeave, again }: { readonly onLeave: () => void; readonly again: () => Promise<void> }) {
  const [name, setName] = useState("");
  const trying = useTrying();
  const add = (): void =>
    void trying.run(async () => {
      await make("class", { name: name.trim(), wearers: [] }, `${name.trim()} planned`);
      await again();
      onLeave();
    });
  return (
    <Form name="Plan a class" ticket="Plan it" trying={trying} onAdd={add} onLeave={onLeave}>
      <TextField label="Name of the class" text={name} problem={trying.problem} onText={setName} onKeep={add} onLeave={onLeave} />
    </Form>
  );
}

/** What may be chosen of a class; the first of each is as usual. */
const CHOICES: readonly { readonly path: string; readonly name: string; readonly options: readonly { readonly value: string; readonly says: string }[] }[] = [
  {
    path: "pace",
    name: "Minutes reckoned",
    options: [
      { value: "middle", says: "the middle of each range" },
      { value: "slow", says: "the slow end" },
    ],
  },
  {
    path: "bags",
    name: "Cloth in the bags",
    options: [
      { value: "lengths", says: "a length off the roll" },
      { value: "pieces", says: "cut pieces" },
    ],
  },
  {
    path: "edition",
    name: "Booklet",
    options: [
      { value: "class", says: "to fill in" },
      { value: "maker", says: "filled in" },
    ],
  },
  {
    path: "language",
    name: "Language of the paper",
    options: [
      { value: "en", says: "English" },
      { value: "de", says: "Deutsch" },
    ],
  },
];

function ClassLines({ id, home }: { readonly id: string; readonly home: HomeView | null }) {
  const doc = useDocument<Body>(id);
  const trying = useTrying();
  const kits = useJob(`${API}/classes/${encodeURIComponent(id)}/kits`);
  if (!doc.value) return <Trouble problem={doc.problem} />;
  const { body } = doc.value;
  const chosen = textsAt(body, "wearers");
  const design = textAt(body, "design_of");
  const lacks = design === "" ? "Choose a design first." : chosen.length === 0 ? "Tick who takes part first." : "";
  return (
    <>
      {home && (
        <>
          {home.suits.length === 0 ? (
            <p class="reading">A class takes its design from a suit; there is none yet.</p>
          ) : (
            <Pick
              name="Design of"
              options={home.suits.map((one) => ({ value: one.id, says: `${one.number} ${one.name}` }))}
              value={design === "" ? null : design}
              onPick={(suit) => void trying.run(() => doc.set({ design_of: suit }))}
            />
          )}
          <p class="small label">Who takes part</p>
          {home.wearers.length === 0 && <p class="reading">Nobody has been measured yet.</p>}
          <ul class="ticks">
            {home.wearers.map((one) => (
              <li key={one.id}>
                <Tick
                  done={chosen.includes(one.id)}
                  says={one.name}
                  onTick={(done) =>
                    void trying.run(() => doc.set({ wearers: done ? [...chosen, one.id] : chosen.filter((other) => other !== one.id) }))
                  }
                />
              </li>
            ))}
          </ul>
        </>
      )}
      <Trouble problem={trying.problem} />
      <Lines>
        <WordsLine doc={doc} path="name" name="Name" />
        <WordsLine doc={doc} path="when" name="When" hint="As: Saturdays, ten to one." />
        <NumberLine doc={doc} path="hours" name="Hours of a session" unit="h" hint="Without breaks, as: 2.5. Three when nothing is written." />
        <WordsLine doc={doc} path="notes" name="Notes" kind="long" />
      </Lines>
      <p class="small label">Machines in the room; those of the workroom when nothing is written</p>
      <Lines>
        <NumberLine doc={doc} path="machines.zigzag" name="Zigzag machines" unit="" />
        <NumberLine doc={doc} path="machines.overlocker" name="Overlockers" unit="" />
        <NumberLine doc={doc} path="machines.coverstitch" name="Coverstitch machines" unit="" />
        <NumberLine doc={doc} path="machines.straight" name="Straight-stitch machines" unit="" />
      </Lines>
      <div class="choices">
        {CHOICES.map(({ path, name, options }) => (
          <Pick
            key={path}
            name={name}
            options={options}
            value={textAt(body, path) === "" ? (options[0]?.value ?? null) : textAt(body, path)}
            onPick={(to) => void trying.run(() => doc.set({ [path]: to }))}
          />
        ))}
        <Tick
          done={body["proved_before"] === true}
          says="Scraps are sewn before the class meets"
          onTick={(done) => void trying.run(() => doc.set({ proved_before: done }))}
        />
      </div>
      <Acts>
        <Ticket off={lacks !== "" || kits.isRunning} describedBy={`${id}-lacks`} onClick={kits.start}>
          Make the kits
        </Ticket>
        <span id={`${id}-lacks`} class="small">
          {lacks === "" ? "A folder for each learner, the lay plans, one shopping list, one timetable." : lacks}
        </span>
      </Acts>
      <JobLine working={kits} file="Take the kits" />
      {lacks === "" && <Plan id={id} made={kits.job?.state === "done"} />}
    </>
  );
}
