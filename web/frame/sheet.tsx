/** The order sheet: marks, tape, and the column everything else stands in. Every page but the bench is one of these. */
import { useEffect } from "preact/hooks";
import type { ComponentChildren } from "preact";
import { Foot } from "./foot.js";
import { Marks } from "./marks.js";
import type { SectionMark } from "./marks.js";
import { Tape } from "./tape.js";

/**
 * `title` goes into the window's title. `marks` one for each [Section] among the children, same ids, same order; keep the
 * array stable between draws.
 */
export function Sheet({ title, marks, children }: {
  readonly title: string;
  readonly marks: readonly SectionMark[];
  readonly children: ComponentChildren;
}) {
  useEffect(() => {
    document.title = `${title} · Slackwater`;
  }, [title]);
  return (
    <div class="sheet">
      <a class="skip" href="#sheet">
        To the sheet
      </a>
      <Marks marks={marks} />
      <Tape />
      <main id="sheet" tabIndex={-1}>
        {children}
      </main>
      <Foot />
    </div>
  );
}
