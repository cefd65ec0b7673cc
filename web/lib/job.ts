/** A long job of the studio followed from wherever it is to its end. Whoever follows decides what to remember of it. */
import type { JobEvent } from "../api/types.js";
import { Failed, get, post } from "./api.js";

const at = (id: string, rest = ""): string => `/api/v1/jobs/${encodeURIComponent(id)}${rest}`;

/** Who listens. */
export interface Told {
  readonly onStep: (event: JobEvent) => void;
  /** Once; null when the studio knows nothing of the job any more. */
  readonly onEnd: (event: JobEvent | null) => void;
}

/** Follows a job. Returns a function that stops following; the job goes on. */
export function followJob(id: string, told: Told): () => void {
  const source = new EventSource(at(id, "/events"));
  let over = false;
  const leave = (): void => {
    over = true;
    source.close();
  };
  const end = (event: JobEvent | null): void => {
    if (over) return;
    leave();
    told.onEnd(event);
  };
  const read = (): void => {
    get<JobEvent>(at(id)).then(
      (event) => (event.state === "running" ? undefined : end(event)),
      (error: unknown) => {
        if (error instanceof Failed && error.kind === "gone") end(null);
      },
    );
  };
  const eventOf = (event: Event): JobEvent => JSON.parse(String((event as MessageEvent).data)) as JobEvent;
  source.addEventListener("progress", (event) => {
    if (!over) told.onStep(eventOf(event));
  });
  source.addEventListener("end", (event) => end(eventOf(event)));
  source.addEventListener("error", () => {
    if (!over && source.readyState === EventSource.CLOSED) read();
  });
  return leave;
}

/** Asks a job to stop at its next safe place. */
export async function stopJob(id: string): Promise<void> {
  await post(at(id, "/stop"), {}).catch(() => undefined);
}
