// The search for short rules: which few conditions tell won placements from the others best. Placements are bits of
// words, conditions are sets of them, and a rule is usually right, unless one of at most three terms of at most two
// conditions is met.

import type { Material } from "../chess/material.js";
import type { Placement } from "../chess/placement.js";
import { GEOMETRY, Geometer, type GeometryFact, NO_FACT } from "../geometry/facts.js";
import { ones } from "../tablebase/bits.js";

/** A condition in canonical form. */
export interface Condition {
  readonly text: string;
}
/** Conditions that must all be met. */
export type Term = readonly Condition[];

interface Candidate extends Condition {
  /** Placements that meet it seen from the nearest edge; and seen from the other, where two are as near. */
  readonly bits: Uint32Array;
  readonly other: Uint32Array;
  /** It takes more than a look at where two pieces stand. */
  readonly hard: boolean;
}

/** The values of all facts of a placement, and those from the other of two equal edges. */
interface Seen {
  readonly first: Int32Array;
  readonly other: Int32Array | undefined;
}

/** Placements that meet one or two conditions, all of them seen from the same edge: word `n` of their bits. */
const metIn = (n: number, one: Candidate, two?: Candidate): number =>
  two ? (one.bits[n] & two.bits[n]) | (one.other[n] & two.other[n]) : one.bits[n] | one.other[n];

const MOST_TERMS = 3;
const MOST_CONDITIONS = 2;
/** Rules kept on the way with each number of conditions. */
const BEAM = 4;
/** A finer rule must be right in so many more of the placements for each condition it has more. */
const WORTH = 0.004;
/** A condition that is hard to see must be right about so many more of the placements. */
const HARD = 0.012;
/** What it costs if the board has to be turned for a condition to be met: less than one placement. */
const SIDEWAYS = 0.5;
/** Single conditions from which pairs are made. */
const PAIRED = 160;

