/**
 * What every section of a work order gets: the order as it stands, and the few things a section may do with it.
 *
 * The order page draws each section's head, summary, margin notes and slip; a section's own component draws the body
 * only: `WearerSection({ tools })`. A body reads `tools.order.value` and never holds a copy, so that an edit here, in
 * another tab or by undo is drawn at once everywhere.
 */
import type { ReadonlySignal, Signal } from "@preact/signals";
import type { Drag, OrderView, Preview, Proposal, Set as Change, State } from "../api/types.js";
import type { Problem, Reason } from "../lib/quantity.js";

/** The sections, in reading order; also their ids in the page and in the address after `#`. */
export const sectionIds = ["wearer", "cloth", "shape", "wear", "lay", "sew", "paper", "try-on"] as const;

/** One of them. */
export type SectionId = (typeof sectionIds)[number];

/** How a preview is asked. */
export interface Looking {
  /** A handle that was moved. */
  readonly drag?: Drag;
  /** Also the wear; slower, so not while dragging. */
  readonly wear?: boolean;
  readonly signal?: AbortSignal;
}

/** One value that somebody else changed meanwhile, as the studio tells it. */
export interface Clash {
  readonly document: string;
  readonly path: string;
  readonly base: unknown;
  readonly theirs: unknown;
  readonly yours: unknown;
  /** All changes of the edit it belongs to: an edit is kept whole or left whole. */
  readonly edit: readonly Change[];
}

/** The open why-slip. */
export interface OpenWhy {
  readonly key: string;
  /** The number it was asked of. */
  readonly anchor: HTMLElement;
  /** Name of the [WhyPlace] the slip is drawn in. */
  readonly place: string;
  /** Null while it is fetched. */
  readonly reason: Reason | null;
  readonly problem: Problem | null;
}

/** A proposal that is being looked at, not kept. */
export interface Tried {
  readonly proposal: Proposal;
  /** Null while it is computed. */
  readonly preview: Preview | null;
  readonly problem: Problem | null;
}

/** What a section may do. */
export interface OrderTools {
  readonly order: Signal<OrderView>;
  /** Her unit; a bare number typed into a length field gets this unit or the field's own appended. */
  readonly units: "cm" | "in";
  /**
   * Sends changes, all or none; the order is read again afterwards. True when they are kept, or wait because the studio
   * does not answer; false when they were refused (the reason stands in [troubles]) or clash (the question stands in the
   * margin). `words` is the sentence for the history; the studio writes one when it is left out.
   */
  edit(changes: readonly Change[], words?: string): Promise<boolean>;
  /** As [edit], but a refusal rejects with [Failed]: for `Line`'s `onKeep`, which shows it beside the field. */
  keep(changes: readonly Change[], words?: string): Promise<void>;
  /** What changes would give; nothing is stored. Rejects with [Failed]. */
  preview(changes: readonly Change[], how?: Looking): Promise<Preview>;
  /** Opens the slip of a number; again on the same number puts it away. See `Asked` in `asked.tsx`. */
  openWhy(key: string, anchor: HTMLElement): void;
  closeWhy(): void;
  readonly why: ReadonlySignal<OpenWhy | null>;
  reload(): Promise<void>;
  /** Takes the last change back, or makes it again; the order's `back` and `forward` say which. */
  undo(way: "back" | "forward"): Promise<void>;

  /** What was typed for a value and is not kept yet; undefined when nothing waits. */
  waiting(document: string, path: string): unknown;
  /** Why the last edit of a value was refused, by [fieldId]; gone with the next edit of it. */
  readonly troubles: ReadonlySignal<ReadonlyMap<string, Problem>>;
  readonly clashes: ReadonlySignal<readonly Clash[]>;
  /** Answers a clash. */
  settle(clash: Clash, keep: "yours" | "theirs"): Promise<void>;

  /** Draws a proposal in pencil: `tried` holds it until it is kept or left. */
  tryThis(proposal: Proposal): void;
  readonly tried: ReadonlySignal<Tried | null>;
  keepTried(): Promise<void>;
  leaveTried(): void;

  /**
   * Opens the section of a field and puts the focus on it, as the notes' links do. A field is found by its element's
   * id, [fieldId]; a section that folds fields away unfolds them when `wanted` names one.
   */
  goToField(path: string, section?: SectionId): void;
  readonly wanted: ReadonlySignal<string | null>;
}

/** Id of the element a value is changed in: `dimensions.waist_girth` is `field-dimensions-waist_girth`. */
export function fieldId(path: string): string {
  return `field-${path.replace(/[^A-Za-z0-9_-]+/g, "-")}`;
}

/** Section a value of the suit or of one of its documents is changed in; null for those in the order's head. */
export function sectionOf(path: string, kind = "suit"): SectionId | null {
  if (kind === "wearer") return "wearer";
  if (kind === "cloth" || kind === "elastic") return "cloth";
  if (kind === "workroom") return "paper";
  const first = path.split(".")[0] ?? "";
  switch (first) {
    case "wearer":
    case "dimensions":
    case "protocol":
    case "right":
      return "wearer";
    case "shell":
    case "lining":
    case "mesh":
    case "contrast":
    case "elastic":
    case "elastic_choice":
    case "tested_together":
    case "stock":
    case "width":
    case "across":
    case "along":
      return "cloth";
    case "design":
    case "allowances":
      return "shape";
    case "lay":
      return "lay";
    case "sewn":
      return "sew";
    case "halves":
    case "paper":
    case "square":
    case "white_edge":
      return "paper";
    case "try_ons":
    case "version":
      return "try-on";
    default:
      return null;
  }
}

/** The pages' states are four; advice and estimates leave a section good. */
export function sectionState(state: State): "stop" | "doubtful" | "missing" | "good" {
  return state === "estimate" || state === "how" ? "good" : state;
}
