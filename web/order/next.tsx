/** One line under the title: what to do next, and where. It goes once the sewing has begun. */
import type { Head, OrderView } from "../api/types.js";
import { Word } from "../parts/touch.js";
import { sectionState } from "./context.js";
import type { SectionId } from "./context.js";

interface Step {
  readonly says: string;
  readonly section: SectionId;
  readonly n: number;
  readonly name: string;
}

/** The first of the three sections a draft needs that lacks something; then the paper. Nothing once a step is ticked. */
function nextStep(view: OrderView): Step | null {
  if (view.shape.pieces.length > 0) {
    if (view.sew.steps.some((step) => step.done)) return null;
    const last = { section: "paper", n: 7, name: "Paper" } as const;
    return view.paper.files.length > 0 ? { ...last, says: "The pattern is drafted. Print it, or read on what to mind first." } : null;
  }
  const first: readonly (readonly [SectionId, number, string, Head])[] = [
    ["wearer", 1, "Wearer", view.wearer.head],
    ["cloth", 2, "Cloth", view.cloth.head],
    ["shape", 3, "Shape", view.shape.head],
  ];
  for (const [section, n, name, head] of first) {
    if (sectionState(head.state) === "good") continue;
    const note = head.notes.find((one) => sectionState(one.state) !== "good");
    return { section, n, name, says: note ? `${note.says} ${note.next}`.trim() : head.summary };
  }
  return null;
}

/** The line; nothing when there is no such step. */
export function Next({ view }: { readonly view: OrderView }) {
  const step = nextStep(view);
  if (!step) return null;
  return (
    <p class="reading nextstep">
      <b>Next:</b> {step.says}{" "}
      <Word href={`#${step.section}`}>
        {step.n} {step.name}
      </Word>
    </p>
  );
}
