/**
 * Asks the studio for things, and turns every way that can fail into a sentence the maker can use.
 *
 * One error type, [Failed], with what, where and what to do; `kind` tells the caller whether to show it beside the field
 * (`refused`), to offer again (`unreached`), or to read the thing anew (`changed`).
 */
import type { Problem } from "./quantity.js";

/**
 * - `refused`: the studio read the request and says no; the problems say why.
 * - `changed`: somebody else kept a newer version meanwhile (409, 412).
 * - `gone`: there is no such thing (404, 410).
 * - `unreached`: no answer; the program is not running or the line is cut.
 * - `broken`: an answer that is not what it should be; a fault of ours.
 */
export type FailedKind = "refused" | "changed" | "gone" | "unreached" | "broken";

/** Anything that keeps an answer from coming. */
export class Failed extends Error {
  readonly kind: FailedKind;
  /** HTTP status, 0 when there was no answer. */
  readonly status: number;
  /** At least one. */
  readonly problems: readonly Problem[];

  constructor(kind: FailedKind, status: number, problems: readonly Problem[], cause?: unknown) {
    super(problems.map((p) => p.what).join("; "), { cause });
    this.name = "Failed";
    this.kind = kind;
    this.status = status;
    this.problems = problems;
  }

  /** The first problem, for a place that shows one. */
  get first(): Problem {
    return this.problems[0] ?? { what: "Something went wrong." };
  }
}

/** What goes with a request besides its body. */
export interface Asking {
  readonly signal?: AbortSignal;
  /** Entity tag the change is based on; the studio refuses with 412 when it has a newer one. */
  readonly basedOn?: string;
}

/** An answer with its entity tag, for the next change. */
export interface Answer<T> {
  readonly value: T;
  readonly tag: string | null;
}

/** Reads. */
export function get<T>(path: string, asking: Asking = {}): Promise<T> {
  return send<T>("GET", path, undefined, asking).then((answer) => answer.value);
}

/** Reads, with the entity tag. */
export function getTagged<T>(path: string, asking: Asking = {}): Promise<Answer<T>> {
  return send<T>("GET", path, undefined, asking);
}

/** Starts something or adds to a list. */
export function post<T>(path: string, body: unknown, asking: Asking = {}): Promise<T> {
  return send<T>("POST", path, body, asking).then((answer) => answer.value);
}

/** Replaces. */
export function put<T>(path: string, body: unknown, asking: Asking = {}): Promise<T> {
  return send<T>("PUT", path, body, asking).then((answer) => answer.value);
}

/** Changes some fields. */
export function patch<T>(path: string, body: unknown, asking: Asking = {}): Promise<T> {
  return send<T>("PATCH", path, body, asking).then((answer) => answer.value);
}

/** Takes away. */
export function remove<T>(path: string, asking: Asking = {}): Promise<T> {
  return send<T>("DELETE", path, undefined, asking).then((answer) => answer.value);
}

/** Reads bytes: meshes, drawings to save. */
export async function getBytes(path: string, asking: Asking = {}): Promise<ArrayBuffer> {
  const reply = await reach("GET", path, undefined, asking);
  return reply.arrayBuffer();
}

async function send<T>(method: string, path: string, body: unknown, asking: Asking): Promise<Answer<T>> {
  const reply = await reach(method, path, body, asking);
  const tag = reply.headers.get("etag");
  if (reply.status === 204) return { value: undefined as T, tag };
  try {
    return { value: (await reply.json()) as T, tag };
  } catch (cause) {
    if (isAbort(cause)) throw cause;
    throw new Failed("broken", reply.status, [unreadable(path)], cause);
  }
}

async function reach(method: string, path: string, body: unknown, asking: Asking): Promise<Response> {
  // The studio takes changes only from its own pages: other sites cannot send this header.
  const headers = new Headers({ accept: "application/json", "x-slackwater": "1" });
  if (body !== undefined) headers.set("content-type", "application/json");
  if (asking.basedOn !== undefined) headers.set("if-match", asking.basedOn);
  let reply: Response;
  try {
    reply = await fetch(path, {
      method,
      headers,
      body: body === undefined ? null : JSON.stringify(body),
      signal: asking.signal ?? null,
      credentials: "same-origin",
    });
  } catch (cause) {
    if (isAbort(cause)) throw cause;
    throw new Failed("unreached", 0, [
      { what: "The studio does not answer.", next: "Look whether the program still runs; what you typed is kept here." },
    ], cause);
  }
  if (reply.ok) return reply;
  throw new Failed(kindOf(reply.status), reply.status, await problemsOf(reply, path));
}

function kindOf(status: number): FailedKind {
  if (status === 404 || status === 410) return "gone";
  if (status === 409 || status === 412) return "changed";
  return status < 500 ? "refused" : "broken";
}

/** The studio answers `{problems: [{what, where, next}]}` or one such problem; anything else becomes a plain sentence. */
async function problemsOf(reply: Response, path: string): Promise<readonly Problem[]> {
  try {
    const said: unknown = await reply.json();
    const list = isRecord(said) && Array.isArray(said["problems"]) ? (said["problems"] as unknown[]) : [said];
    const problems = list.filter(isProblem);
    if (problems.length > 0) return problems;
  } catch (cause) {
    if (isAbort(cause)) throw cause;
  }
  return [{ what: `The studio answered ${path} with ${reply.status} and no reason.`, next: "Load the page again." }];
}

function unreadable(path: string): Problem {
  return { what: `The studio's answer to ${path} cannot be read.`, next: "Load the page again." };
}

function isRecord(value: unknown): value is Record<string, unknown> {
  return typeof value === "object" && value !== null;
}

function isProblem(value: unknown): value is Problem {
  return isRecord(value) && typeof value["what"] === "string";
}

/** True for a request that was called off on purpose: nothing to show. */
export function isAbort(error: unknown): boolean {
  return error instanceof DOMException && error.name === "AbortError";
}

/**
 * Runs `work` for the latest value only: one at a time; while one runs, later values replace each other and the last is
 * run when it ends. For sliders and handles, where every move asks anew.
 */
export function latest<T>(work: (value: T) => Promise<void>): (value: T) => void {
  let busy = false;
  let waiting: { value: T } | null = null;
  const run = async (value: T): Promise<void> => {
    busy = true;
    try {
      await work(value);
    } finally {
      busy = false;
      const next = waiting;
      waiting = null;
      if (next) void run(next.value);
    }
  };
  return (value) => {
    if (busy) waiting = { value };
    else void run(value);
  };
}
