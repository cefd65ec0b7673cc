/** Fields of the register: lines changed in place, words to choose, a text to fill in, a tick, a file to take. */
import { useEffect, useId, useRef, useState } from "preact/hooks";
import type { ComponentChildren } from "preact";
import { dateInWords } from "../lib/dates.js";
import type { Problem } from "../lib/quantity.js";
import { word } from "../lib/state.js";
import type { Mark } from "../lib/state.js";
import { Choice } from "../parts/choice.js";
import { Icon } from "../parts/icon.js";
import { Trouble } from "../parts/trouble.js";
import { Acts, Word } from "../parts/touch.js";
import { problemOf } from "./asking.js";

/** A line of words, changed in place. `onKeep` gets the text as typed; a rejection keeps the field open and says why. */
export function TextLine({ id, name, value, shown, second, hint, state = "good", kind = "text", empty = "not written", onKeep }: {
  /** For a link that goes there. */
  readonly id?: string;
  readonly name: string;
  /** What stands in the field. */
  readonly value: string;
  /** What the closed line shows, when it is more than the text. */
  readonly shown?: ComponentChildren;
  readonly second?: ComponentChildren;
  readonly hint?: string;
  readonly state?: Mark;
  readonly kind?: "text" | "long" | "date" | "number";
  /** The pencil word while there is nothing. */
  readonly empty?: string;
  readonly onKeep: (text: string) => Promise<void>;
}) {
  const [open, setOpen] = useState(false);
  const opener = useRef<HTMLButtonElement>(null);
  const wasOpen = useRef(false);
  useEffect(() => {
    if (wasOpen.current && !open) opener.current?.focus();
    wasOpen.current = open;
  }, [open]);
  const none = value === "" && shown === undefined;
  return (
    <div {...(id !== undefined && { id })} class={`line wordy ${state}${open ? " open" : ""}${none ? " empty" : ""}`}>
      <dt>
        {state !== "good" && <Icon name={state} />}
        {state !== "good" && <span class="heard">{word[state]}: </span>}
        {name}
      </dt>
      {open ? (
        <dd class="editing">
          <Editor name={name} start={value} kind={kind} onKeep={onKeep} onClose={() => setOpen(false)} {...(hint !== undefined && { hint })} />
        </dd>
      ) : (
        <>
          <dd class="value">
            <button ref={opener} type="button" class="edit" onClick={() => setOpen(true)}>
              {shown ?? (none ? empty : kind === "date" ? <Day date={value} /> : value)}
              <span class="heard">, change {name}</span>
            </button>
          </dd>
          <dd class="second">{second}</dd>
        </>
      )}
    </div>
  );
}

function Editor({ name, start, kind, hint, onKeep, onClose }: {
  readonly name: string;
  readonly start: string;
  readonly kind: "text" | "long" | "date" | "number";
  readonly hint?: string;
  readonly onKeep: (text: string) => Promise<void>;
  readonly onClose: () => void;
}) {
  const [text, setText] = useState(start);
  const [problem, setProblem] = useState<Problem | null>(null);
  const busy = useRef(false);
  const field = useRef<HTMLInputElement & HTMLTextAreaElement>(null);
  useEffect(() => {
    field.current?.focus();
    if (kind !== "date") field.current?.select();
  }, []);
  const keep = async (): Promise<void> => {
    if (busy.current) return;
    if (text.trim() === start) {
      onClose();
      return;
    }
    busy.current = true;
    setProblem(null);
    try {
      await onKeep(text.trim());
      onClose();
    } catch (error) {
      setProblem(problemOf(error));
      field.current?.focus();
    } finally {
      busy.current = false;
    }
  };
  return (
    <>
      <TextField
        hideLabel
        label={name}
        text={text}
        kind={kind}
        fieldRef={field}
        problem={problem}
        onText={setText}
        onKeep={() => void keep()}
        onLeave={onClose}
        {...(hint !== undefined && { hint })}
      />
      <Acts>
        <Word onClick={() => void keep()}>Keep it</Word>
        <Word onClick={onClose}>Leave it</Word>
      </Acts>
    </>
  );
}

