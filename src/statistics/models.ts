// Regression on what people did: who holds an ending, and which moves of the defender lose the draw. Terms are chosen by
// rules, the same for every database: what is known of too few cases, or too rare, is left out and told.

import { PACES } from "../pgn/game/circumstances.js";
import { Evaluation } from "../query/engine/evaluate.js";
import type { NamedSetUp } from "../query/language/catalogue.js";
import { type Fact, factNamed } from "../query/language/vocabulary.js";
import { columnStoreOf } from "../store/column-store.js";
import { Growing, growingInts } from "../growing.js";
import { type Coefficient, type LogisticFit, type Rows, fitLogistic, holm } from "./logistic.js";
import { type Gathering, type Study, moverNumber } from "./moves-made.js";
import { playersOf } from "./players.js";

/** What a case may be told by: a number of its unit, or a truth as 0 or 1; not a number where it is not known. */
interface Term {
  readonly name: string;
  readonly valueOf: (n: number) => number;
  /** 0 or 1. */
  readonly truth?: boolean;
}

export interface ModelTerm extends Coefficient {
  /** `p` adjusted for the number of terms looked at (Holm 1979). */
  readonly adjusted: number;
}

export interface Model {
  /** Undefined where it cannot be fitted. */
  readonly fit: LogisticFit | undefined;
  /** Without the constant. */
  readonly terms: readonly ModelTerm[];
  /** Terms that were left out, and why. */
  readonly leftOut: readonly string[];
  /** Cases that were left out, since a term of theirs is not known. */
  readonly incomplete: number;
}

/** A number must be known of this share of the cases. */
const LEAST_KNOWN = 0.5;
/** A truth must be met, and not met, by so many cases (common practice, no source). */
const LEAST_MET = 10;
/** Events for each term (Peduzzi et al., Journal of Clinical Epidemiology 49, 1996). */
const EVENTS_A_TERM = 10;

/** Ratings count in hundreds, from a strong club player's on. */
const LEVEL = 2400;

/** What a model is about: for each case the place of its ending among all, and whether it happened. */
interface Cases {
  readonly endings: Int32Array;
  readonly happened: Uint8Array;
}

/** What is known of a term: of how many cases, how many of them have a value other than 0, and whether all have the same. */
function known({ valueOf }: Term, cases: number) {
  let [count, met, first, same] = [0, 0, NaN, true];
  for (let n = 0; n < cases; ++n) {
    const value = valueOf(n);
    if (Number.isNaN(value)) continue;
    if (count++ === 0) first = value;
    if (value !== 0) ++met;
    if (value !== first) same = false;
  }
  return { count, met, same };
}

/** The cases of which every term is known, by their numbers. */
function completeOf(terms: readonly Term[], cases: number): Int32Array {
  const missing = new Uint8Array(cases);
  for (const { valueOf } of terms)
    for (let n = 0; n < cases; ++n) if (Number.isNaN(valueOf(n))) missing[n] = 1;
  const complete = new Int32Array(cases);
  let count = 0;
  for (let n = 0; n < cases; ++n) if (!missing[n]) complete[count++] = n;
  return complete.subarray(0, count);
}

/** Some cases as rows of a model: the constant, then the terms. */
const rowsOf = (terms: readonly Term[], cases: Int32Array): Rows => ({
  count: cases.length,
  read(from, to, into, stride) {
    into.fill(1, 0, to - from);
    terms.forEach(({ valueOf }, term) => {
      for (let n = from, at = (term + 1) * stride; n < to; ++n, ++at) into[at] = valueOf(cases[n]);
    });
  },
});

