// What the browser stores from one visit to the next: the collection, the exercises and their score, the settings.

import { sharedValue } from "./shared-value.js";
import { type CollectionItem, NOTHING_STORED, type Stored, storageKey } from "./stored.js";

const KEY = storageKey(document.documentElement.dataset.games ?? "");

function read(): Stored {
  try {
    return { ...NOTHING_STORED, ...(JSON.parse(localStorage.getItem(KEY) ?? "{}") as Partial<Stored>) };
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
    localStorage.setItem(KEY, JSON.stringify(next));
  } catch {
    // it lasts as long as the page, then
  }
  stored.set(next);
}

// another tab may have changed it
addEventListener("storage", ({ key }) => {
  if (key === KEY) stored.set(read());
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
