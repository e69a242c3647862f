// What the browser stores from one visit to the next: the collection, the exercises and their score, the settings.

import { whenGames } from "./calls.js";
import { askAgain } from "./server-state.js";
import { sharedValue } from "./shared-value.js";
import { type CollectionItem, NOTHING_STORED, type Stored, storageKey } from "./stored.js";

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

// another tab may have changed it
addEventListener("storage", (event) => {
  if (event.key === key) stored.set(read());
});

// what is stored belongs to its games; what was collected before there were any belongs to the first
whenGames((next) => {
  if (next === games) return;
  const before = games === "" ? stored.get() : undefined;
  games = next;
  key = storageKey(next);
  stored.set(read());
  askAgain();
  if (before && stored.get().collection.length === 0) changeStored(() => before);
});

/** What identifies something in the collection. */
export const keyOf = ({ fen, ending }: Pick<CollectionItem, "fen" | "ending">): string =>
  fen ?? `ending ${ending}`;

/** Puts something into the collection, once. */
export const collect = (item: Omit<CollectionItem, "key" | "note">): void =>
  changeStored(({ collection }) => {
    const key = keyOf(item);
    if (collection.some((one) => one.key === key)) return {};
    return { collection: [...collection, { ...item, key, note: "" }] };
  });
