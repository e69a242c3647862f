// Who played: numbers for the players of each ending, so that games of one player can be taken together.

import { Evaluation } from "../query/engine/evaluate.js";
import { type Stored, factNamed } from "../query/language/vocabulary.js";
import { foldText } from "../store/names.js";
import type { Connection } from "../store/connection.js";
import { type ColumnStore, columnStoreOf } from "../store/column-store.js";
import { type ClusterCount, type Proportion, clusteredProportion } from "./proportion.js";

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

export class Players {
  /** Numbers of the players of each ending, by its place on the store; a player who is not known is nobody else. */
  readonly attackers: Int32Array;
  readonly defenders: Int32Array;
  /** A name of each numbered player, as one file writes it; null where none is known. */
  readonly names: readonly (string | null)[];

  constructor(db: Connection, store: ColumnStore) {
    const evaluation = new Evaluation(db);
    const [attackers, defenders] = ["attacker-name", "defender-name"].map((name) =>
      evaluation.endingValues(factNamed(name)!),
    );
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
  private readonly endings: number[] = [];
  private readonly met: number[] = [];
  private readonly all: number[] = [];

  /** Cases must come ending by ending. */
  add(ending: number, met: number): void {
    let last = this.endings.length - 1;
    if (this.endings[last] !== ending) {
      last = this.endings.push(ending) - 1;
      this.met.push(0);
      this.all.push(0);
    }
    this.met[last] += met;
    ++this.all[last];
  }

  proportion({ attackers, defenders }: Players): Proportion {
    const by = (keyOf: (ending: number) => number): ClusterCount[] => {
      const clusters = new Map<number, { count: number; of: number }>();
      this.endings.forEach((ending, n) => {
        const key = keyOf(ending);
        const cluster = clusters.get(key);
        if (cluster) {
          cluster.count += this.met[n];
          cluster.of += this.all[n];
        } else clusters.set(key, { count: this.met[n], of: this.all[n] });
      });
      return [...clusters.values()];
    };
    const sum = (counts: readonly number[]) => counts.reduce((total, one) => total + one, 0);
    return clusteredProportion(sum(this.met), sum(this.all), [
      by((ending) => attackers[ending]),
      by((ending) => defenders[ending]),
      by((ending) => attackers[ending] * 2 ** 26 + defenders[ending]),
    ]);
  }
}