function model(study: Study, { endings, happened }: Cases, offered: readonly Term[]): Model {
  const leftOut: string[] = [];
  const all = happened.length;
  let rare = 0;
  const chosen = offered.filter((term) => {
    const { count, met, same } = known(term, all);
    if (count < LEAST_KNOWN * all) {
      leftOut.push(`${term.name} (known of ${count} of ${all})`);
      return false;
    }
    if (term.truth && (met < LEAST_MET || count - met < LEAST_MET)) {
      if (met > 0) ++rare;
      return false;
    }
    if (same) {
      leftOut.push(`${term.name} (always the same)`);
      return false;
    }
    return true;
  });
  // the last terms offered go first where there are too few events
  let cases = completeOf(chosen, all);
  const rarer = () => {
    const events = cases.reduce((sum, n) => sum + happened[n], 0);
    return Math.min(events, cases.length - events);
  };
  const few: string[] = [];
  while (chosen.length > 1 && rarer() < EVENTS_A_TERM * chosen.length) {
    few.push(chosen.pop()!.name);
    cases = completeOf(chosen, all);
  }
  if (few.length > 0) leftOut.push(`${few.reverse().join(", ")} (too many terms for the events)`);
  if (rare > 0)
    leftOut.push(`${rare} ${rare === 1 ? "term" : "terms"} met, or not met, by fewer than ${LEAST_MET}`);
  const { attackers, defenders } = playersOf(study.db);
  const fit = fitLogistic({
    terms: ["constant", ...chosen.map(({ name }) => name)],
    rows: rowsOf(chosen, cases),
    happened: Uint8Array.from(cases, (n) => happened[n]),
    clusters: [cases.map((n) => attackers[endings[n]]), cases.map((n) => defenders[endings[n]])],
  });
  const coefficients = fit?.coefficients.slice(1) ?? [];
  const adjusted = holm(coefficients.map(({ p }) => p));
  return {
    fit,
    terms: coefficients.map((one, n) => ({ ...one, adjusted: adjusted[n] })),
    leftOut,
    incomplete: all - cases.length,
  };
}

const GAME_FACTS = ["attacker-rating", "defender-rating", "year", "pace"].map((name) => factNamed(name)!);
const DEFENDER_CLOCK = factNamed("defender-clock")!;
const OUTCOME = factNamed("outcome")!;

/** A fact of endings as numbers, by place of the ending among all; not a number where it is not known. */
const numbersOf = (study: Study, fact: Fact): Float64Array =>
  Float64Array.from(new Evaluation(study.db).endingValues(fact), (value) =>
    value === null ? NaN : Number(value),
  );

/** What is known of the endings of some cases from their games: strength, level, year and pace. */
function gameTerms(study: Study, endings: Int32Array): Term[] {
  const [attacker, defender, year] = GAME_FACTS.map((fact) => numbersOf(study, fact));
  const paces = new Evaluation(study.db).endingValues(GAME_FACTS[3]);
  const difference = attacker.map((rating, n) => (rating - defender[n]) / 100);
  const level = attacker.map((rating, n) => ((rating + defender[n]) / 2 - LEVEL) / 100);
  const decades = year.map((one) => (one - 2000) / 10);
  return [
    {
      name: "attacker's rating less the defender's, in hundreds",
      valueOf: (n) => difference[endings[n]],
    },
    { name: `mean rating, in hundreds from ${LEVEL}`, valueOf: (n) => level[endings[n]] },
    { name: "year, in decades from 2000", valueOf: (n) => decades[endings[n]] },
    ...PACES.filter((pace) => pace !== "standard").map((pace): Term => {
      const is = Uint8Array.from(paces, (one) => (one === pace ? 1 : 0));
      return {
        name: `${pace} (against standard, or a pace not told)`,
        truth: true,
        valueOf: (n) => is[endings[n]],
      };
    }),
  ];
}

/** Twice the time is one step; of what is not a number there is none. */
const doublings = (seconds: number) => Math.log2(Math.max(1, seconds));

