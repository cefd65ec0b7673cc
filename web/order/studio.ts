/** The studio's addresses as the order page asks them, and the one answer that carries more than problems: a clash. */
import type { Set as Change, Stamp } from "../api/types.js";
import { Failed } from "../lib/api.js";
import type { Problem } from "../lib/quantity.js";
import type { Clash } from "./context.js";

/** Everything is below this. */
export const API = "/api/v1";

/** A suit's address. */
export function suitAt(id: string, rest = ""): string {
  return `${API}/suits/${encodeURIComponent(id)}${rest}`;
}

/** What POST /edits takes. */
export interface Edits {
  readonly parts: readonly { readonly document: string; readonly base: number }[];
  readonly changes: readonly Change[];
  readonly words: string;
}

/** What came of it. */
export type Sent =
  | { readonly kind: "kept"; readonly documents: readonly Stamp[]; readonly merged: boolean }
  | { readonly kind: "clash"; readonly clashes: readonly Omit<Clash, "edit">[] };

/**
 * Sends edits. A refusal rejects with [Failed] of kind `refused`, no answer with `unreached`. Not through `lib/api`,
 * because a 409 carries the clashing values and a [Failed] only its problems.
 */
export async function sendEdits(edits: Edits): Promise<Sent> {
  let reply: Response;
  try {
    reply = await fetch(`${API}/edits`, {
      method: "POST",
      headers: { accept: "application/json", "content-type": "application/json", "x-slackwater": "1" },
      body: JSON.stringify(edits),
      credentials: "same-origin",
    });
  } catch (cause) {
    throw new Failed("unreached", 0, [{ what: "The studio does not answer.", next: "What you typed waits here." }], cause);
  }
  const said: unknown = await reply.json().catch(() => null);
  if (reply.ok && isRecord(said) && Array.isArray(said["documents"])) {
    return { kind: "kept", documents: said["documents"] as Stamp[], merged: said["merged"] === true };
  }
  const clashes = isRecord(said) && Array.isArray(said["clashes"]) ? (said["clashes"] as Omit<Clash, "edit">[]) : [];
  if (reply.status === 409 && clashes.length > 0) return { kind: "clash", clashes };
  // A gateway's 502 to 504 is a studio that does not answer; its own 500 is a fault that repeating does not mend.
  const away = reply.status >= 502 && reply.status <= 504;
  const problems = isRecord(said) && Array.isArray(said["problems"]) ? (said["problems"] as Problem[]) : [];
  throw new Failed(
    away ? "unreached" : reply.status < 500 ? "refused" : "broken",
    reply.status,
    problems.length > 0 ? problems : [{ what: `The studio answered with ${reply.status} and no reason.`, next: "Load the page again." }],
  );
}

function isRecord(value: unknown): value is Record<string, unknown> {
  return typeof value === "object" && value !== null;
}
