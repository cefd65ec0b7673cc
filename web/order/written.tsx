/** Words she wrote, changed in place: a name, a date, a note. Enter keeps, Escape leaves it as it was. */
import { useEffect, useId, useRef, useState } from "preact/hooks";
import { Failed } from "../lib/api.js";
import type { Problem } from "../lib/quantity.js";
import { Trouble } from "../parts/trouble.js";
import { Acts, Word } from "../parts/touch.js";

/** `shown` is how the value reads when it is not its own text: a date in words. `kind` is the field's. */
export function Written({ label, value, shown, empty, hint, kind = "text", onKeep }: {
  readonly label: string;
  readonly value: string;
  readonly shown?: string;
  /** Stands there while nothing is written: "not said". */
  readonly empty: string;
  /** A sentence below the open field. */
  readonly hint?: string;
  readonly kind?: "text" | "date" | "lines";
  /** Rejects with [Failed] when it is refused. */
  readonly onKeep: (text: string) => Promise<void>;
}) {
  const [text, setText] = useState<string | null>(null);
  const [problem, setProblem] = useState<Problem | null>(null);
  const [busy, setBusy] = useState(false);
  const id = useId();
  const opener = useRef<HTMLButtonElement>(null);
  const field = useRef<HTMLInputElement & HTMLTextAreaElement>(null);
  const isOpen = text !== null;
  const wasOpen = useRef(false);
  useEffect(() => {
    if (isOpen && !wasOpen.current) field.current?.focus();
    if (!isOpen && wasOpen.current) opener.current?.focus();
    wasOpen.current = isOpen;
  }, [isOpen]);
  if (text === null) {
    return (
      <button ref={opener} type="button" class={value === "" ? "written unwritten" : "written"} onClick={() => setText(value)}>
        {value === "" ? empty : (shown ?? value)}
        <span class="heard">, change {label}</span>
      </button>
    );
  }
  const leave = (): void => {
    setProblem(null);
    setText(null);
  };
  const keep = async (): Promise<void> => {
    if (busy) return;
    if (text.trim() === value) {
      leave();
      return;
    }
    setBusy(true);
    setProblem(null);
    try {
      await onKeep(text.trim());
      setText(null);
    } catch (error) {
      setProblem(error instanceof Failed ? error.first : { what: "This was not kept.", next: "Try again." });
      field.current?.focus();
    } finally {
      setBusy(false);
    }
  };
  const shared = {
    id,
    ref: field,
    value: text,
    autocomplete: "off",
    "aria-describedby": `${id}-says`,
    onInput: (event: { currentTarget: { value: string } }) => setText(event.currentTarget.value),
  } as const;
  return (
    <div
      class="writing"
      onKeyDown={(event) => {
        if (event.key === "Escape") {
          event.stopPropagation();
          leave();
        }
        if (event.key === "Enter" && event.target === field.current && (kind !== "lines" || event.ctrlKey)) {
          event.preventDefault();
          void keep();
        }
      }}
    >
      <label for={id} class="heard">
        {label}
      </label>
      {kind === "lines" ? (
        <textarea {...shared} rows={3} />
      ) : kind === "date" ? (
        <input {...shared} type="date" />
      ) : (
        <input {...shared} type="text" />
      )}
      <div id={`${id}-says`}>
        {hint !== undefined && <p class="small">{hint}</p>}
        <Trouble problem={problem} />
      </div>
      <Acts>
        <Word onClick={() => void keep()}>Keep it</Word>
        <Word onClick={leave}>Leave it</Word>
      </Acts>
    </div>
  );
}
