/** The pencil notes of a section: what the studio found, and the questions that come up when two people change one value. */
import type { Note as Found } from "../api/types.js";
import { Note } from "../frame/margin.js";
import { Word } from "../parts/touch.js";
import { unbroken } from "../lib/quantity.js";
import { Asked, WhyPlace } from "./asked.js";
import { fieldId, sectionOf } from "./context.js";
import type { Clash, OrderTools, SectionId } from "./context.js";
import { kindOf } from "./tools.js";

/** All notes of one section; nothing when there are none. */
export function SectionNotes({ tools, section, notes }: {
  readonly tools: OrderTools;
  readonly section: SectionId;
  readonly notes: readonly Found[];
}) {
  const clashes = tools.clashes.value.filter((clash) => home(tools, clash) === section);
  return (
    <>
      {clashes.map((clash) => (
        <Question key={`${clash.document} ${clash.path}`} tools={tools} clash={clash} />
      ))}
      {notes.map((note, i) => (
        <FoundNote
          key={`${note.state} ${note.place} ${note.field ?? ""} ${i}`}
          tools={tools}
          note={note}
          section={section}
          name={`${section}-note-${i}`}
        />
      ))}
    </>
  );
}

/** Section a clash is asked in; values of the head are asked in the first. */
export function home(tools: OrderTools, clash: Clash): SectionId {
  return sectionOf(clash.path, kindOf(tools.order.value, clash.document)) ?? "wearer";
}

/** Whether a sentence says already where: it begins with the place, or names it within. */
function named(place: string, says: string): boolean {
  return place === "" || says.toLowerCase().includes(place.toLowerCase());
}

function FoundNote({ tools, note, section, name }: {
  readonly tools: OrderTools;
  readonly note: Found;
  readonly section: SectionId;
  readonly name: string;
}) {
  const { field, why, try_this: proposal } = note;
  const where = named(note.place, note.says) ? "" : `${note.place.charAt(0).toUpperCase()}${note.place.slice(1)}: `;
  const asked = why !== null && (
    <WhyPlace tools={tools} name={name}>
      <Asked tools={tools} why={why} label={note.place === "" ? note.says : note.place}>
        Why?
      </Asked>
    </WhyPlace>
  );
  const isTried = proposal !== null && tools.tried.value?.proposal === proposal;
  const next = (note.next !== "" || asked || isTried) && (
    <>
      {unbroken(note.next)} {asked}
      {isTried && (
        <>
          {tools.tried.value?.preview ? " Drawn in pencil in Shape and Wear. " : " Being drawn. "}
          {tools.tried.value?.problem?.what}
          <Word onClick={() => void tools.keepTried()}>Keep it</Word> <Word onClick={() => tools.leaveTried()}>Leave it</Word>
        </>
      )}
    </>
  );
  const action = isTried
    ? null
    : proposal
      ? { says: proposal.words, onClick: () => tools.tryThis(proposal) }
      : field !== null
      ? { says: note.place === "" ? "Go there" : `Go to ${note.place}`, onClick: () => tools.goToField(field, sectionOf(field) ?? section) }
      : null;
  return (
    <Note
      state={note.state}
      says={`${where}${note.says}`}
      {...(next && { next })}
      {...(action && { action })}
      {...(field !== null && { by: fieldId(field) })}
    />
  );
}

/** Yours or theirs: a plain question, with the field unlocked meanwhile. */
function Question({ tools, clash }: { readonly tools: OrderTools; readonly clash: Clash }) {
  const name = (clash.path.split(".").at(-1) ?? clash.path).replaceAll("_", " ");
  return (
    <Note
      state="doubtful"
      by={fieldId(clash.path)}
      says={`${name.charAt(0).toUpperCase()}${name.slice(1)} was changed somewhere else while you changed it.`}
      next={
        <>
          Yours: {asText(clash.yours)}. Theirs: {asText(clash.theirs)}. Which stays?{" "}
          <Word onClick={() => void tools.settle(clash, "yours")}>Keep yours</Word>{" "}
          <Word onClick={() => void tools.settle(clash, "theirs")}>Keep theirs</Word>
        </>
      }
    />
  );
}

/** A value as it can be read: readings as a list, nothing as "taken out". */
function asText(value: unknown): string {
  if (value === null || value === undefined) return "taken out";
  if (typeof value === "boolean") return value ? "yes" : "no";
  if (Array.isArray(value)) return value.map(asText).join(", ");
  if (typeof value === "object") {
    return Object.entries(value)
      .map(([key, held]) => `${key.replaceAll("_", " ")} ${asText(held)}`)
      .join("; ");
  }
  return String(value);
}
