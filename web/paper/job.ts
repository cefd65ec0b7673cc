/** A long job of the studio, followed from start to end, and found again after a reload. */
import { signal } from "@preact/signals";
import type { ReadonlySignal } from "@preact/signals";
import { Failed, get, post } from "../lib/api.js";
import type { Problem } from "../lib/quantity.js";
import { recall, remember } from "../lib/tab.js";
import { API } from "../order/studio.js";

/** How a job stands, as the studio tells it. */
export interface Job {
  readonly job: string;
  readonly state: "running" | "done" | "stopped" | "failed";
  readonly says: string;
  readonly share: number | null;
  /** Where its result is fetched. */
  readonly result: string | null;
  readonly problem: Problem | null;
}

interface Told {
  readonly job: string;
  readonly state: Job["state"];
  readonly done: number;
  readonly of: number;
  readonly says: string;
  readonly result?: string | null;
  readonly problems?: readonly Problem[] | null;
}

/** One kind of job of one page; `name` finds it again after a reload. */
export interface Jobs {
  readonly job: ReadonlySignal<Job | null>;
  /** Why it could not be started. */
  readonly problem: ReadonlySignal<Problem | null>;
  start(path: string): Promise<void>;
  stop(): Promise<void>;
  /** Stops following; the job itself goes on. */
  leave(): void;
}

/** Follows again what was started earlier in this tab. */
export function openJobs(name: string): Jobs {
  const store = `job.${name}`;
  const job = signal<Job | null>(null);
  const problem = signal<Problem | null>(null);
  let news: EventSource | null = null;

  const at = (id: string, rest = ""): string => `${API}/jobs/${encodeURIComponent(id)}${rest}`;
  const leave = (): void => {
    news?.close();
    news = null;
  };
  const read = async (id: string): Promise<void> => {
    const told = await get<Told>(at(id));
    job.value = {
      job: id,
      state: told.state,
      says: told.says,
      share: told.of > 0 ? told.done / told.of : null,
      result: told.result ?? null,
      problem: told.problems?.[0] ?? null,
    };
    if (told.state !== "running") {
      leave();
      if (told.state !== "done") remember(store, null);
    }
  };
  const readOrForget = (id: string): void => {
    read(id).catch((error: unknown) => {
      if (error instanceof Failed && error.kind === "gone") {
        remember(store, null);
        job.value = null;
        leave();
      }
    });
  };
  const follow = (id: string): void => {
    leave();
    const source = new EventSource(at(id, "/events"));
    news = source;
    source.addEventListener("progress", (event) => {
      const told = JSON.parse(String((event as MessageEvent).data)) as { share: number | null; says: string };
      job.value = { job: id, state: "running", says: told.says, share: told.share, result: null, problem: null };
    });
    source.addEventListener("end", () => {
      // What came of it is asked for: the stream says only that it ended.
      leave();
      readOrForget(id);
    });
    source.addEventListener("error", () => {
      if (source.readyState === EventSource.CLOSED) readOrForget(id);
    });
    readOrForget(id);
  };

  const earlier = recall(store);
  if (typeof earlier === "string") follow(earlier);
  return {
    job,
    problem,
    start: async (path) => {
      problem.value = null;
      try {
        const { job: id } = await post<{ readonly job: string }>(path, {});
        remember(store, id);
        job.value = { job: id, state: "running", says: "Starting", share: null, result: null, problem: null };
        follow(id);
      } catch (error) {
        problem.value = error instanceof Failed ? error.first : { what: "It could not be started." };
      }
    },
    stop: async () => {
      const now = job.peek();
      if (now?.state !== "running") return;
      await post(at(now.job, "/stop"), {}).catch(() => undefined);
      readOrForget(now.job);
    },
    leave,
  };
}
