// Names that a database holds: players, events and sites, so that a bare name in a question can be told from a word that
// is not known, and so that names can be completed.

import distance from "damerau-levenshtein";

import type { Connection } from "./connection.js";

/** Text without case and accents, as names are compared. */
export const foldText = (text: string): string => text.normalize("NFD").replace(/\p{M}/gu, "").toLowerCase();

/** Folded texts, since the same names come again and again; forgotten when they are too many. */
const folded = new Map<string, string>();
const FOLDED = 100_000;

/** The same as `foldText`, remembered. */
export function foldAgain(text: string): string {
  let known = folded.get(text);
  if (known === undefined) {
    if (folded.size >= FOLDED) folded.clear();
    folded.set(text, (known = foldText(text)));
  }
  return known;
}

const wordsOf = (text: string): string[] => text.split(/[^\p{L}\p{N}'’]+/u).filter((word) => word !== "");

/**
 * Whether a player's name is the one sought, both as `foldText` gives them: each word sought is a word of the name, in any
 * order, or the initial of one, or has one for its initial. Initials alone name nobody; nothing sought is everybody's name.
 */
export function isNamed(name: string, sought: string): boolean {
  const left = wordsOf(name);
  const wanted = wordsOf(sought).sort((a, b) => b.length - a.length);
  let whole = wanted.length === 0;
  for (const word of wanted) {
    let at = left.indexOf(word);
    if (at >= 0) whole ||= word.length > 1;
    else
      at = left.findIndex(
        (one) => (one.length === 1 && word.startsWith(one)) || (word.length === 1 && one.startsWith(word)),
      );
    if (at < 0) return false;
    left.splice(at, 1);
  }
  return whole;
}

/** The names of one state of a database. */
export class Names {
  /** Players as they are written, each once. */
  readonly players: readonly string[];
  private readonly byWord = new Map<string, string[]>();
  private readonly events: readonly string[];
  private readonly sites: readonly string[];

  constructor(db: Connection) {
    const texts = (sql: string) => (db.prepare(sql).pluck().all() as string[]).filter((text) => text !== "");
    this.players = texts(
      "SELECT white FROM games WHERE white IS NOT NULL UNION SELECT black FROM games WHERE black IS NOT NULL",
    );
    this.events = texts("SELECT DISTINCT event FROM games WHERE event IS NOT NULL").map(foldText);
    this.sites = texts("SELECT DISTINCT site FROM games WHERE site IS NOT NULL").map(foldText);
    for (const player of this.players) {
      const folded = foldText(player);
      for (const word of wordsOf(folded)) {
        if (word.length < 2) continue;
        const names = this.byWord.get(word);
        if (names) names.push(folded);
        else this.byWord.set(word, [folded]);
      }
    }
  }

  readonly isPlayer = (text: string): boolean => {
    const sought = foldText(text);
    const whole = wordsOf(sought).filter((word) => word.length > 1);
    // a word without a capital is no first name that an initial could stand for
    const small = wordsOf(text)
      .filter((word) => word.length > 1 && !/^\p{Lu}/u.test(word))
      .map(foldText);
    return whole.some((word) =>
      this.byWord
        .get(word)
        ?.some((name) => isNamed(name, sought) && small.every((one) => wordsOf(name).includes(one))),
    );
  };
  /** Words of players' names, as they are written, that differ from a word by little, the nearest first. */
  near(word: string): string[] {
    const sought = foldText(word);
    const most = Math.max(1, Math.floor(sought.length / 4));
    const found: { word: string; steps: number }[] = [];
    for (const known of this.byWord.keys()) {
      if (known.length < 3 || Math.abs(known.length - sought.length) > most) continue;
      const { steps } = distance(sought, known);
      if (steps > 0 && steps <= most) found.push({ word: known, steps });
    }
    return found
      .sort((a, b) => a.steps - b.steps || (a.word < b.word ? -1 : 1))
      .map((one) => `${one.word[0].toUpperCase()}${one.word.slice(1)}`);
  }

  readonly isEvent = (text: string): boolean => holds(this.events, foldText(text));
  readonly isSite = (text: string): boolean => holds(this.sites, foldText(text));
}

function holds(texts: readonly string[], sought: string): boolean {
  if (sought.length < 3) return false;
  const whole = new RegExp(`(?<!\\p{L})${escaped(sought)}(?!\\p{L})`, "u");
  return texts.some((text) => whole.test(text));
}
const escaped = (text: string) => text.replace(/[.*+?^${}()|[\]\\]/g, "\\$&");

const known = new WeakMap<Connection, { readonly version: unknown; readonly names: Names }>();

/** The names that a database holds now. */
export function namesIn(db: Connection): Names {
  const version = db.setting("data_version");
  const before = known.get(db);
  if (before?.version === version) return before!.names;
  const names = new Names(db);
  known.set(db, { version, names });
  return names;
}
