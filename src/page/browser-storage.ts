// What the browser stores from one visit to the next: the collection, the exercises and their score, the settings; and the
// steps by which what the user puts together can be undone, which last as long as the page.

import { historyStep } from "./address.js";
import { whenGames } from "./calls.js";
import { askAgain } from "./server-state.js";
import { sharedValue } from "./shared-value.js";
import { type CollectionItem, NOTHING_STORED, type Stored, storageKey } from "./stored.js";
import { NO_STEPS, type UndoSteps, redone, undone, withStep } from "./undo.js";

let games = document.documentElement.dataset.games ?? "";
let key = storageKey(games);

function read(): Stored {
  try {
    return { ...NOTHING_STORED, ...(JSON.parse(localStorage.getItem(key) ?? "{}") as Partial<Stored>) };
  } catch {
    // a browser that stores nothing, or something that is not ours
    return NOTHING_STORED;
  }
}

const stored = sharedValue(read());

/** What is stored, for a component, which is drawn again when it changes. */
export const useStored = stored.use;

/** Changes part of what is stored. */
export function changeStored(change: (before: Stored) => Partial<Stored>): void {
  const next = { ...stored.get(), ...change(stored.get()) };
  try {
    localStorage.setItem(key, JSON.stringify(next));
  } catch {
    // it lasts as long as the page, then
  }
  stored.set(next);
}

/** What is put together step by step. */
export type Undoable = "collection" | "lesson" | "session";
type Steps = { readonly [Part in Undoable]: UndoSteps<Stored[Part]> };
const NONE: Steps = { collection: NO_STEPS, lesson: NO_STEPS, session: NO_STEPS };

const steps = sharedValue(NONE);

/** The steps that can be undone and redone as they are now, and for a component, which is drawn again when they change. */
export const { get: undoSteps, use: useUndoSteps } = steps;

const setSteps = <Part extends Undoable>(part: Part, next: UndoSteps<Stored[Part]>) =>
  steps.set({ ...steps.get(), [part]: next });

/**
 * Changes what is put together, as a step that can be undone. `says` goes behind "Undo: "; `field` is what is typed in, if
 * it is: what is typed there without a rest is one step.
 */
export function changeByStep<Part extends Undoable>(
  part: Part,
  says: string,
  how: (before: Stored[Part]) => Stored[Part],
  field?: string,
): void {
  const before = stored.get()[part];
  const next = how(before);
  if (next === before) return;
  const step = { value: before, says, at: historyStep() };
  setSteps(part, withStep(steps.get()[part] as UndoSteps<Stored[Part]>, step, field, Date.now()));
  changeStored(() => ({ [part]: next }));
}

/** Undoes the last step of what is put together, or redoes the one that was undone last; gives what it did. */
export function stepOf<Part extends Undoable>(part: Part, way: "undo" | "redo"): string | undefined {
  const done = (way === "undo" ? undone : redone)(
    steps.get()[part] as UndoSteps<Stored[Part]>,
    stored.get()[part],
  );
  if (!done) return undefined;
  setSteps(part, done.steps);
  changeStored(() => ({ [part]: done.step.value }));
  return done.step.says;
}

// another tab may have changed it: a step back would undo what was done there
addEventListener("storage", (event) => {
  if (event.key !== key) return;
  steps.set(NONE);
  stored.set(read());
});

// what is stored belongs to its games; what was collected before there were any belongs to the first
whenGames((next) => {
  if (next === games) return;
  const before = games === "" ? stored.get() : undefined;
  games = next;
  key = storageKey(next);
  steps.set(NONE);
  stored.set(read());
  askAgain();
  if (before && stored.get().collection.length === 0) changeStored(() => before);
});

/** What identifies something in the collection. */
export const keyOf = ({ fen, ending }: Pick<CollectionItem, "fen" | "ending">): string =>
  fen ?? `ending ${ending}`;

/** Puts things into the collection, each once. */
export const collect = (things: readonly Omit<CollectionItem, "key" | "note">[]): void =>
  changeByStep(
    "collection",
    things.length === 1 ? `${things[0].title} into the tray` : `${things.length} things into the tray`,
    (collection) => {
      const keys = new Set(collection.map(({ key }) => key));
      const items = things.map((thing) => ({ ...thing, key: keyOf(thing), note: "" }));
      // one answer may be there, or come twice
      const more = items.filter(({ key }) => !keys.has(key) && keys.add(key));
      return more.length === 0 ? collection : [...collection, ...more];
    },
  );
