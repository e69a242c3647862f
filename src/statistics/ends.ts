// How long defenders hold, and how it ends: from the entry into the ending, or from a position reached later, until the move
// that loses the draw. A draw, a capture, a resignation end it in another way. Only where a score breaks off is it unknown
// how it went on.

import type { Question } from "../query/language/ast.js";
import { factNamed } from "../query/language/vocabulary.js";
import { type Split, compareKeys, factsOf, keyShown, keysOf } from "../query/engine/splits.js";
import type { Gathering, Study, StudyPart } from "./moves-made.js";
import { playersOf } from "./players.js";
import {
  type EndedSpell,
  type IncidenceStep,
  type LogRank,
  type Survival,
  incidences,
  logRank,
  survivalOf,
} from "./survival-curves.js";

const OUTCOME = factNamed("outcome")!;
const HOW = factNamed("ended-by")!;

/** Groups with fewer cases are not compared: their curves say next to nothing. */
export const LEAST_CASES = 10;

/**
 * How it can end: a move of the defender gives the draw (or a win) away; he resigns or oversteps the time though it is not
 * lost; or the draw is there until it is agreed, claimed or taken by a capture, or he wins.
 */
export const ENDS = ["lost by a move", "resigned or out of time", "held"] as const;
type End = 0 | 1 | 2;

export interface Ended extends EndedSpell {
  readonly end: End | null;
  /** How the file has it: see the fact `ended-by`; "a move" for a draw lost by one. */
  readonly how: string;
}

export interface EndGroup {
  readonly value: string;
  readonly spells: readonly Ended[];
  /** By end, in the order of `ENDS`. */
  readonly incidences: readonly (readonly IncidenceStep[])[];
  /** As it would be were there no other ends, if these came without regard to how the defence stood. */
  readonly survival: Survival;
}

export interface EndStudy {
  readonly all: EndGroup;
  /** Endings of the study without a start: it was never reached, or won for the attacker there. */
  readonly without: number;
  readonly groups: readonly EndGroup[];
  /** Of the hazards of losing by a move, in the groups with enough cases. */
  readonly logRank: LogRank | undefined;
}

const group = (value: string, spells: readonly Ended[]): EndGroup => ({
  value,
  spells,
  incidences: incidences(spells, ENDS.length),
  survival: survivalOf(spells.map(({ time, end }) => ({ time, event: end === 0 }))),
});

/**
 * The ends of a study. Time counts the defender's moves from the start, the losing one among them. The clock starts in the
 * first position of each ending, or in the first by which every one of `from` has been met at some moment. Cases whose
 * value of `split` is not known are in no group.
 */
export function endsOf(
  study: Study,
  { from = [], split }: { from?: readonly Question[]; split?: Split },
): Gathering<EndStudy> {
  const all: Ended[] = [];
  const groups = new Map<string | number, Ended[]>();
  let without = 0;
  return {
    facts: [OUTCOME, HOW, ...factsOf(split)],
    look(part) {
      const { defenders } = playersOf(study.db);
      const masks = from.map((question) => part.evaluation.positions(question));
      const keys = split && keysOf(part.evaluation, split, "ending");
      const ends = new EndReader(part, masks);
      for (const ending of part.endings) {
        const found = ends.of(ending);
        if (!found) {
          ++without;
          continue;
        }
        const spell = { ...found, cluster: defenders[part.from + ending] };
        all.push(spell);
        // of several set-ups the first of the catalogue, so that each case is counted once
        const key = keys?.at(ending)[0] ?? null;
        if (key === null) continue;
        const cases = groups.get(key);
        if (cases) cases.push(spell);
        else groups.set(key, [spell]);
      }
    },
    result() {
      const made = [...groups]
        .sort(([a], [b]) => compareKeys(a, b))
        .map(([key, spells]) => group(String(keyShown(split!, key)), spells));
      const compared = made.filter(({ spells }) => spells.length >= LEAST_CASES);
      return {
        all: group("all", all),
        without,
        groups: made,
        logRank: logRank(
          compared.map(({ spells }) => spells.map(({ time, end }) => ({ time, event: end === 0 }))),
        ),
      };
    },
  };
}

/** Reads how single endings of a part went. */
class EndReader {
  private readonly turn;
  private readonly verdicts;
  private readonly errors;
  private readonly none;
  private readonly outcomes;
  private readonly how;

  constructor(
    private readonly part: StudyPart,
    private readonly from: readonly ArrayLike<number>[],
  ) {
    this.turn = part.column("attacker-to-move");
    this.verdicts = part.verdicts;
    this.none = part.store.column("verdict").none;
    this.errors = part.errors;
    this.outcomes = part.evaluation.endingValues(OUTCOME);
    this.how = part.evaluation.endingValues(HOW);
  }

  /** Where the clock starts; undefined where it never does. */
  private startOf(ending: number): number | undefined {
    const { starts } = this.part.store;
    const end = starts[ending + 1];
    let start = starts[ending];
    for (const mask of this.from) {
      let p = starts[ending];
      while (p < end && !mask[p]) ++p;
      if (p === end) return undefined;
      start = Math.max(start, p);
    }
    return start;
  }

  of(ending: number): Omit<Ended, "cluster"> | undefined {
    const { turn, verdicts, errors } = this;
    const end = this.part.store.starts[ending + 1];
    let p = this.startOf(ending);
    if (p === undefined || verdicts[p] === this.none || verdicts[p] > 0) return undefined;
    let time = 0;
    for (; p < end; ++p) {
      if (turn[p] === 1 || errors[p] < 0) continue;
      ++time;
      // what was drawn or better for the defender is now won for the attacker
      if (verdicts[p] + errors[p] > 0) return { time, end: 0, how: "a move" };
    }
    const how = String(this.how[ending]);
    if (how === "capture") return { time, end: 2, how };
    if (how === "cut off" || this.outcomes[ending] === "open") return { time, end: null, how };
    return { time, end: this.outcomes[ending] === "lost" ? 1 : 2, how };
  }
}
