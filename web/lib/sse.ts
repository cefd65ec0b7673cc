/**
 * Follows a long job: opens the stream of events, and only then lets the job start, so that no early event is lost.
 *
 * The stream is closed by this side at `done` or `failed`; a stream closed by the server is reopened by the browser for
 * ever, and the job's end would be told again and again.
 */

/** How far a job is, worded by the studio: "Fit: step 6 of about 9, 40 %". */
export interface Step {
  readonly says: string;
  /** 0 to 1, or `null` while nobody knows. */
  readonly share: number | null;
}

/** Who listens. Every event's data is JSON. */
export interface Listening<T> {
  /** Starts the job, once the stream is open. */
  readonly start: () => Promise<unknown>;
  readonly onStep?: (step: Step) => void;
  readonly onDone: (result: T) => void;
  /** The job's own failure, the start's failure, or a stream that cannot be kept open. */
  readonly onFailed: (error: unknown) => void;
}

/** Events are named `step`, `done`, `failed`. Returns a function that stops listening; it does not stop the job. */
export function follow<T>(url: string, listening: Listening<T>): () => void {
  const source = new EventSource(url);
  let started = false;
  let over = false;
  const end = (): void => {
    over = true;
    source.close();
  };
  const read = (event: Event, take: (data: unknown) => void): void => {
    if (over || !(event instanceof MessageEvent)) return;
    try {
      take(JSON.parse(String(event.data)));
    } catch (error) {
      end();
      listening.onFailed(error);
    }
  };
  source.addEventListener("open", () => {
    if (started || over) return;
    started = true;
    listening.start().catch((error: unknown) => {
      if (over) return;
      end();
      listening.onFailed(error);
    });
  });
  source.addEventListener("step", (event) => read(event, (data) => listening.onStep?.(data as Step)));
  source.addEventListener("done", (event) =>
    read(event, (data) => {
      end();
      listening.onDone(data as T);
    }),
  );
  source.addEventListener("failed", (event) =>
    read(event, (data) => {
      end();
      listening.onFailed(data);
    }),
  );
  source.addEventListener("error", () => {
    if (over || source.readyState !== EventSource.CLOSED) return;
    end();
    listening.onFailed(new Error("The studio's stream of news was cut."));
  });
  return end;
}
