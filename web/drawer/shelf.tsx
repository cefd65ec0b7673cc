/** The drawer: favourite suits and bought patterns, each with what comes next, and putting one in. */
import { useMemo, useState } from "preact/hooks";
import { Section } from "../frame/section.js";
import { go } from "../lib/router.js";
import { Acts, Ticket, Word } from "../parts/touch.js";
import { make, useLoaded, useTrying, API } from "../register/asking.js";
import type { Document } from "../register/asking.js";
import { Pick, TextField } from "../register/fields.js";
import { textAt } from "../register/lengths.js";
import type { Body } from "../register/lengths.js";
import { Form } from "../register/new.js";
import { Page, Waiting } from "../register/shell.js";

type Of = "suit" | "pattern";

/** `/drawer`. */
export function DrawerPage() {
  const loaded = useLoaded<readonly Document<Body>[]>(`${API}/documents?kind=drawer`, { follow: true });
  const [adding, setAdding] = useState<Of | null>(null);
  const marks = useMemo(
    () => [
      { id: "suits", name: "Suits", state: "good" as const },
      { id: "patterns", name: "Patterns", state: "good" as const },
    ],
    [],
  );
  const items = loaded.value;
  if (!items) return <Waiting title="Drawer" loaded={loaded} />;
  const patterns = items.filter((item) => textAt(item.body, "of") === "pattern");
  const suits = items.filter((item) => textAt(item.body, "of") !== "pattern");
  const leave = (): void => setAdding(null);
  return (
    <Page title="Drawer" lead="Suits that already fit, to be copied in another cloth; bought patterns, to be made to fit." marks={marks}>
      <Section open id="suits" name="Favourite suits" state="good" summary={`${suits.length} kept.`}>
        {suits.length === 0 && <p class="lead">No suit lies here yet. Measure one that fits, flat on the table.</p>}
        <Shelf items={suits} />
        {adding === "suit" ? (
          <NewItem of="suit" onLeave={leave} />
        ) : (
          <Acts>
            <Ticket onClick={() => setAdding("suit")}>Copy a favourite</Ticket>
          </Acts>
        )}
      </Section>
      <Section open id="patterns" name="Bought patterns" state="good" summary={`${patterns.length} kept.`}>
        {patterns.length === 0 && <p class="lead">No bought pattern lies here yet.</p>}
        <Shelf items={patterns} />
        {adding === "pattern" ? (
          <NewItem of="pattern" onLeave={leave} />
        ) : (
          <Acts>
            <Ticket onClick={() => setAdding("pattern")}>Adapt a pattern</Ticket>
          </Acts>
        )}
      </Section>
    </Page>
  );
}

function Shelf({ items }: { readonly items: readonly Document<Body>[] }) {
  return (
    <ul class="shelflist">
      {items.map((item) => {
        const name = textAt(item.body, "name") || "Without a name";
        return (
          <li key={item.id}>
            <div class="folded">
              <h3>{name}</h3>
              <span class="small">{textAt(item.body, "maker_note")}</span>
              <Word href={`/drawer/${encodeURIComponent(item.id)}`}>
                Open<span class="heard">: {name}</span>
              </Word>
            </div>
          </li>
        );
      })}
    </ul>
  );
}

function NewItem({ of, onLeave }: { readonly of: Of; readonly onLeave: () => void }) {
  const [name, setName] = useState("");
  const [units, setUnits] = useState<"cm" | "in" | null>(null);
  const trying = useTrying();
  const what = of === "suit" ? "suit" : "pattern";
  const add = (): void =>
    void trying.run(async () => {
      const id = await make("drawer", { name: name.trim(), of, ...(units !== null && { units }), measures: {} }, `${name.trim()} put into the drawer`);
      go(`/drawer/${encodeURIComponent(id)}`);
    });
  return (
    <Form name={`Put a ${what} into the drawer`} ticket="Put it in" trying={trying} onAdd={add} onLeave={onLeave}>
      <TextField label={`What you call the ${what}`} text={name} problem={trying.problem} onText={setName} onKeep={add} onLeave={onLeave} />
      <Pick
        name="Measured in"
        options={[
          { value: "cm", says: "Centimetres" },
          { value: "in", says: "Inches and eighths" },
        ]}
        value={units}
        onPick={setUnits}
      />
    </Form>
  );
}