/** One text to fill in, with its label above. */
export function TextField({ label, hideLabel = false, text, kind = "text", hint, problem = null, fieldRef, onText, onKeep, onLeave }: {
  readonly label: string;
  readonly hideLabel?: boolean;
  readonly text: string;
  readonly kind?: "text" | "long" | "date" | "number";
  readonly hint?: string;
  readonly problem?: Problem | null;
  readonly fieldRef?: { current: (HTMLInputElement & HTMLTextAreaElement) | null };
  readonly onText: (text: string) => void;
  readonly onKeep?: () => void;
  readonly onLeave?: () => void;
}) {
  const id = useId();
  const shared = {
    id,
    ref: fieldRef ?? null,
    value: text,
    "aria-invalid": problem ? true : undefined,
    "aria-describedby": `${id}-says`,
    onKeyDown: (event: KeyboardEvent): void => {
      if (event.key === "Enter" && onKeep && (kind !== "long" || event.ctrlKey)) {
        event.preventDefault();
        onKeep();
      }
      if (event.key === "Escape" && onLeave) {
        event.stopPropagation();
        onLeave();
      }
    },
  };
  return (
    <div class="textfield">
      <label for={id} class={hideLabel ? "heard" : "small label"}>
        {label}
      </label>
      {kind === "long" ? (
        <textarea rows={4} {...shared} onInput={(event) => onText(event.currentTarget.value)} />
      ) : kind === "date" ? (
        <input type="date" {...shared} onInput={(event) => onText(event.currentTarget.value)} />
      ) : (
        <input
          type="text"
          inputMode={kind === "number" ? "decimal" : "text"}
          autocomplete="off"
          {...shared}
          onInput={(event) => onText(event.currentTarget.value)}
        />
      )}
      <div id={`${id}-says`}>
        {hint !== undefined && hint !== "" && <p class="small">{hint}</p>}
        <Trouble problem={problem} />
      </div>
    </div>
  );
}

/** A plain number where the text is one; otherwise the text, for the studio to say what is wrong with it; nothing for nothing. */
export function numberOr(text: string): number | string | null {
  const typed = text.trim().replace(/\s*(%|kg|g|g\/m2|g\/m²)$/, "");
  if (typed === "") return null;
  return /^-?\d+(\.\d+)?$/.test(typed) ? Number(typed) : typed;
}

/** One of several words; eight or more are a list to pull down. */
export function Pick<V extends string>({ name, hideName = false, options, value, onPick }: {
  readonly name: string;
  readonly hideName?: boolean;
  readonly options: readonly { readonly value: V; readonly says: string }[];
  readonly value: V | null;
  readonly onPick: (value: V) => void;
}) {
  const id = useId();
  if (options.length < 8) return <Choice name={name} hideName={hideName} options={options} value={value} onChange={onPick} />;
  return (
    <div class="pull">
      <label for={id} class={hideName ? "heard" : "small label"}>
        {name}
      </label>
      <select
        id={id}
        value={value ?? ""}
        onChange={(event) => {
          const found = options.find((option) => option.value === event.currentTarget.value);
          if (found) onPick(found.value);
        }}
      >
        {value === null && <option value="">choose</option>}
        {options.map((option) => (
          <option key={option.value} value={option.value}>
            {option.says}
          </option>
        ))}
      </select>
    </div>
  );
}

/** A box to tick, with its sentence. */
export function Tick({ says, done, onTick }: {
  readonly says: ComponentChildren;
  readonly done: boolean;
  readonly onTick: (done: boolean) => void;
}) {
  return (
    <label class="tickline">
      <input
        type="checkbox"
        checked={done}
        onChange={(event) => {
          const wanted = event.currentTarget.checked;
          event.currentTarget.checked = done;
          onTick(wanted);
        }}
      />
      <svg class="tick" viewBox="0 0 24 24" aria-hidden="true">
        <path d="M3 13.2 9 19.5 21.5 4.5" fill="none" stroke="currentColor" stroke-width="2.8" />
      </svg>
      <span>{says}</span>
    </label>
  );
}

/** A file from this machine. Looks like an underlined word; the same file can be taken twice. */
export function TakeFile({ says, accept, onFile }: {
  readonly says: string;
  readonly accept: string;
  readonly onFile: (file: File) => void;
}) {
  return (
    <label class="textlink takefile">
      <input
        class="heard"
        type="file"
        accept={accept}
        onChange={(event) => {
          const file = event.currentTarget.files?.[0];
          event.currentTarget.value = "";
          if (file) onFile(file);
        }}
      />
      <span>{says}</span>
    </label>
  );
}

/** "14 November 2026"; a date that cannot be read stays as it was written. */
export function Day({ date }: { readonly date: string }) {
  return <time dateTime={date}>{dateInWords(date)}</time>;
}
