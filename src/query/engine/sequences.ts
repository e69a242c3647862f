// The course of an ending: conditions on its positions one after another, told from masks.

import type { Course, Question, Scoped, Tally } from "../language/ast.js";
import type { Mask } from "./masks.js";
import { compared } from "./predicate.js";

/** Half-moves in so many moves. */
const PLIES = 2;

/**
 * Says whether the positions of an ending, from place `start` up to and without `end`, meet a condition, and gives the
 * places that show it: none where every one does.
 */
export type Matcher = (start: number, end: number) => number[] | undefined;

/** The matcher of a condition on the course of an ending; `maskOf` gives the positions that a part is met at. */
export function matcherOf(
  node: Scoped | Course,
  maskOf: (part: Question) => Mask,
  attackerToMove: ArrayLike<number>,
): Matcher {
  switch (node.kind) {
    case "scoped":
      return SCOPES[node.quantifier](maskOf(node.part));
    case "run": {
      const mask = maskOf(node.part);
      return (start, end) => {
        const stay = longestStay(mask, attackerToMove, start, end);
        return stay && stay[1] - stay[0] >= PLIES * node.moves ? stay : undefined;
      };
    }
    case "tally": {
      const mask = maskOf(node.part);
      return (start, end) => {
        const met = TALLIED[node.how](mask, attackerToMove, start, end);
        return compared(met.length, node.operator, node.value) ? met : undefined;
      };
    }
    case "change": {
      const mask = maskOf(node.part);
      const by = node.by && maskOf(node.by);
      const before = node.how === "left" ? 1 : 0;
      return (start, end) => {
        for (let n = start; n + 1 < end; ++n)
          if (mask[n] === before && mask[n + 1] !== before && (!by || by[n])) return [n, n + 1];
        return undefined;
      };
    }
    case "first": {
      const mask = maskOf(node.part);
      const of = node.of && maskOf(node.of);
      return (start, end) => {
        const first = firstIn(mask, start, end);
        if (first < 0) return undefined;
        // the last time that it is reached before
        let reached = start;
        if (of) {
          reached = first;
          while (reached >= start && !(of[reached] && (reached === start || !of[reached - 1]))) --reached;
        }
        return reached >= start && first - reached <= PLIES * node.within ? [reached, first] : undefined;
      };
    }
    case "sequence": {
      const first = maskOf(node.first);
      const then = node.then.map(({ part, within }) => ({ mask: maskOf(part), within }));
      return (start, end) => follow(first, then, start, end);
    }
  }
}

/**
 * The longest stay in what a mask marks, as its first and last place; undefined where there is none. A person who says
 * that somebody stayed in a set-up looks at it after each of the defender's moves. So only these positions, with the
 * attacker to move, count: a check that is answered does not end a stay. Nor does one move that steps out and is
 * followed by one that comes back.
 */
export function longestStay(
  mask: Mask,
  attackerToMove: ArrayLike<number>,
  start: number,
  end: number,
): [number, number] | undefined {
  let best: [number, number] | undefined;
  eachStay(mask, attackerToMove, start, end, (first, last) => {
    if (!best || last - first > best[1] - best[0]) best = [first, last];
  });
  return best;
}

/** Calls `look` with the first and the last place of every stay in what a mask marks, in order. */
function eachStay(
  mask: Mask,
  attackerToMove: ArrayLike<number>,
  start: number,
  end: number,
  look: (first: number, last: number) => void,
): void {
  let first = -1;
  let last = -1;
  for (let n = start; n < end; ++n) {
    if (attackerToMove[n] !== 1) continue;
    if (mask[n]) {
      if (first < 0) first = n;
      last = n;
    } else if (first >= 0 && n - last > PLIES) {
      look(first, last);
      first = -1;
    }
  }
  if (first >= 0) look(first, last);
}

/** How positions are tallied: the places that count. */
const TALLIED: Readonly<
  Record<
    Tally["how"],
    (mask: Mask, attackerToMove: ArrayLike<number>, start: number, end: number) => number[]
  >
> = {
  count: (mask, _, start, end) => metIn(mask, start, end),
  streak: (mask, _, start, end) => longestStreak(mask, start, end),
  stays: (mask, attackerToMove, start, end) => {
    const begins: number[] = [];
    eachStay(mask, attackerToMove, start, end, (first) => begins.push(first));
    return begins;
  },
};

/** The places that are met. */
function metIn(mask: Mask, start: number, end: number): number[] {
  const met: number[] = [];
  for (let n = start; n < end; ++n) if (mask[n]) met.push(n);
  return met;
}

/** The longest row of one side's turns, none left out, that are met. */
function longestStreak(mask: Mask, start: number, end: number): number[] {
  let [longest, last] = [0, start];
  for (let first = start; first < Math.min(start + PLIES, end); ++first) {
    let length = 0;
    for (let n = first; n < end; n += PLIES) {
      length = mask[n] ? length + 1 : 0;
      if (length > longest) [longest, last] = [length, n];
    }
  }
  return Array.from({ length: longest }, (_, n) => last - PLIES * (longest - 1 - n));
}

/** Places that follow each other: for each step the earliest that still lets the rest follow. */
function follow(
  first: Mask,
  then: readonly { readonly mask: Mask; readonly within: number | null }[],
  start: number,
  end: number,
): number[] | undefined {
  const from = (at: number, step: number): number[] | undefined => {
    if (step === then.length) return [at];
    const { mask, within } = then[step];
    const limit = within === null ? end : Math.min(end, at + PLIES * within + 1);
    for (let n = at + 1; n < limit; ++n) {
      if (!mask[n]) continue;
      const rest = from(n, step + 1);
      if (rest) return [at, ...rest];
      // without a limit on the next step, a later place can do no better
      if (step + 1 < then.length && then[step + 1].within === null) return undefined;
    }
    return undefined;
  };
  // most endings want one of the steps altogether
  if (firstIn(first, start, end) < 0 || then.some(({ mask }) => firstIn(mask, start, end) < 0))
    return undefined;
  for (let n = start; n < end; ++n) {
    if (!first[n]) continue;
    const found = from(n, 0);
    if (found) return found;
    if (then[0].within === null) return undefined;
  }
  return undefined;
}

/** The first place that is met from `start` up to and without `end`; -1 if there is none. */
function firstIn(mask: Mask, start: number, end: number): number {
  for (let n = start; n < end; ++n) if (mask[n]) return n;
  return -1;
}

/** How a quantifier looks at the positions of an ending. */
const SCOPES: Readonly<Record<Scoped["quantifier"], (mask: Mask) => Matcher>> = {
  somewhere: (mask) => (start, end) => {
    const at = firstIn(mask, start, end);
    return at < 0 ? undefined : [at];
  },
  mostly: (mask) => (start, end) => {
    let met = 0;
    for (let n = start; n < end; ++n) met += mask[n];
    return 2 * met > end - start ? [firstIn(mask, start, end)] : undefined;
  },
  throughout: (mask) => (start, end) => {
    for (let n = start; n < end; ++n) if (!mask[n]) return undefined;
    return [];
  },
  never: (mask) => (start, end) => {
    for (let n = start; n < end; ++n) if (mask[n]) return undefined;
    return [];
  },
  entry: (mask) => (start) => (mask[start] ? [start] : undefined),
  end: (mask) => (_, end) => (mask[end - 1] ? [end - 1] : undefined),
};
