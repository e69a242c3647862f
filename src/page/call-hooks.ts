// Calls as hooks: an answer that follows its input, and work that a button begins.

import { useEffect, useRef, useState } from "preact/hooks";

import type { CallName } from "../server/answers.js";
import { type CallError, callErrorOf } from "./call-error.js";
import { type AnswerTo, type Input, call } from "./calls.js";
import { useServerState } from "./server-state.js";

export interface Answered<T> {
  readonly answer: T | undefined;
  readonly error: CallError | undefined;
  /** Whether the answer is to the input as it is now. */
  readonly isCurrent: boolean;
}

/** Answers that are the same whenever they are asked for, the last used at the end. */
const kept = new Map<string, unknown>();
const MOST_KEPT = 300;
/** Calls whose answers may be kept: they change only with an index run or a table build. */
const KEPT: ReadonlySet<CallName> = new Set<CallName>(["position", "ending", "words", "setUps", "holds"]);
let keptFor = 0;
/** Calls of that kind that are under way, each asked once whoever waits for it. */
const underWay = new Map<string, Promise<unknown>>();

function askOnce<Name extends CallName>(
  name: Name,
  input: Input<Name>,
  signal?: AbortSignal,
): Promise<AnswerTo<Name>> {
  if (!KEPT.has(name)) return call(name, input, signal);
  const key = `${name} ${JSON.stringify(input)}`;
  const before = underWay.get(key) as Promise<AnswerTo<Name>> | undefined;
  if (before) return before;
  const asked = call(name, input).finally(() => underWay.delete(key));
  underWay.set(key, asked);
  return asked;
}

function keep(name: CallName, key: string, answer: unknown): void {
  if (!KEPT.has(name)) return;
  kept.set(`${name} ${key}`, answer);
  if (kept.size > MOST_KEPT) kept.delete(kept.keys().next().value!);
}

/** Asks ahead for what will probably be wanted next, so that it is there at once. */
export function askAhead<Name extends CallName>(name: Name, input: Input<Name>): void {
  const key = JSON.stringify(input);
  if (kept.has(`${name} ${key}`)) return;
  askOnce(name, input).then(
    (answer) => keep(name, key, answer),
    // it will be told if it is wanted
    () => {},
  );
}

/**
 * The answer to a call, asked again when the input changes, when a run has ended, and when the server is back; undefined
 * asks nothing. The answer before stays until the next one comes, so that nothing flickers.
 */
export function useAnswer<Name extends CallName>(
  name: Name,
  input: Input<Name> | undefined,
): Answered<AnswerTo<Name>> {
  const state = useRef<{ key?: string; answer?: AnswerTo<Name>; error?: CallError }>({});
  const [, redraw] = useState(0);
  const refresh = useServerState((server) => server.refresh);
  if (refresh !== keptFor) {
    kept.clear();
    keptFor = refresh;
  }
  const key = input === undefined ? undefined : JSON.stringify(input);
  const known = key === undefined ? undefined : (kept.get(`${name} ${key}`) as AnswerTo<Name> | undefined);
  // what is known is drawn at once, and nothing twice for it
  if (known !== undefined) state.current = { key, answer: known };
  else if (key === undefined) state.current = {};
  useEffect(() => {
    if (input === undefined || key === undefined || known !== undefined) return;
    const set = (next: typeof state.current) => {
      state.current = next;
      redraw((n) => n + 1);
    };
    const leaving = new AbortController();
    askOnce(name, input, leaving.signal).then(
      (answer) => {
        keep(name, key, answer);
        if (!leaving.signal.aborted) set({ key, answer });
      },
      (thrown: unknown) => leaving.signal.aborted || set({ key, error: callErrorOf(thrown) }),
    );
    return () => leaving.abort();
  }, [name, key, refresh]);
  const { answer, error } = state.current;
  return { answer, error, isCurrent: state.current.key === key };
}

export interface Task {
  readonly busy: boolean;
  readonly error: CallError | undefined;
  /** Begins work, unless some is under way; the signal says that it is to stop. */
  readonly run: (work: (stopped: AbortSignal) => Promise<unknown>) => void;
  readonly stop: () => void;
}

/** Work that a button begins: at most one at a time, its error kept to be shown. */
export function useTask(): Task {
  const [busy, setBusy] = useState(false);
  const [error, setError] = useState<CallError>();
  const running = useRef<AbortController | undefined>(undefined);
  return {
    busy,
    error,
    run: (work) => {
      if (running.current) return;
      const stopping = (running.current = new AbortController());
      setBusy(true);
      setError(undefined);
      work(stopping.signal)
        .catch((thrown: unknown) => stopping.signal.aborted || setError(callErrorOf(thrown)))
        .finally(() => {
          running.current = undefined;
          setBusy(false);
        });
    },
    stop: () => running.current?.abort(),
  };
}
