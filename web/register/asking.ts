/** Reading and changing documents of the register: load, edit, delete softly, send files, hear of changes made elsewhere. */
import { useCallback, useEffect, useRef, useState } from "preact/hooks";
import { Failed, get, isAbort, post } from "../lib/api.js";
import type { Problem } from "../lib/quantity.js";
import { kept } from "../lib/store.js";
import type { Stamp } from "../api/types.js";

/** Where the studio answers. */
export const API = "/api/v1";

/** What went wrong, as a problem to show; `null` for a request called off on purpose. */
export function problemOf(error: unknown): Problem | null {
  if (isAbort(error)) return null;
  return error instanceof Failed ? error.first : { what: "This did not work.", next: "Load the page again." };
}

/** Something read from the studio. `again` reads it anew and leaves the old value standing until the new one is here. */
export interface Loaded<T> {
  readonly value: T | null;
  readonly problem: Problem | null;
  /** There is no such thing, or no more. */
  readonly isGone: boolean;
  /** This device has not been let in. */
  readonly isOutside: boolean;
  readonly again: () => Promise<void>;
}

interface State<T> {
  readonly path: string | null;
  readonly value: T | null;
  readonly problem: Problem | null;
  readonly isGone: boolean;
  readonly isOutside: boolean;
}

/** What the studio answers a tablet that is not paired. */
const NOT_PAIRED = 401;
/** A studio that does not answer is asked again after this. */
const AGAIN_AFTER_MS = 2000;

/** Reads `path` and reads it again when it changes, or when any document does (`follow`). `null` reads nothing. */
export function useLoaded<T>(path: string | null, { follow = false }: { readonly follow?: boolean } = {}): Loaded<T> {
  const [state, setState] = useState<State<T>>({ path: null, value: null, problem: null, isGone: false, isOutside: false });
  const now = useRef(path);
  now.current = path;
  const later = useRef<ReturnType<typeof setTimeout> | undefined>(undefined);
  const again = useCallback(async (): Promise<void> => {
    if (path === null) return;
    try {
      const value = await get<T>(path);
      if (now.current === path) setState({ path, value, problem: null, isGone: false, isOutside: false });
    } catch (error) {
      const problem = problemOf(error);
      const isGone = error instanceof Failed && error.kind === "gone";
      const isOutside = error instanceof Failed && error.status === NOT_PAIRED;
      if (problem && now.current === path) {
        setState((old) => ({ path, value: old.path === path && !isGone ? old.value : null, problem, isGone, isOutside }));
      }
      if (error instanceof Failed && error.kind === "unreached" && now.current === path) {
        clearTimeout(later.current);
        later.current = setTimeout(() => void again(), AGAIN_AFTER_MS);
      }
    }
  }, [path]);
  useEffect(() => {
    void again();
    const deaf = follow ? onChanged(() => void again()) : undefined;
    return () => {
      clearTimeout(later.current);
      deaf?.();
    };
  }, [again, follow]);
  // An answer that comes after the page is gone is for nobody.
  useEffect(
    () => () => {
      now.current = null;
    },
    [],
  );
  const fits = state.path === path;
  return {
    value: fits ? state.value : null,
    problem: fits ? state.problem : null,
    isGone: fits && state.isGone,
    isOutside: fits && state.isOutside,
    again,
  };
}

/** A document as the studio gives it. */
export interface Document<B> {
  readonly id: string;
  readonly kind: string;
  readonly revision: number;
  readonly body: B;
  /** Lies in the bin. */
  readonly in_bin?: boolean;
}

/** A document that can be edited in place. */
export interface Editable<B> extends Loaded<Document<B>> {
  /** Paths are those of the body. */
  readonly set: (values: Readonly<Record<string, unknown>>, words?: string) => Promise<void>;
}

/**
 * Reads a document and offers to change it, based on what is shown. With `blank` a document nobody has written yet is that
 * body, at no revision; the studio makes it with the first change.
 */
