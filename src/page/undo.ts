// Steps that can be taken back and done again: what is past, what was undone, and how it is now.

/** One step: how it was on the other side of it, and what it did, in words that go behind "Undo: ". */
export interface UndoStep<T> {
  readonly value: T;
  readonly says: string;
  /** The step of the browser's history at which it was made. */
  readonly at: number;
}

export interface UndoSteps<T> {
  readonly past: readonly UndoStep<T>[];
  readonly future: readonly UndoStep<T>[];
  /** The field that was typed in last, and when: what is typed without a rest is one step. */
  readonly typed?: { readonly field: string; readonly time: number };
}

/** Steps that are kept. */
const MOST = 200;
/** Milliseconds of rest after which more that is typed is another step. */
const REST = 1500;

export const NO_STEPS: UndoSteps<never> = { past: [], future: [] };

/** Steps with one more, before which it was `step.value`; what had been undone is forgotten. */
export function withStep<T>(
  { past, typed }: UndoSteps<T>,
  step: UndoStep<T>,
  field: string | undefined,
  time: number,
): UndoSteps<T> {
  const goesOn = field !== undefined && typed?.field === field && time - typed.time < REST;
  return {
    past: goesOn ? past : [...past, step].slice(-MOST),
    future: [],
    typed: field === undefined ? undefined : { field, time },
  };
}

/** Moves the last step of one side to the other; undefined where there is none. `now` is how it is before that. */
function moved<T>(from: readonly UndoStep<T>[], to: readonly UndoStep<T>[], now: T) {
  const step = from.at(-1);
  return step && { step, from: from.slice(0, -1), to: [...to, { ...step, value: now }] };
}

/** How it was before the last step, and the steps from there; undefined where there is none. */
export function undone<T>({ past, future }: UndoSteps<T>, now: T) {
  const done = moved(past, future, now);
  return done && { step: done.step, steps: { past: done.from, future: done.to } as UndoSteps<T> };
}

/** How it was after the step that was undone last, and the steps from there; undefined where there is none. */
export function redone<T>({ past, future }: UndoSteps<T>, now: T) {
  const done = moved(future, past, now);
  return done && { step: done.step, steps: { past: done.to, future: done.from } as UndoSteps<T> };
}
