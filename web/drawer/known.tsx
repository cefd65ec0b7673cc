/** What else is known of it: its name, where it is from, measures under names of her own, a note. */
import { useState } from "preact/hooks";
import type { Problem } from "../lib/quantity.js";
import { withUnit } from "../order/field.js";
import { LengthField } from "../parts/length.js";
import type { Unit } from "../parts/length.js";
import { Line, Lines } from "../parts/line.js";
import { Acts, Word } from "../parts/touch.js";
import { Trouble } from "../parts/trouble.js";
import { headed } from "../register/adapt.js";
import { problemOf, useDocument } from "../register/asking.js";
import { TextField } from "../register/fields.js";
import { WordsLine } from "../register/lengths.js";
import type { Body } from "../register/lengths.js";

/** Keys of a suit's measures are one word in small letters; a name of her own is kept apart from them. */
const KEY = /^[a-z]+(_[a-z]+)*$/;

/** The last section. */
export function Known({ id }: { readonly id: string }) {
  const doc = useDocument<Body>(id);
  const [adding, setAdding] = useState(false);
  if (!doc.value) return <Trouble problem={doc.problem} />;
  const found = doc.value.body["also"];
  const also = typeof found === "object" && found !== null ? (found as Body) : {};
  const measures = doc.value.body["measures"];
  const old = typeof measures === "object" && measures !== null ? Object.entries(measures as Body).filter(([name]) => !KEY.test(name)) : [];
  // A name may hold a dot, which a path would take for a step: they are written as one value.
  const set = (name: string, value: string | null): Promise<void> => {
    const rest = Object.fromEntries(Object.entries(also).filter(([key]) => key !== name));
    return doc.set({ also: value === null ? rest : { ...rest, [name]: value } }, value === null ? `${name} taken out` : `${name} ${value}`);
  };
  return (
    <>
      <Lines name="What else is known">
        <WordsLine doc={doc} path="name" name="Name" />
        <WordsLine doc={doc} path="maker_note" name="What is known of it" />
        <WordsLine doc={doc} path="note" name="Note" kind="long" />
        {old.map(([name, value]) => (
          <Line key={name} name={headed(name)} says={String(value)} />
        ))}
        {Object.entries(also).map(([name, value]) => (
          <Line
            key={name}
            name={headed(name)}
            {...(typeof value === "string" && { says: value })}
            onEdit={{ unit: "cm", units: ["cm", "in"], hint: "Empty takes it out.", onKeep: (text, unit) => set(name, withUnit(text, unit)) }}
          />
        ))}
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
          <Word onClick={() => setAdding(true)}>Note another measure</Word>
        </Acts>
      )}
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
