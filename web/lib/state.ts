/** The states of a thing on the sheet. Each is always shown as icon, word and colour together. */

/** What a section or a finding can be, worst first. */
export type State = "stop" | "doubtful" | "missing" | "good";

/** Also for lines and notes: filled in from a survey, and advice that judges nothing. */
export type Mark = State | "estimate" | "how";

/** The one word that stands beside each icon. */
export const word: Readonly<Record<Mark, string>> = {
  stop: "Stop",
  doubtful: "Doubtful",
  missing: "Missing",
  good: "Good",
  estimate: "est.",
  how: "How",
};

const order: readonly State[] = ["stop", "doubtful", "missing", "good"];

/** The worst of several; an empty list is good. */
export function worst(states: readonly State[]): State {
  return order.find((state) => states.includes(state)) ?? "good";
}

/** A section in this state opens by itself. */
export function opensItself(state: State): boolean {
  return state !== "good";
}