export function useDocument<B>(id: string, blank?: B): Editable<B> {
  const loaded = useLoaded<Document<B>>(`${API}/documents/${encodeURIComponent(id)}`, { follow: true });
  const { again } = loaded;
  const unwritten = loaded.isGone && blank !== undefined;
  const value = unwritten ? { id, kind: id, revision: 0, body: blank } : loaded.value;
  const base = value?.revision ?? null;
  const set = useCallback(
    async (values: Readonly<Record<string, unknown>>, words = ""): Promise<void> => {
      if (base === null) return;
      const changes = Object.entries(values).map(([path, to]) => ({ document: id, path, value: to }));
      try {
        await post(`${API}/edits`, { parts: [{ document: id, base }], changes, words });
        sayKept();
      } catch (error) {
        // Somebody else was quicker: what they kept is shown, what was typed stays in the field.
        if (error instanceof Failed && error.kind === "changed") await again();
        throw error;
      }
      await again();
    },
    [id, base, again],
  );
  return { ...loaded, value, problem: unwritten ? null : loaded.problem, set };
}

/** "kept 14:02" under the title. */
export function sayKept(): void {
  const time = new Date();
  kept.value = `kept ${String(time.getHours()).padStart(2, "0")}:${String(time.getMinutes()).padStart(2, "0")}`;
}

/** Makes a document and gives its id. */
export async function make(kind: string, body: unknown, words: string): Promise<string> {
  const made = await post<{ readonly id: string }>(`${API}/documents`, { kind, body, words });
  sayKept();
  return made.id;
}

/** Runs something and keeps its problem for a [Trouble] beside it. */
export interface Trying {
  readonly problem: Problem | null;
  readonly busy: boolean;
  /** True when it went well. */
  readonly run: (work: () => Promise<void>) => Promise<boolean>;
}

/** One at a time: while something runs, a second press does nothing. */
export function useTrying(): Trying {
  const [problem, setProblem] = useState<Problem | null>(null);
  const [busy, setBusy] = useState(false);
  const running = useRef(false);
  const run = useCallback(async (work: () => Promise<void>): Promise<boolean> => {
    if (running.current) return false;
    running.current = true;
    setBusy(true);
    setProblem(null);
    try {
      await work();
      return true;
    } catch (error) {
      setProblem(problemOf(error));
      return false;
    } finally {
      running.current = false;
      setBusy(false);
    }
  }, []);
  return { problem, busy, run };
}

/** Sends raw bytes: a photo, an archive, a suit file. The answer is read as JSON. */
export async function sendBytes<T>(path: string, bytes: Blob | string, type: string): Promise<T> {
  let reply: Response;
  try {
    reply = await fetch(path, {
      method: "POST",
      headers: { accept: "application/json", "content-type": type, "x-slackwater": "1" },
      body: bytes,
      credentials: "same-origin",
    });
  } catch (cause) {
    throw new Failed(
      "unreached",
      0,
      [{ what: "The studio does not answer.", next: "Look whether the program still runs, then send it again." }],
      cause,
    );
  }
  let said: unknown = null;
  try {
    said = await reply.json();
  } catch {
    // No words in the answer; the plain sentence below says what is known.
  }
  if (reply.ok) return said as T;
  const problems = (said as { readonly problems?: readonly Problem[] } | null)?.problems;
  throw new Failed(
    reply.status === 409 ? "changed" : reply.status < 500 ? "refused" : "broken",
    reply.status,
    problems && problems.length > 0 ? problems : [{ what: `The studio answered with ${reply.status} and no reason.`, next: "Try again." }],
  );
}

type Listener = (stamps: readonly Stamp[]) => void;
const listeners = new Set<Listener>();
let news: EventSource | null = null;

/** Calls back when documents change, here or on another screen, until the returned function is called. */
export function onChanged(listener: Listener): () => void {
  listeners.add(listener);
  news ??= listen();
  return () => {
    listeners.delete(listener);
    if (listeners.size > 0) return;
    news?.close();
    news = null;
  };
}

function listen(): EventSource {
  const source = new EventSource(`${API}/events`);
  const everything = (): void => {
    for (const listener of [...listeners]) listener([]);
  };
  // A backup was put back, something was deleted for good, or this page fell behind.
  source.addEventListener("reloaded", everything);
  let isCut = false;
  source.addEventListener("error", () => {
    isCut = true;
  });
  source.addEventListener("open", () => {
    // What changed while nothing was heard is read at once.
    if (isCut) everything();
    isCut = false;
  });
  source.addEventListener("changed", (event) => {
    if (!(event instanceof MessageEvent)) return;
    let stamps: readonly Stamp[] = [];
    try {
      stamps = (JSON.parse(String(event.data)) as { readonly documents: readonly Stamp[] }).documents;
    } catch {
      // Unreadable news still means that something changed.
    }
    for (const listener of [...listeners]) listener(stamps);
  });
  return source;
}