/** Who held, of the endings with a result, by what was known when the ending arose. */
export function holdingModel(study: Study, setUps: readonly NamedSetUp[]): Gathering<Model> {
  const endings = growingInts();
  const held = new Growing((length) => new Uint8Array(length));
  const won = new Growing((length) => new Uint8Array(length));
  const fits = setUps.map(() => new Growing((length) => new Uint8Array(length)));
  return {
    facts: [OUTCOME, DEFENDER_CLOCK, ...GAME_FACTS],
    look(part) {
      const { starts } = part.store;
      const { verdicts } = part;
      const { none } = part.store.column("verdict");
      const outcomes = part.evaluation.endingValues(OUTCOME);
      const { numbers, members } = part.evaluation.setUps(setUps);
      for (const n of part.endings) {
        const entry = starts[n];
        if (outcomes[n] === "open" || verdicts[entry] === none) continue;
        endings.push(part.from + n);
        held.push(outcomes[n] === "held" ? 1 : 0);
        won.push(verdicts[entry] > 0 ? 1 : 0);
        fits.forEach((fit, setUp) => fit.push(members[numbers[entry]].includes(setUp) ? 1 : 0));
      }
    },
    result() {
      const clock = numbersOf(study, DEFENDER_CLOCK).map(doublings);
      const { values: places } = endings;
      const truth = (name: string, { values }: Growing<Uint8Array>): Term => ({
        name,
        truth: true,
        valueOf: (n) => values[n],
      });
      return model(study, { endings: places, happened: held.values }, [
        truth("won for the attacker at the entry", won),
        ...gameTerms(study, places),
        { name: "the defender's clock at the entry, each doubling", valueOf: (n) => clock[places[n]] },
        ...setUps.map(({ name }, n) => truth(`${name} at the entry`, fits[n])),
      ]);
    },
  };
}

/** Counts of moves, each doubling one step; a byte of a column holds no more. */
const DOUBLINGS = Float64Array.from({ length: 128 }, (_, n) => Math.log2(n));

/** Which of the defender's moves, where he had a draw to lose, lost it: the hazard of the mistake, move by move. */
export function mistakeModel(study: Study): Gathering<Model> {
  const endings = growingInts();
  const lost = new Growing((length) => new Uint8Array(length));
  const held = new Growing((length) => new Uint8Array(length));
  const legal = new Growing((length) => new Uint8Array(length));
  const check = new Growing((length) => new Uint8Array(length));
  /** Half-moves since the entry, and milliseconds before the move; below 0 where these are not known. */
  const since = new Growing((length) => new Uint16Array(length));
  const before = growingInts();
  const mover = moverNumber("defender", "drawn");
  return {
    facts: GAME_FACTS,
    look(part) {
      const { moves, errors, keeping, from } = part;
      const { starts } = part.store;
      const [all, checks, clock] = ["legal", "in-check", "clock-before"].map((name) => part.column(name));
      for (let n = 0; n < moves.count; ++n) {
        if (moves.movers[n] !== mover) continue;
        const p = moves.positions[n];
        endings.push(from + moves.endings[n]);
        lost.push(errors[p] > 0 ? 1 : 0);
        held.push(keeping[p]);
        legal.push(all[p]);
        check.push(checks[p]);
        since.push(p - starts[moves.endings[n]]);
        before.push(clock[p]);
      }
    },
    result() {
      const { firstHalfmoves } = columnStoreOf(study.db);
      const [places, kept, of, checked, apart, left] = [
        endings.values,
        held.values,
        legal.values,
        check.values,
        since.values,
        before.values,
      ];
      return model(study, { endings: places, happened: lost.values }, [
        { name: "moves that hold, each doubling", valueOf: (n) => DOUBLINGS[kept[n]] },
        { name: "legal moves, each doubling", valueOf: (n) => DOUBLINGS[of[n]] },
        { name: "in check", truth: true, valueOf: (n) => checked[n] },
        { name: "moves into the ending, each doubling", valueOf: (n) => Math.log2(1 + apart[n] / 2) },
        {
          name: "half-moves on the count of the fifty-move rule, in tens",
          valueOf: (n) => (firstHalfmoves[places[n]] + apart[n]) / 10,
        },
        ...gameTerms(study, places),
        {
          name: "time left before the move, each doubling",
          valueOf: (n) => (left[n] < 0 ? NaN : doublings(left[n] / 1000)),
        },
      ]);
    },
  };
}