/** How a value is written in canonical form. */
const written = (fact: GeometryFact, value: number): string => {
  if (fact.type === "number") return String(value);
  if (fact.type === "flag") return value === 1 ? "yes" : "no";
  const word = fact.values![value];
  return /^[\w-]+(?:'s)?$/.test(word) ? word : JSON.stringify(word);
};

/** Facts that are compared with each other: where two pieces stand. */
const COMPARED = ["file", "rank"].map((line) =>
  GEOMETRY.map((fact, n) => ({ fact, n })).filter(({ fact }) => fact.unit === line),
);

/** Every condition that is met by some of the placements and not by all. */
function candidates(seen: readonly Seen[]): Candidate[] {
  const count = seen.length;
  const values = seen.map(({ first }) => first);
  const words = (count + 31) >> 5;
  const found: Candidate[] = [];
  const known = new Set<string>();
  const add = (text: string, hard: boolean, meets: (facts: Int32Array) => boolean) => {
    const [bits, other] = [new Uint32Array(words), new Uint32Array(words)];
    let met = 0;
    seen.forEach((facts, n) => {
      const [here, there] = [meets(facts.first), facts.other !== undefined && meets(facts.other)];
      if (here) bits[n >> 5] |= 1 << (n & 31);
      if (there) other[n >> 5] |= 1 << (n & 31);
      if (here || there) ++met;
    });
    if (met === 0 || met === count) return;
    const key = `${bits.join()} ${other.join()}`;
    if (known.has(key)) return;
    known.add(key);
    found.push({ text, bits, other, hard });
  };
  GEOMETRY.forEach((fact, n) => {
    const hard = fact.depends === "all";
    const present = [...new Set(values.map((facts) => facts[n]))]
      .filter((value) => value !== NO_FACT)
      .sort((a, b) => a - b);
    for (const value of present)
      add(`${fact.name} = ${written(fact, value)}`, hard, (facts) => facts[n] === value);
    if (fact.type === "number")
      for (const value of present) {
        add(`${fact.name} <= ${value}`, hard, (facts) => facts[n] !== NO_FACT && facts[n] <= value);
        add(`${fact.name} >= ${value}`, hard, (facts) => facts[n] !== NO_FACT && facts[n] >= value);
      }
    else if (fact.type === "word")
      for (const value of present)
        add(
          `${fact.name} != ${written(fact, value)}`,
          hard,
          (facts) => facts[n] !== NO_FACT && facts[n] !== value,
        );
  });
  for (const list of COMPARED)
    list.forEach((one, n) => {
      for (const other of list.slice(n + 1))
        for (const [sign, meets] of [
          ["=", (a: number, b: number) => a === b],
          ["<", (a: number, b: number) => a < b],
          [">", (a: number, b: number) => a > b],
        ] as const)
          add(
            `${one.fact.name} ${sign} ${other.fact.name}`,
            false,
            (facts) =>
              facts[one.n] !== NO_FACT && facts[other.n] !== NO_FACT && meets(facts[one.n], facts[other.n]),
          );
    });
  return found;
}

interface State {
  readonly terms: readonly Term[];
  readonly conditions: number;
  /** Placements that some term excepts. */
  readonly excepted: Uint32Array;
  /** Placements it is right about. */
  readonly right: number;
}

/**
 * Rules from coarse to fine for placements of which it is known whether they are won: the best with each number of
 * conditions that is worth them.
 */
export function searchRules(
  material: Material,
  placements: readonly Placement[],
  won: readonly boolean[],
): { readonly usuallyWon: boolean; readonly rules: readonly (readonly Term[])[] } {
  const geometer = new Geometer(material);
  const seen = placements.map((placement): Seen => ({
    first: geometer.values(placement).slice(0, GEOMETRY.length),
    other: geometer.valuesFromOtherEdge(placement)?.slice(0, GEOMETRY.length),
  }));
  const usuallyWon = won.filter(Boolean).length * 2 > won.length;
  const words = (placements.length + 31) >> 5;
  // those that the rule must except, and those that it must not
  const wanted = new Uint32Array(words);
  const unwanted = new Uint32Array(words);
  won.forEach((isWon, n) => ((isWon !== usuallyWon ? wanted : unwanted)[n >> 5] |= 1 << (n & 31)));
  const all = candidates(seen);
  const effort = Math.ceil(HARD * placements.length);
  /** What excepting more placements gains, less what it takes to see them. */
  const gainOf = (excepted: Uint32Array, one: Candidate, two?: Candidate): number => {
    let gain = -effort * (Number(one.hard) + Number(two?.hard ?? false));
    let sideways = false;
    for (let n = 0; n < words; ++n) {
      const more = metIn(n, one, two) & ~excepted[n];
      if (more === 0) continue;
      gain += ones(more & wanted[n]) - ones(more & unwanted[n]);
      sideways ||= (more & ~(two ? one.bits[n] & two.bits[n] : one.bits[n])) !== 0;
    }
    // of two that gain the same, one that is true of the board as it is shown
    return sideways ? gain - SIDEWAYS : gain;
  };
  /** The best terms to add, of one or two conditions. */
  const termsFor = (excepted: Uint32Array): { term: readonly Candidate[]; gain: number }[] => {
    const singles = all
      .map((one) => ({ term: [one], gain: gainOf(excepted, one) }))
      .sort((a, b) => b.gain - a.gain);
    // conditions that most of what is wanted meets make good pairs, even where alone they gain nothing
    const covering = all
      .map((one) => {
        let met = 0;
        for (let n = 0; n < words; ++n) met += ones(metIn(n, one) & wanted[n] & ~excepted[n]);
        return { one, met };
      })
      .sort((a, b) => b.met - a.met)
      .slice(0, PAIRED)
      .map(({ one }) => one);
    const pool = [...new Set([...singles.slice(0, PAIRED).map(({ term }) => term[0]), ...covering])];
    const pairs: { term: readonly Candidate[]; gain: number }[] = [];
    pool.forEach((one, n) => {
      for (const other of pool.slice(n + 1)) {
        const gain = gainOf(excepted, one, other);
        if (gain > 0) pairs.push({ term: [one, other], gain });
      }
    });
    pairs.sort((a, b) => b.gain - a.gain);
    return [...singles.slice(0, BEAM), ...pairs.slice(0, BEAM)].filter(({ gain }) => gain > 0);
  };
  const usual = unwanted.reduce((sum, bits) => sum + ones(bits), 0);
  const most = MOST_TERMS * MOST_CONDITIONS;
  const states: State[][] = Array.from({ length: most + 1 }, () => []);
  states[0] = [{ terms: [], conditions: 0, excepted: new Uint32Array(words), right: usual }];
  for (let conditions = 0; conditions < most; ++conditions) {
    states[conditions].sort((a, b) => b.right - a.right).splice(BEAM);
    for (const state of states[conditions]) {
      if (state.terms.length >= MOST_TERMS) continue;
      for (const { term, gain } of termsFor(state.excepted)) {
        const excepted = state.excepted.slice();
        for (let n = 0; n < words; ++n) excepted[n] |= metIn(n, term[0], term[1]);
        states[conditions + term.length]?.push({
          terms: [...state.terms, term.map(({ text }) => ({ text }))],
          conditions: conditions + term.length,
          excepted,
          right: state.right + gain,
        });
      }
    }
  }
  const rules: State[] = [states[0][0]];
  for (const list of states.slice(1)) {
    const best = list.sort((a, b) => b.right - a.right)[0];
    const last = rules[rules.length - 1];
    const worth = WORTH * placements.length * (best ? best.conditions - last.conditions : 0);
    if (best && best.right > last.right + worth) rules.push(best);
  }
  return { usuallyWon, rules: rules.map(({ terms }) => terms) };
}
