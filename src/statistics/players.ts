// Who played: numbers for the players of each ending, so that games of one player can be taken together.

import { Evaluation } from "../query/engine/evaluate.js";
import { type Stored, factNamed } from "../query/language/vocabulary.js";
import { foldText } from "../store/names.js";
import type { Connection } from "../store/connection.js";
import { type ColumnStore, columnStoreOf } from "../store/column-store.js";
import { growingInts } from "../growing.js";
import { pairsOf } from "./pairs.js";
import { type Clusters, type Proportion, clusteredProportion } from "./proportion.js";

/**
 * What a player's names in several files have in common: the family name and the first letter of the given one. Without a
 * comma the last word is taken for the family name. Two people of one family with one initial are taken for one.
 */
export function playerKey(name: string): string {
  const folded = foldText(name).trim();
  const [family, given] = folded.includes(",")
    ? folded.split(",", 2)
    : (/^(?:(.*)\s)?(\S+)$/.exec(folded)?.slice(1).reverse() ?? [folded]);
  return `${family.trim()} ${given?.trim()[0] ?? ""}`.trim();
}

/** What is known of players by their games. */
export const PLAYER_FACTS = ["attacker-name", "defender-name"].map((name) => factNamed(name)!);

/**
 * Numbers that a tally keeps of each ending: its place, and in one number how many of its cases count and, in the lower
 * half, how many there are. No game has so many positions that they need more.
 */
const CASE = 2;
const HALF = 16;
const LOWER = 2 ** HALF - 1;

export class Players {
  /** Numbers of the players of each ending, by its place on the store; a player who is not known is nobody else. */
  readonly attackers: Int32Array;
  readonly defenders: Int32Array;
  /** The same of both players together. */
  private readonly pairs: Int32Array;
  /** A name of each numbered player, as one file writes it; null where none is known. */
  readonly names: readonly (string | null)[];
  /** For each number the place of its cluster while one count is made, else -1. */
  private readonly slots: Int32Array;

  constructor(db: Connection, store: ColumnStore) {
    const evaluation = new Evaluation(db);
    evaluation.readTogether(PLAYER_FACTS);
    const [attackers, defenders] = PLAYER_FACTS.map((fact) => evaluation.endingValues(fact));
    const names: (string | null)[] = [];
    const numbers = new Map<string, number>();
    const numberOf = (value: Stored | null): number => {
      const name = value === null ? null : String(value);
      if (name === null) return names.push(null) - 1;
      const key = playerKey(name);
      let number = numbers.get(key);
      if (number === undefined) numbers.set(key, (number = names.push(name) - 1));
      return number;
    };
    this.attackers = new Int32Array(store.endings);
    this.defenders = new Int32Array(store.endings);
    for (let n = 0; n < store.endings; ++n) {
      this.attackers[n] = numberOf(attackers[n]);
      this.defenders[n] = numberOf(defenders[n]);
    }
    this.names = names;
    this.pairs = pairsOf(this.attackers, this.defenders);
    this.slots = new Int32Array(Math.max(names.length, store.endings)).fill(-1);
  }

  /** A proportion of the cases of some endings, as `ClusteredTally` keeps them. */
  proportion(cases: Int32Array): Proportion {
    let [count, of] = [0, 0];
    for (let n = 0; n < cases.length; n += CASE) {
      count += cases[n + 1] >> HALF;
      of += cases[n + 1] & LOWER;
    }
    return clusteredProportion(count, of, [
      this.clusters(cases, this.attackers),
      this.clusters(cases, this.defenders),
      this.clusters(cases, this.pairs),
    ]);
  }

  /** Cases by the numbers of their endings, clusters in the order in which they come up. */
  private clusters(cases: Int32Array, numbers: Int32Array): Clusters {
    const { slots } = this;
    const counts = new Int32Array(cases.length / CASE);
    const of = new Int32Array(cases.length / CASE);
    let groups = 0;
    for (let n = 0; n < cases.length; n += CASE) {
      const number = numbers[cases[n]];
      if (slots[number] < 0) slots[number] = groups++;
      counts[slots[number]] += cases[n + 1] >> HALF;
      of[slots[number]] += cases[n + 1] & LOWER;
    }
    for (let n = 0; n < cases.length; n += CASE) slots[numbers[cases[n]]] = -1;
    return { counts: counts.subarray(0, groups), of: of.subarray(0, groups) };
  }
}

/** The players of a database's endings, worked out once for each state of it. */
export function playersOf(db: Connection): Players {
  const store = columnStoreOf(db);
  let players = store.derived.get("players") as Players | undefined;
  if (!players) store.derived.set("players", (players = new Players(db, store)));
  return players;
}

/** Counts cases ending by ending, for a share whose interval knows that games of one player belong together. */
export class ClusteredTally {
  private readonly cases = growingInts();
  private last = -1;

  /** Cases must come ending by ending, these by their places among all endings. */
  add(ending: number, met: number): void {
    const { cases } = this;
    if (ending !== this.last) {
      this.last = ending;
      cases.push(ending);
      cases.push(0);
    }
    cases.array[cases.length - 1] += (met << HALF) + 1;
  }

  /** The cases of each ending, see `Players.proportion`. */
  get values(): Int32Array {
    return this.cases.values;
  }

  /** Adds the cases of other endings, which come behind these. */
  append(cases: Int32Array): void {
    for (const number of cases) this.cases.push(number);
    this.last = -1;
  }

  proportion(players: Players): Proportion {
    return players.proportion(this.values);
  }
}
