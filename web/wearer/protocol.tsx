/** How the body was measured: what was worn, who was there, consent, when and by whom; for a child also the carer. */
import { useState } from "preact/hooks";
import type { State } from "../api/types.js";
import { fieldId } from "../order/context.js";
import type { OrderTools } from "../order/context.js";
import { Icon } from "../parts/icon.js";
import { Lines } from "../parts/line.js";
import { Word } from "../parts/touch.js";
import { Trouble } from "../parts/trouble.js";
import { Day, TextLine, Tick } from "../register/fields.js";

/** Open while something of it is missing; otherwise a line that can be unfolded. It comes before the first reading. */
export function Protocol({ tools }: { readonly tools: OrderTools }) {
  const { wearer } = tools.order.value;
  const { protocol } = wearer;
  const [open, setOpen] = useState<boolean | null>(null);
  const isWanted = tools.wanted.value?.startsWith("protocol.") ?? false;
  const isOpen = isWanted || (open ?? protocol.missing.length > 0);
  const id = wearer.id;
  if (id === null) return null;
  const keep = (path: string) => (text: string): Promise<void> =>
    tools.keep([{ document: id, path: `protocol.${path}`, value: text === "" ? null : text }]);
  const lacks = (path: string): State => protocol.missing.find((note) => note.field === `protocol.${path}`)?.state ?? "good";
  // What stands in the margin is not said twice.
  const openNotes = protocol.missing.filter((note) => !wearer.head.notes.some((other) => other.says === note.says));
  const consent = fieldId("protocol.consent");
  return (
    <div class="protocol">
      <div class="folded">
        <h3>Before the tape</h3>
        {!isOpen && (
          <span class="small">
            {protocol.taken_on === "" ? "Not taken yet" : <>Taken <Day date={protocol.taken_on} /></>}
            {protocol.taken_by !== "" && <>, by {protocol.taken_by}</>}
            {protocol.consent && <>. Consent given</>}.
          </span>
        )}
        <Word expanded={isOpen} onClick={() => setOpen(!isOpen)}>
          {isOpen ? "Fold it away" : "Unfold"}
          <span class="heard"> how she was measured</span>
        </Word>
      </div>
      {isOpen && (
        <>
          <p class="reading">{sentence(protocol.before)}</p>
          {openNotes.map((note) => (
            <p key={note.says} class={`inline ${note.state}`}>
              <Icon name={note.state} />
              <span>
                {note.says} {note.next}{" "}
                {note.try_this && (
                  <Word onClick={() => void (note.try_this && tools.edit(note.try_this.changes))}>{note.try_this.words}</Word>
                )}
              </span>
            </p>
          ))}
          <div id={consent}>
            <Tick
              done={protocol.consent}
              says={
                protocol.is_minor
                  ? "The carer agrees to the measuring and to the record; the child may stop it any time."
                  : "She agrees to the measuring and to the record."
              }
              onTick={(done) => void tools.edit([{ document: id, path: "protocol.consent", value: done }])}
            />
            <Trouble problem={tools.troubles.value.get(consent) ?? null} />
          </div>
          <Lines name="How she was measured">
            <Field path="worn" name="Worn for it" value={protocol.worn} state={lacks("worn")} onKeep={keep("worn")} />
            <Field path="present" name="Present" value={protocol.present} state={lacks("present")} onKeep={keep("present")} />
            {protocol.is_minor && (
              <Field path="carer" name="Carer" value={protocol.carer} state={lacks("carer")} onKeep={keep("carer")} />
            )}
            <Field path="taken_on" name="Taken on" value={protocol.taken_on} kind="date" state={lacks("taken_on")} onKeep={keep("taken_on")} />
            <Field path="taken_by" name="Taken by" value={protocol.taken_by} state={lacks("taken_by")} onKeep={keep("taken_by")} />
            {(protocol.is_minor || protocol.again_on !== "") && (
              <Field
                path="again_on"
                name="Measure again on"
                value={protocol.again_on}
                kind="date"
                state={lacks("again_on")}
                onKeep={keep("again_on")}
              />
            )}
          </Lines>
        </>
      )}
    </div>
  );
}

function Field({ path, name, value, kind = "text", state, onKeep }: {
  readonly path: string;
  readonly name: string;
  readonly value: string;
  readonly kind?: "text" | "date";
  readonly state: State;
  readonly onKeep: (text: string) => Promise<void>;
}) {
  return <TextLine id={fieldId(`protocol.${path}`)} name={name} value={value} kind={kind} state={state} onKeep={onKeep} />;
}

/** A phrase as a sentence. */
export function sentence(words: string): string {
  if (words === "") return "";
  const start = words.charAt(0).toUpperCase() + words.slice(1);
  return /[.!?]$/.test(start) ? start : `${start}.`;
}
