/** The computed fit of one suit as the studio knows it: read, worked out by jobs that are followed, and its lines fetched once. */
import { signal } from "@preact/signals";
import type { ReadonlySignal } from "@preact/signals";
import type { PutOnRequest, WornView } from "../api/types.js";
import { Failed, get, getBytes, post } from "../lib/api.js";
import { followJob, stopJob } from "../lib/job.js";
import type { Problem } from "../lib/quantity.js";
import { suitAt } from "../order/studio.js";
import { readLines } from "./lines.js";
import type { Lines } from "./lines.js";

/** A job as it stands. */
export interface Work {
  readonly job: string;
  readonly kind: string;
  /** Finding that is tried on. */
  readonly finding: string | null;
  readonly says: string;
  readonly share: number;
}

/** What a page may do with it. */
export interface Fitting {
  /** Null before it was read. */
  readonly view: ReadonlySignal<WornView | null>;
  /** The lines of the result in `view`, once they came. */
  readonly lines: ReadonlySignal<{ readonly id: string; readonly lines: Lines } | null>;
  readonly work: ReadonlySignal<Work | null>;
  /** What went wrong last, with the kind of work it was. */
  readonly problem: ReadonlySignal<(Problem & { readonly kind: string }) | null>;
  /** Finding that was tried last. */
  readonly tried: ReadonlySignal<string | null>;
  /** What came of the last job, in a sentence. */
  readonly said: ReadonlySignal<string>;
  read(): Promise<void>;
  putOn(request: PutOnRequest): Promise<void>;
  tryOn(finding: string): Promise<void>;
  better(): Promise<void>;
  stop(): Promise<void>;
  leaveProposed(): Promise<void>;
  /** Stops following; a job goes on. */
  close(): void;
}

/** Opens the fitting of a suit. `onPutOn` hears when it was put on: the stitches are then chosen for how it is worn. */
export function openFitting(suit: string, onPutOn: () => void): Fitting {
  const view = signal<WornView | null>(null);
  const lines = signal<{ readonly id: string; readonly lines: Lines } | null>(null);
  const work = signal<Work | null>(null);
  const problem = signal<(Problem & { readonly kind: string }) | null>(null);
  const tried = signal<string | null>(null);
  const said = signal("");
  let unfollow = (): void => undefined;
  let closed = false;
  const at = (rest = ""): string => suitAt(suit, `/worn${rest}`);

  const fetchLines = async (): Promise<void> => {
    const fit = view.peek()?.fit;
    if (!fit || fit.why_not !== null || lines.peek()?.id === fit.id) return;
    try {
      const bytes = await getBytes(at(`/rings?of=${encodeURIComponent(fit.id)}`));
      if (!closed) lines.value = { id: fit.id, lines: readLines(bytes) };
    } catch (error) {
      // Put on anew meanwhile: its lines are asked for with it.
      if (!closed && !(error instanceof Failed && error.kind === "gone")) problem.value = { ...told(error, "The form could not be drawn."), kind: "put_on" };
    }
  };
  const read = async (): Promise<void> => {
    const next = await get<WornView>(at());
    if (closed) return;
    view.value = next;
    if (next.work && work.peek()?.job !== next.work.job) follow(next.work.job, next.work.kind, null, "At work");
    await fetchLines();
  };
  const follow = (job: string, kind: string, finding: string | null, says: string): void => {
    unfollow();
    work.value = { job, kind, finding, says, share: 0 };
    unfollow = followJob(job, {
      onStep: (event) => {
        work.value = { job, kind, finding, says: event.says, share: event.share };
      },
      onEnd: (event) => {
        void (async () => {
          // What came of it is drawn before the work is put away, so that nothing flickers.
          await read().catch(() => undefined);
          if (closed || work.peek()?.job !== job) return;
          work.value = null;
          if (kind === "put_on" && event?.state === "done") onPutOn();
          if (event?.state === "failed") problem.value = { what: event.says, kind };
          else if (event?.state === "stopped") said.value = "Stopped. Nothing was changed.";
          else if (event) said.value = DONE[kind] ?? "";
        })();
      },
    });
  };
  const start = async (kind: string, finding: string | null, path: string, body: unknown): Promise<void> => {
    problem.value = null;
    said.value = "";
    try {
      const { job } = await post<{ readonly job: string }>(at(path), body);
      follow(job, kind, finding, "Starting");
    } catch (error) {
      problem.value = { ...told(error, "It could not be started."), kind };
    }
  };
  return {
    view,
    lines,
    work,
    problem,
    tried,
    said,
    read: () =>
      read().catch((error: unknown) => {
        if (!closed) problem.value = { ...told(error, "The computed fit could not be read."), kind: "put_on" };
      }),
    putOn: (request) => start("put_on", null, "", request),
    tryOn: (finding) => {
      tried.value = finding;
      return start("try", finding, "/try", { finding });
    },
    better: () => start("better", null, "/better", {}),
    stop: async () => {
      const running = work.peek();
      if (running) await stopJob(running.job);
    },
    leaveProposed: async () => {
      said.value = "";
      await post(at("/leave"), {}).catch(() => undefined);
      await read().catch(() => undefined);
    },
    close: () => {
      closed = true;
      unfollow();
    },
  };
}

const DONE: Readonly<Record<string, string>> = {
  put_on: "Put on.",
  try: "Tried. Nothing is kept until you take it.",
  better: "Looked through. Nothing is kept until you take it.",
};

function told(error: unknown, otherwise: string): Problem {
  return error instanceof Failed ? error.first : { what: otherwise };
}
