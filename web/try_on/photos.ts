/** Photos of a try-on: sent as they are, kept by the studio, never anywhere else. */
import { Failed } from "../lib/api.js";
import type { Problem } from "../lib/quantity.js";
import { API } from "../order/studio.js";

/** What the studio takes. */
export const PHOTO_KINDS = ["image/jpeg", "image/png", "image/webp"] as const;
const MOST_BYTES = 8 * 1024 * 1024;

/** Address of a kept photo. */
export function photoAt(id: string): string {
  return `${API}/photos/${encodeURIComponent(id)}`;
}

/** Sends one; returns its id. Rejects with [Failed]: too large, not a photo, or no answer. */
export async function sendPhoto(file: File, owner: string, path: string): Promise<string> {
  if (!PHOTO_KINDS.some((kind) => kind === file.type)) {
    throw refused(`${file.name} is not a JPEG, PNG or WebP picture.`, "Save it as JPEG and choose it again.");
  }
  if (file.size > MOST_BYTES) throw refused(`${file.name} is larger than 8 MB.`, "Take it smaller and choose it again.");
  let reply: Response;
  try {
    reply = await fetch(`${API}/photos?${new URLSearchParams({ owner, for: path })}`, {
      method: "POST",
      headers: { accept: "application/json", "content-type": file.type, "x-slackwater": "1" },
      body: file,
      credentials: "same-origin",
    });
  } catch (cause) {
    throw new Failed("unreached", 0, [{ what: "The studio does not answer.", next: "Choose the photo again when it runs." }], cause);
  }
  const said = (await reply.json().catch(() => null)) as { id?: unknown; problems?: readonly Problem[] } | null;
  if (reply.ok && typeof said?.id === "string") return said.id;
  throw new Failed("refused", reply.status, said?.problems ?? [{ what: `The photo was not kept (${reply.status}).` }]);
}

function refused(what: string, next: string): Failed {
  return new Failed("refused", 0, [{ what, next }]);
}
