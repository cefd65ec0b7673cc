/** Packing a cloth: the job followed from start to end, with the lay found so far, and found again after a reload. */
import { signal } from "@preact/signals";
import type { ReadonlySignal } from "@preact/signals";
import type { JobEvent, LayNow, PackLayRequest } from "../api/types.js";
import { Failed, post } from "../lib/api.js";
import { followJob, stopJob } from "../lib/job.js";
import type { Problem } from "../lib/quantity.js";
import { recall, remember } from "../lib/tab.js";

/** How the packing stands. */
export interface Packing {
  readonly job: string;
  readonly says: string;
  readonly share: number;
  /** The best lay so far; null before the first. */
  readonly lay: LayNow | null;
}

/** The packing of one cloth of one suit. */
export interface Packer {
  /** Null while nothing is packed. */
  readonly now: ReadonlySignal<Packing | null>;
  readonly problem: ReadonlySignal<Problem | null>;
  /** What came of the last one, in a sentence. */
  readonly said: ReadonlySignal<string>;
  start(path: string, request: PackLayRequest): Promise<void>;
  stop(): Promise<void>;
  /** Stops following; the job goes on. */
  leave(): void;
}

/** Follows again what was started in this tab; `onEnd` when a lay may have been kept. */
export function openPacker(name: string, onEnd: () => Promise<void>): Packer {
  const store = `lay.${name}`;
  const now = signal<Packing | null>(null);
  const problem = signal<Problem | null>(null);
  const said = signal("");
  let unfollow = (): void => undefined;
  const leave = (): void => unfollow();
  const ended = async (event: JobEvent | null): Promise<void> => {
    remember(store, null);
    // The kept lay is drawn before the one on its way is put away, so that nothing flickers.
    await onEnd().catch(() => undefined);
    now.value = null;
    if (event?.state === "failed") problem.value = { what: event.says };
    else if (event?.state === "stopped") said.value = "Stopped, and kept as it was then.";
    else if (event) said.value = "Packed and kept.";
  };
  const follow = (id: string): void => {
    leave();
    unfollow = followJob(id, {
      onStep: (event) => {
        now.value = { job: id, says: event.says, share: event.share, lay: event.lay ?? now.peek()?.lay ?? null };
      },
      onEnd: (event) => void ended(event),
    });
  };
  const earlier = recall(store);
  if (typeof earlier === "string") follow(earlier);
  return {
    now,
    problem,
    said,
    start: async (path, request) => {
      problem.value = null;
      said.value = "";
      try {
        const { job } = await post<{ readonly job: string }>(path, request);
        remember(store, job);
        now.value = { job, says: "Starting", share: 0, lay: null };
        follow(job);
      } catch (error) {
        problem.value = error instanceof Failed ? error.first : { what: "It could not be started." };
      }
    },
    stop: async () => {
      const running = now.peek();
      if (running) await stopJob(running.job);
    },
    leave,
  };
}
