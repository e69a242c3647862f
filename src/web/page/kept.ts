// What the browser keeps: the tray, the exercises under way and their score, how things are shown.

import { useEffect, useState } from "preact/hooks";

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
  /** The moves with which a try was last counted: going on from them is the same try. */
  readonly counted?: string;
}

export interface Session {
  readonly title: string;
  readonly exercises: readonly Kept[];
}

export interface Ways {
  readonly below: "white" | "black";
  readonly opponent: "table" | "people";
  readonly tell: "at-once" | "asked";
}

interface Store {
  readonly tray: readonly Item[];
  readonly session: Session | null;
  readonly ways: Ways;
}

const EMPTY: Store = {
  tray: [],
  session: null,
  ways: { below: "white", opponent: "table", tell: "at-once" },
};
const KEY = "longside";

function read(): Store {
  try {
    return { ...EMPTY, ...(JSON.parse(localStorage.getItem(KEY) ?? "{}") as Partial<Store>) };
  } catch {
    // a browser that keeps nothing, or something that is not ours
    return EMPTY;
  }
}

let store = read();
const listeners = new Set<() => void>();

/** Changes part of what is kept. */
export function keep(change: (before: Store) => Partial<Store>): void {
  store = { ...store, ...change(store) };
  try {
    localStorage.setItem(KEY, JSON.stringify(store));
  } catch {
    // it lasts as long as the page, then
  }
  listeners.forEach((listener) => listener());
}

// another tab may have changed it
addEventListener("storage", ({ key }) => {
  if (key !== KEY) return;
  store = read();
  listeners.forEach((listener) => listener());
});

/** What is kept, kept up to date. */
export function useKept(): Store {
  const [, set] = useState(0);
  useEffect(() => {
    const listener = () => set((n) => n + 1);
    listeners.add(listener);
    return () => void listeners.delete(listener);
  }, []);
  return store;
}

/** Puts something into the tray, once. */
export const gather = (item: Omit<Item, "key" | "note">): void =>
  keep(({ tray }) => {
    const key = item.fen ?? `ending ${item.ending}`;
    return tray.some((one) => one.key === key) ? {} : { tray: [...tray, { ...item, key, note: "" }] };
  });
