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

/**
 * The answer to a call, asked again when the input changes, when a run has ended, and when the server is back; undefined
 * asks nothing. The answer before stays until the next one comes, so that nothing flickers.
 */
export function useAnswer<Name extends CallName>(
  name: Name,
  input: Input<Name> | undefined,
): Answered<AnswerTo<Name>> {
  const [state, set] = useState<{ key?: string; answer?: AnswerTo<Name>; error?: CallError }>({});
  const { refresh } = useServerState();
  const key = input === undefined ? undefined : JSON.stringify(input);
  useEffect(() => {
    if (input === undefined) return set({});
    const leaving = new AbortController();
    call(name, input, leaving.signal).then(
      (answer) => set({ key, answer }),
      (thrown: unknown) => leaving.signal.aborted || set({ key, error: callErrorOf(thrown) }),
    );
    return () => leaving.abort();
  }, [name, key, refresh]);
  const { answer, error } = state;
  return { answer, error, isCurrent: state.key === key };
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
