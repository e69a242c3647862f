// Regression on what people did: who holds an ending, and which moves of the defender lose the draw. Terms are chosen by
// rules, the same for every database: what is known of too few cases, or too rare, is left out and told.

import { PACES } from "../pgn/game/circumstances.js";
import { factNamed } from "../query/language/vocabulary.js";
import type { NamedSetUp } from "../query/language/catalogue.js";
import { type Coefficient, type LogisticFit, fitLogistic, holm } from "./logistic.js";
import type { Study } from "./moves-made.js";
import { playersOf } from "./players.js";

/** What a case may be told by: a number of its unit, or a truth as 0 or 1; null where it is not known. */
interface Term {
  readonly name: string;
  readonly valueOf: (place: number) => number | null;
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

/** One value of a case that the model is about: whether it happened, and the ending that it belongs to. */
interface Case {
  readonly place: number;
  readonly ending: number;
  readonly happened: boolean;
}

function model(study: Study, cases: readonly Case[], offered: readonly Term[]): Model {
  const leftOut: string[] = [];
  let rare = 0;
  const chosen = offered.filter(({ name, valueOf, truth }) => {
    const values = cases.map(({ place }) => valueOf(place));
    const known = values.filter((value) => value !== null);
    if (known.length < LEAST_KNOWN * cases.length) {
      leftOut.push(`${name} (known of ${known.length} of ${cases.length})`);
      return false;
    }
    const met = known.filter((value) => value !== 0).length;
    if (truth && (met < LEAST_MET || known.length - met < LEAST_MET)) {
      if (met > 0) ++rare;
      return false;
    }
    if (known.every((value) => value === known[0])) {
      leftOut.push(`${name} (always the same)`);
      return false;
    }
    return true;
  });
  const complete = (terms: readonly Term[]) =>
    cases.flatMap((one) => {
      const row = terms.map(({ valueOf }) => valueOf(one.place));
      return row.includes(null) ? [] : [{ one, row: [1, ...(row as number[])] }];
    });
  // the last terms offered go first where there are too few events
  let rows = complete(chosen);
  const rarer = () => {
    const happened = rows.filter(({ one }) => one.happened).length;
    return Math.min(happened, rows.length - happened);
  };
  const few: string[] = [];
  while (chosen.length > 1 && rarer() < EVENTS_A_TERM * chosen.length) {
    few.push(chosen.pop()!.name);
    rows = complete(chosen);
  }
  if (few.length > 0) leftOut.push(`${few.reverse().join(", ")} (too many terms for the events)`);
  if (rare > 0)
    leftOut.push(`${rare} ${rare === 1 ? "term" : "terms"} met, or not met, by fewer than ${LEAST_MET}`);
  const players = playersOf(study.db);
  const fit = fitLogistic({
    terms: ["constant", ...chosen.map(({ name }) => name)],
    rows: rows.map(({ row }) => row),
    happened: rows.map(({ one }) => one.happened),
    clusters: rows.map(({ one }) => [players.attackers[one.ending], players.defenders[one.ending]]),
  });
  const coefficients = fit?.coefficients.slice(1) ?? [];
  const adjusted = holm(coefficients.map(({ p }) => p));
  return {
    fit,
    terms: coefficients.map((one, n) => ({ ...one, adjusted: adjusted[n] })),
    leftOut,
    incomplete: cases.length - rows.length,
  };
}

/** Facts of endings as numbers, by place of the ending. */
function endingFact(study: Study, name: string): readonly (number | null)[] {
  return study.evaluation
    .endingValues(factNamed(name)!)
    .map((value) => (value === null ? null : Number(value)));
}

/** What is known of an ending from its game: strength, level, year and pace. */
function gameTerms(study: Study): Term[] {
  const [attacker, defender, year] = ["attacker-rating", "defender-rating", "year"].map((name) =>
    endingFact(study, name),
  );
  const paces = study.evaluation.endingValues(factNamed("pace")!);
  const per = (value: number | null, from: number, unit: number) =>
    value === null ? null : (value - from) / unit;
  const mean = (n: number) =>
    attacker[n] === null || defender[n] === null ? null : (attacker[n] + defender[n]) / 2;
  return [
    {
      name: "attacker's rating less the defender's, in hundreds",
      valueOf: (n) =>
        attacker[n] === null || defender[n] === null ? null : (attacker[n] - defender[n]) / 100,
    },
    { name: `mean rating, in hundreds from ${LEVEL}`, valueOf: (n) => per(mean(n), LEVEL, 100) },
    { name: "year, in decades from 2000", valueOf: (n) => per(year[n], 2000, 10) },
    ...PACES.filter((pace) => pace !== "standard").map((pace): Term => ({
      name: `${pace} (against standard, or a pace not told)`,
      truth: true,
      valueOf: (n) => (paces[n] === pace ? 1 : 0),
    })),
  ];
}

/** Twice the time is one step. */
const doublings = (seconds: number | null) => (seconds === null ? null : Math.log2(Math.max(1, seconds)));

/** Who held, of the endings with a result, by what was known when the ending arose. */
export function holdingModel(study: Study, setUps: readonly NamedSetUp[]): Model {
  const { starts } = study.store;
  const outcomes = study.evaluation.endingValues(factNamed("outcome")!);
  const verdicts = study.verdicts();
  const { none } = study.store.column("verdict");
  const clock = endingFact(study, "defender-clock");
  const cases = study.endings
    .filter((n) => outcomes[n] !== "open" && verdicts[starts[n]] !== none)
    .map((n) => ({ place: n, ending: n, happened: outcomes[n] === "held" }));
  const masks = setUps.map(({ test }) => study.evaluation.positions(test));
  return model(study, cases, [
    {
      name: "won for the attacker at the entry",
      truth: true,
      valueOf: (n) => (verdicts[starts[n]] > 0 ? 1 : 0),
    },
    ...gameTerms(study),
    { name: "the defender's clock at the entry, each doubling", valueOf: (n) => doublings(clock[n]) },
    ...setUps.map(({ name }, m): Term => ({
      name: `${name} at the entry`,
      truth: true,
      valueOf: (n) => (masks[m][starts[n]] ? 1 : 0),
    })),
  ]);
}

/** Which of the defender's moves, where he had a draw to lose, lost it: the hazard of the mistake, move by move. */
export function mistakeModel(study: Study): Model {
  const cases: Case[] = [];
  study.eachMove((place, ending, { side, stood, error }) => {
    if (side === "defender" && stood === "drawn") cases.push({ place, ending, happened: error > 0 });
  });
  const { store } = study;
  const endingAt = store.endingOf();
  const keeping = study.column(study.rule === "fifty" ? "fifty-keeping" : "keeping");
  const legal = study.column("legal");
  const check = study.column("in-check");
  const before = store.column("clock-before");
  return model(study, cases, [
    { name: "moves that hold, each doubling", valueOf: (p) => Math.log2(keeping[p]) },
    { name: "legal moves, each doubling", valueOf: (p) => Math.log2(legal[p]) },
    { name: "in check", truth: true, valueOf: (p) => check[p] },
    {
      name: "moves into the ending, each doubling",
      valueOf: (p) => Math.log2(1 + (p - store.starts[endingAt[p]]) / 2),
    },
    {
      name: "half-moves on the count of the fifty-move rule, in tens",
      valueOf: (p) => (store.firstHalfmoves[endingAt[p]] + p - store.starts[endingAt[p]]) / 10,
    },
    ...gameTerms(study).map((term) => ({ ...term, valueOf: (p: number) => term.valueOf(endingAt[p]) })),
    {
      name: "time left before the move, each doubling",
      valueOf: (p) => (before.values[p] === before.none ? null : doublings(before.values[p] / 1000)),
    },
  ]);
}
