/**
 * The marks on the tape, one a section: number, name and the icon of the section's worst state. They stay in view; on the
 * tablet they lie on the tape, on the phone along the foot.
 */
import { useEffect, useState } from "preact/hooks";
import { jumpTo } from "../lib/focus.js";
import { addKeys } from "../lib/keys.js";
import type { State } from "../lib/state.js";
import { word } from "../lib/state.js";
import { Icon } from "../parts/icon.js";

/** One mark. `id` is the section's. */
export interface SectionMark {
  readonly id: string;
  /** Its number on an order sheet; without numbers the names stand on the small screens too. */
  readonly n?: number;
  readonly name: string;
  readonly state: State;
}

/** The navigation of a page. Numbers also work as keys. */
export function Marks({ marks }: { readonly marks: readonly SectionMark[] }) {
  const [current, setCurrent] = useCurrent(marks);
  useEffect(
    () =>
      addKeys(
        marks.slice(0, 9).map((mark, i) => ({
          key: String(mark.n ?? i + 1),
          says: mark.name,
          act: () => {
            setCurrent(mark.id);
            jumpTo(mark.id);
          },
        })),
      ),
    [marks],
  );
  const numbered = marks.some((mark) => mark.n !== undefined);
  return (
    <nav class={numbered ? "marks numbered" : "marks named"} aria-label="Sections">
      <a class="home" href="/">
        Slackwater
      </a>
      {marks.map((mark) => (
        <a
          key={mark.id}
          href={`#${mark.id}`}
          aria-current={mark.id === current ? "location" : undefined}
          onClick={() => setCurrent(mark.id)}
        >
          <span>
            {mark.n !== undefined && <span>{mark.n} </span>}
            <span class="name">{mark.name}</span>
            <span class="heard">: {word[mark.state].toLowerCase()}</span>
          </span>
          <Icon name={mark.state} />
        </a>
      ))}
    </nav>
  );
}

/**
 * The section being read: the last whose head has passed the upper third of the window. A mark that was pressed stays
 * current until the page is scrolled by hand, because a short last section never gets that high.
 */
function useCurrent(marks: readonly SectionMark[]): [string | undefined, (id: string) => void] {
  const [current, setCurrent] = useState(marks[0]?.id);
  const [pressed, setPressed] = useState<string | null>(null);
  const ids = marks.map((mark) => mark.id).join(" ");
  useEffect(() => {
    const sections = ids.split(" ").flatMap((id) => document.getElementById(id) ?? []);
    const read = (): void => {
      const above = sections.filter((section) => section.getBoundingClientRect().top <= innerHeight / 3);
      setCurrent((above.at(-1) ?? sections[0])?.id);
    };
    // Fires when a section's edge crosses the line at a third of the window, either way.
    const watch = new IntersectionObserver(read, { rootMargin: "-33% 0px -66% 0px" });
    for (const section of sections) watch.observe(section);
    const letGo = (): void => setPressed(null);
    addEventListener("wheel", letGo, { passive: true });
    addEventListener("touchmove", letGo, { passive: true });
    addEventListener("keydown", letGo);
    return () => {
      watch.disconnect();
      removeEventListener("wheel", letGo);
      removeEventListener("touchmove", letGo);
      removeEventListener("keydown", letGo);
    };
  }, [ids]);
  return [pressed ?? current, setPressed];
}
