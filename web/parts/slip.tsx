/**
 * The why-slip: a paper slip beside a number, with a line to it. Question, one sentence, the sum, what went in, the source.
 *
 * On the desktop it lies in the margin at the height of what was asked; on tablet and phone it opens below. Escape and its
 * own word close it, and the focus goes back to the number.
 */
import { useEffect, useId, useLayoutEffect, useRef, useState } from "preact/hooks";
import type { ComponentChildren } from "preact";
import type { Problem, Reason } from "../lib/quantity.js";
import { Failed, isAbort } from "../lib/api.js";
import { Trouble } from "./trouble.js";
import { Word } from "./touch.js";

/** Event on the slip's section when one was laid into the margin or taken out of it: the notes there make room. */
export const SLIP_LAID = "slip-laid";

/** The slip itself. `asked` is the element the line leads to; without it the slip stands where it is written. */
export function Slip({ why, onClose, asked, id }: {
  readonly why: Reason;
  readonly onClose: () => void;
  readonly asked?: HTMLElement | null;
  readonly id?: string;
}) {
  const slip = useRef<HTMLDivElement>(null);
  const heading = useId();
  useBeside(slip, asked ?? null);
  return (
    <div
      ref={slip}
      id={id}
      class="slip"
      role="group"
      aria-labelledby={heading}
      onKeyDown={(event) => {
        if (event.key !== "Escape") return;
        event.stopPropagation();
        onClose();
      }}
    >
      <p id={heading} class="question">
        {why.question}
      </p>
      <p>{why.says}</p>
      {why.sum !== undefined && <p class="sum">{signs(why.sum)}</p>}
      {why.inputs && why.inputs.length > 0 && (
        <dl>
          {why.inputs.map((input) => (
            <div key={input.name}>
              <dt>{input.name}</dt>
              <dd>{input.value}</dd>
            </div>
          ))}
        </dl>
      )}
      <p class="source">{why.source}</p>
      <Word onClick={onClose}>Put it away</Word>
    </div>
  );
}

/** Lays the slip level with what was asked, and tells the style sheet how far the line has to reach. */
function useBeside(slip: { readonly current: HTMLElement | null }, asked: HTMLElement | null): void {
  useLayoutEffect(() => {
    const paper = slip.current;
    const body = paper?.closest<HTMLElement>(".body");
    if (!paper || !body || !asked) return;
    const lay = (): void => {
      const from = body.getBoundingClientRect();
      const number = asked.getBoundingClientRect();
      const row = asked.closest("tr, .line, .rung")?.getBoundingClientRect();
      const level = (row?.bottom ?? number.bottom) - from.top;
      const above = Math.max(0, Math.min(level - 40, 150));
      paper.style.setProperty("--level", `${level - above}px`);
      paper.style.setProperty("--above", `${above}px`);
      paper.style.setProperty("--reach", `${from.right - number.left}px`);
      section?.dispatchEvent(new Event(SLIP_LAID));
    };
    const section = paper.closest("section");
    lay();
    const watch = new ResizeObserver(lay);
    watch.observe(body);
    return () => {
      watch.disconnect();
      // After it is gone from the page.
      queueMicrotask(() => section?.dispatchEvent(new Event(SLIP_LAID)));
    };
  }, [asked]);
}

/**
 * A number one can ask "why?": underlined in dots, opens its slip. `why` is the reason, or how to fetch it when asked.
 * `label` names the question for ears: "Why 15 % at the hip?".
 */
export function Ask({ label, why, children }: {
  readonly label: string;
  readonly why: Reason | (() => Promise<Reason>);
  readonly children: ComponentChildren;
}) {
  const button = useRef<HTMLButtonElement>(null);
  const [open, setOpen] = useState(false);
  const [reason, setReason] = useState<Reason | null>(typeof why === "function" ? null : why);
  const [problem, setProblem] = useState<Problem | null>(null);
  const id = useId();
  useEffect(() => {
    if (typeof why !== "function") setReason(why);
    else if (!open) setReason(null);
  }, [why, open]);
  const ask = async (): Promise<void> => {
    setOpen(true);
    setProblem(null);
    if (typeof why !== "function") return;
    try {
      setReason(await why());
    } catch (error) {
      if (isAbort(error)) return;
      setProblem(error instanceof Failed ? error.first : { what: "The reason could not be fetched." });
    }
  };
  const close = (): void => {
    setOpen(false);
    button.current?.focus();
  };
  return (
    <>
      <button
        ref={button}
        type="button"
        class="why"
        aria-expanded={open}
        aria-controls={open && reason ? id : undefined}
        onClick={() => (open ? close() : void ask())}
        onKeyDown={(event) => {
          if (event.key === "Escape" && open) close();
        }}
      >
        {children}
        <span class="heard">, {label}</span>
      </button>
      {open && reason && <Slip id={id} why={reason} asked={button.current} onClose={close} />}
      {open && problem && <Trouble problem={problem} />}
    </>
  );
}

/** A sum in the signs of print: a minus as wide as a plus, a cross for times. */
function signs(sum: string): string {
  return sum.replaceAll(" - ", " − ").replaceAll(" x ", " × ").replaceAll(" / ", " ÷ ");
}
