/** What was found, told where it stands instead of in the margin: icon and sentences, one line each. */
import type { Note } from "../api/types.js";
import { unbroken } from "../lib/quantity.js";
import { Icon } from "../parts/icon.js";

/** The list; nothing when there are none. */
export function FoundList({ notes }: { readonly notes: readonly Note[] }) {
  if (notes.length === 0) return null;
  return (
    <ul class="found">
      {notes.map((note) => (
        <li key={note.says} class={`inline ${note.state}`}>
          <Icon name={note.state} />
          <span>{unbroken(`${note.says} ${note.next}`)}</span>
        </li>
      ))}
    </ul>
  );
}
