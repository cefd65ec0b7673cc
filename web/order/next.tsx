/** One line under the title: what to do next, and where. It goes once the sewing has begun. */
import type { Head, OrderView } from "../api/types.js";
import { Word } from "../parts/touch.js";
import { sectionState } from "./context.js";
import type { SectionId } from "./context.js";

interface Place {
  readonly section: SectionId;
  readonly n: number;
  readonly name: string;
}

interface Step extends Place {
  readonly says: string;
}

interface Judged extends Place {
  readonly head: (view: OrderView) => Head;
}

/** What a draft is made from. */
const BEFORE_DRAFT: readonly Judged[] = [
  { section: "wearer", n: 1, name: "Wearer", head: (view) => view.wearer.head },
  { section: "cloth", n: 2, name: "Cloth", head: (view) => view.cloth.head },
  { section: "shape", n: 3, name: "Shape", head: (view) => view.shape.head },
];

/** Where a stop keeps her from cutting. */
const STOPS: readonly Judged[] = [...BEFORE_DRAFT, { section: "wear", n: 4, name: "Wear", head: (view) => view.wear.head }];

/** The first of the three sections a draft needs that lacks something; once it is drafted what must stop her, else the paper. Nothing once a step is ticked. */
function nextStep(view: OrderView): Step | null {
  if (view.shape.pieces.length > 0) {
    if (view.sew.steps.some((step) => step.done)) return null;
    const stop = STOPS.find(({ head }) => head(view).state === "stop");
    if (stop) return { ...stop, says: told(stop.head(view), "stop") };
    const last = { section: "paper", n: 7, name: "Paper" } as const;
    return view.paper.files.length > 0 ? { ...last, says: "The pattern is drafted. Print it, or read on what to mind first." } : null;
  }
  const first = BEFORE_DRAFT.find(({ head }) => sectionState(head(view).state) !== "good");
  return first ? { ...first, says: told(first.head(view), null) } : null;
}

/** What the first note says, of one state or of any that is not good. */
function told(head: Head, state: Head["state"] | null): string {
  const note = head.notes.find((one) => (state === null ? sectionState(one.state) !== "good" : one.state === state));
  return note ? `${note.says} ${note.next}`.trim() : head.summary;
}

/** The line; nothing when there is no such step. */
export function Next({ view }: { readonly view: OrderView }) {
  const step = nextStep(view);
  if (!step) return null;
  return (
    <p class="reading nextstep">
      <span>
        <b>Next:</b> {step.says}
      </span>{" "}
      <Word href={`#${step.section}`}>
        {step.n} {step.name}
      </Word>
    </p>
  );
}
