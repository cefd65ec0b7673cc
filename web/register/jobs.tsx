/** Follows a long job of the studio: how far it is, stopping it, what came of it. */
import { useCallback, useEffect, useRef, useState } from "preact/hooks";
import { get, post } from "../lib/api.js";
import type { Problem } from "../lib/quantity.js";
import { Progress } from "../parts/progress.js";
import { Word } from "../parts/touch.js";
import { Trouble } from "../parts/trouble.js";
import { API, problemOf } from "./asking.js";

/** A job as the studio tells it. */
interface Job {
  readonly state: "running" | "done" | "stopped" | "failed";
  readonly done: number;
  readonly of: number;
  readonly says: string;
  readonly result?: string | null;
  readonly problems?: readonly Problem[];
}

/** The answer to the start of a job. */
export interface Begun {
  readonly job: string;
  readonly [name: string]: string;
}

/** A job in this page. */
export interface Working {
  readonly job: Job | null;
  readonly problem: Problem | null;
  readonly isRunning: boolean;
  /** What the studio answered when it began: the job's id, and what it will make. */
  readonly answer: Begun | null;
  readonly start: () => void;
  readonly stop: () => void;
}

/** `path` starts it, sent what `ask` says, and answers with its id. The stream tells each step; the job itself is read at the end. */
export function useJob(path: string, ask: () => unknown = () => ({})): Working {
  const [job, setJob] = useState<Job | null>(null);
  const [problem, setProblem] = useState<Problem | null>(null);
  const [answer, setAnswer] = useState<Begun | null>(null);
  const id = useRef<string | null>(null);
  const stream = useRef<EventSource | null>(null);
  useEffect(() => () => stream.current?.close(), []);
  const follow = useCallback((name: string): void => {
    const at = `${API}/jobs/${encodeURIComponent(name)}`;
    const source = new EventSource(`${at}/events`);
    stream.current = source;
    const end = (): void => {
      source.close();
      get<Job>(at).then(setJob, (error: unknown) => setProblem(problemOf(error)));
    };
    source.addEventListener("progress", (event) => {
      if (!(event instanceof MessageEvent)) return;
      try {
        const step = JSON.parse(String(event.data)) as { readonly done: number; readonly of: number; readonly says: string };
        setJob({ state: "running", done: step.done, of: step.of, says: step.says });
      } catch {
        // A step that cannot be read is passed over; the end is read from the job itself.
      }
    });
    source.addEventListener("end", end);
    source.addEventListener("error", () => {
      if (source.readyState === EventSource.CLOSED) end();
    });
  }, []);
  const start = (): void => {
    setProblem(null);
    setJob({ state: "running", done: 0, of: 0, says: "Begins" });
    setAnswer(null);
    post<Begun>(path, ask()).then(
      (made) => {
        setAnswer(made);
        id.current = made.job;
        follow(made.job);
      },
      (error: unknown) => {
        setJob(null);
        setProblem(problemOf(error));
      },
    );
  };
  const stop = (): void => {
    if (id.current === null) return;
    post(`${API}/jobs/${encodeURIComponent(id.current)}/stop`, {}).catch((error: unknown) => setProblem(problemOf(error)));
  };
  return { job, problem, isRunning: job?.state === "running", answer, start, stop };
}

/** Its progress, and what came of it: a file to take, or why there is none. */
export function JobLine({ working, file }: { readonly working: Working; readonly file: string }) {
  const { job, problem, stop } = working;
  return (
    <div class="jobline">
      {job?.state === "running" && <Progress says={job.says} share={job.of > 0 ? job.done / job.of : null} onStop={stop} />}
      <div role="status" aria-live="polite">
        {job?.state === "done" && <p class="pencil">{job.says === "" ? "Done." : job.says}</p>}
        {job?.state === "stopped" && <p class="pencil">Stopped. Nothing half made was kept.</p>}
      </div>
      {job?.state === "done" && job.result && (
        <Word href={job.result} save="">
          {file}
        </Word>
      )}
      <Trouble
        problem={
          job?.state === "failed" ? (job.problems?.[0] ?? { what: job.says === "" ? "The work failed." : job.says, next: "Try again." }) : problem
        }
      />
    </div>
  );
}
