// Undo and redo, by button and by key, the same in every place: what is put together there (the tray, the lesson, the
// exercises), else what was put into the tray and what is in the address (a question, the board, a game).

import { useEffect, useState } from "preact/hooks";

import { currentAddress, historyStep, isStepHere, useAddress } from "./address.js";
import { type Undoable, stepOf, undoSteps, useUndoSteps } from "./browser-storage.js";

type Way = "undo" | "redo";

/** What is put together in a place, by its path. */
const PUT_TOGETHER: Readonly<Record<string, Undoable>> = {
  "/tray": "collection",
  "/lesson": "lesson",
  "/practise": "session",
};
/** What a step of the browser's history is in a place, behind "Undo: ". */
const IN_THE_ADDRESS: Readonly<Record<string, string>> = {
  "/": "the question",
  "/ask": "the question",
  "/board": "the change on the board",
  "/play": "the move",
};
/** Fields in which a key undoes what was typed there, which is the browser's work; within what is stored with every key
 * it is a step as any other. */
const TYPED_IN = ":is(textarea, input:not([type=checkbox], [type=radio], [type=range], [type=file]))";
const OWN_STEPS = "[data-steps] *";

interface Doing {
  readonly says: string;
  readonly act: () => void;
}

/** What can be undone or redone now, in the place that is shown; undefined where nothing can. */
function doingNow(way: Way): Doing | undefined {
  const { path } = currentAddress();
  const steps = undoSteps();
  const own = PUT_TOGETHER[path] as Undoable | undefined;
  const part = own ?? "collection";
  const step = steps[part][way === "undo" ? "past" : "future"].at(-1);
  // elsewhere only what was done there, since one came there
  if (step && (own !== undefined || step.at === historyStep()))
    return { says: step.says, act: () => stepOf(part, way) };
  const says = IN_THE_ADDRESS[path] as string | undefined;
  if (says === undefined || !isStepHere(way)) return undefined;
  return { says, act: () => (way === "undo" ? history.back() : history.forward()) };
}

/** The way that a key asks for. */
function wayOf({ key, ctrlKey, metaKey, altKey, shiftKey, target }: KeyboardEvent): Way | undefined {
  if (
    !(ctrlKey || metaKey) ||
    altKey ||
    (target instanceof Element && target.matches(`${TYPED_IN}:not(${OWN_STEPS})`))
  )
    return undefined;
  const letter = key.toLowerCase();
  if (letter === "z") return shiftKey ? "redo" : "undo";
  return letter === "y" && !shiftKey ? "redo" : undefined;
}

export const UndoButtons = () => {
  // drawn again with every step
  const { path } = useAddress();
  useUndoSteps();
  const [said, say] = useState("");
  const ways = { undo: doingNow("undo"), redo: doingNow("redo") };
  /** By how it is now: keys may come faster than the page is drawn. */
  const act = (way: Way): boolean => {
    const doing = doingNow(way);
    if (!doing) return false;
    doing.act();
    say(`${way === "undo" ? "Undone" : "Done again"}: ${doing.says}`);
    return true;
  };
  useEffect(() => say(""), [path]);
  useEffect(() => {
    const press = (event: KeyboardEvent) => {
      const way = wayOf(event);
      if (way && act(way)) event.preventDefault();
    };
    addEventListener("keydown", press);
    return () => removeEventListener("keydown", press);
  }, []);
  const button = (way: Way, name: string) => (
    // not disabled in the browser's way: the focus stays
    <button
      type="button"
      aria-disabled={ways[way] === undefined}
      aria-label={ways[way] ? `${name}: ${ways[way].says}` : name}
      title={ways[way]?.says}
      onClick={() => act(way)}
    >
      {name}
    </button>
  );
  return (
    <div class={ways.undo || ways.redo ? "undo" : "undo nothing"} role="group" aria-label="Undo and redo">
      {button("undo", "Undo")}
      {button("redo", "Redo")}
      <span role="status" class="hidden">
        {said}
      </span>
    </div>
  );
};
