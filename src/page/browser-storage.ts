// What the browser keeps: the tray, the exercises under way and their score, how things are shown.

import type { OpponentName } from "../exercises/opponent.js";
import { shared } from "./shared-value.js";

/** Something put by while looking. */
export interface Item {
  readonly key: string;
  /** What it is called in the tray. */
  readonly title: string;
  /** A position's; a whole ending has none. */
  readonly fen?: string;
  readonly ending?: number;
  readonly ply?: number;
  /** The position to show for it. */
  readonly shown: string;
  readonly note: string;
}

/** One exercise, and how it went. */
export interface Kept {
  readonly fen: string;
  readonly said: string;
  readonly grade: number | null;
  readonly about: string;
  readonly won: number;
  readonly lost: number;
  readonly last: "won" | "lost" | null;
  /** The try that was counted last, by its number: it is not counted again, whatever is taken back. */
  readonly counted?: string;
}

export interface Session {
  readonly title: string;
  readonly exercises: readonly Kept[];
}

export interface Ways {
  readonly below: "white" | "black";
  readonly opponent: OpponentName;
  readonly tell: "at-once" | "asked";
}

interface Store {
  readonly tray: readonly Item[];
  readonly session: Session | null;
  readonly ways: Ways;
  /** The outline of a lesson, as far as it has been written. */
  readonly outline: string | null;
}

const EMPTY: Store = {
  tray: [],
  session: null,
  outline: null,
  ways: { below: "white", opponent: "table", tell: "at-once" },
};
/** What is kept belongs to the games it was taken from: endings of others have the same numbers. */
const KEY = `longside ${document.documentElement.dataset.games ?? ""}`;

function read(): Store {
  try {
    return { ...EMPTY, ...(JSON.parse(localStorage.getItem(KEY) ?? "{}") as Partial<Store>) };
  } catch {
    // a browser that keeps nothing, or something that is not ours
    return EMPTY;
  }
}

let store = read();
const changes = shared();

/** Changes part of what is kept. */
export function keep(change: (before: Store) => Partial<Store>): void {
  store = { ...store, ...change(store) };
  try {
    localStorage.setItem(KEY, JSON.stringify(store));
  } catch {
    // it lasts as long as the page, then
  }
  changes.tell();
}

// another tab may have changed it
addEventListener("storage", ({ key }) => {
  if (key !== KEY) return;
  store = read();
  changes.tell();
});

/** What is kept, kept up to date. */
export function useKept(): Store {
  changes.use();
  return store;
}

/** What something is known by in the tray. */
export const keyOf = ({ fen, ending }: Pick<Item, "fen" | "ending">): string => fen ?? `ending ${ending}`;

/** Puts something into the tray, once. */
export const collect = (item: Omit<Item, "key" | "note">): void =>
  keep(({ tray }) => {
    const key = keyOf(item);
    return tray.some((one) => one.key === key) ? {} : { tray: [...tray, { ...item, key, note: "" }] };
  });
