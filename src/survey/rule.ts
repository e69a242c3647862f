// A rule that a person can remember: "drawn, unless A and B, or C". Searched for among all facts on a sample of the
// placements that fit a question, then counted over every one of them. A visitor of `sweep`.

import { placementFen } from "../chess/fen.js";
import type { Material } from "../chess/material.js";
import type { Placement } from "../chess/placement.js";
import { placementHash } from "../chess/random.js";
import type { Moves } from "../chess/units.js";
import { VERDICTS, type Verdict } from "../chess/verdict.js";
import { cacheFolder } from "../places.js";
import { frameOf } from "../geometry/frame.js";
import { catalogueWith } from "../query/language/catalogue.js";
import type { Question } from "../query/language/ast.js";
import { parseQuestion } from "../query/language/parse.js";
import type { PlacementTest } from "../query/engine/placement-test.js";
import { type SweptPair, sweep } from "../tablebase/sweep.js";
import { Tables, unpack } from "../tablebase/tables.js";
import { movesOf, verdictPlace } from "../tablebase/values.js";
import { type Term, searchRules } from "./rule-search.js";
import { samplePlacements } from "./sample.js";
import { placementTest, visitorModule, walkPair } from "./walk.js";

/** What the threads are asked. */
export interface RulesAsked {
  readonly question: string;
  readonly setUps: string | null;
  /** By side to move, the attacker first: what each rule excepts, in canonical form, and whether it takes the rest for won. */
  readonly rules: readonly [readonly RuleAsked[], readonly RuleAsked[]];
}
interface RuleAsked {
  readonly terms: readonly string[];
  readonly usuallyWon: boolean;
}

/** A placement that a rule gets wrong. */
interface Exception {
  readonly placement: Placement;
  readonly moves: Moves;
}
/** A placement that may be shown: the least rank of all is. */
interface Shown extends Exception {
  readonly verdict: Verdict;
  readonly rank: number;
}
/** What comes to one leaf of a rule; in pairs, what it is right about comes first. */
interface LeafCounted {
  readonly counts: [right: number, wrong: number];
  readonly shown: [Shown | undefined, Shown | undefined];
}
interface Counted {
  readonly leaves: LeafCounted[];
  /** Of the wrong ones: taken for drawn and won, taken for won and not. */
  readonly shortest: [Exception[], Exception[]];
}
type Found = readonly [Counted[], Counted[]];

interface RuleRead {
  readonly terms: readonly Question[];
  readonly usuallyWon: boolean;
}

let test: PlacementTest;
let rules: readonly [readonly RuleRead[], readonly RuleRead[]];

const empty = ({ terms }: RuleAsked): Counted => ({
  leaves: Array.from({ length: terms.length + 1 }, () => ({ counts: [0, 0], shown: [undefined, undefined] })),
  shortest: [[], []],
});

export function start(
  { question, setUps, rules: asked }: RulesAsked,
  material: Material,
  tables: () => Tables,
): Found {
  test = placementTest(question, setUps, material, tables);
  const { known } = catalogueWith(setUps);
  const read = (list: readonly RuleAsked[]) =>
    list.map(({ terms, usuallyWon }) => ({
      terms: terms.map((term) => parseQuestion(term, known)),
      usuallyWon,
    }));
  rules = [read(asked[0]), read(asked[1])];
  return [asked[0].map(empty), asked[1].map(empty)];
}

/** Exceptions kept of each kind. */
const KEPT = 4;

function keep(list: Exception[], one: Exception): void {
  if (list.length >= KEPT && list[KEPT - 1].moves <= one.moves) return;
  list.push(one);
  list.sort((a, b) => a.moves - b.moves);
  if (list.length > KEPT) list.length = KEPT;
}

/** Moves of a win that is not seen at once. */
const LEAST_MOVES = 5;

/**
 * Where a placement stands among those that could be shown for a leaf: by lot, the same on every machine, since the shortest
 * and the longest are seldom typical; behind the others what shows nothing: a win at a glance, and a loss where a draw is meant.
 */
const rankOf = (
  squares: readonly number[],
  attackerToMove: boolean,
  verdict: Verdict,
  moves: Moves,
): number =>
  placementHash(squares, attackerToMove, 1) +
  (verdict === "lost" || (verdict === "won" && moves < LEAST_MOVES) ? 2 ** 32 : 0);

export function visit(found: Found, pair: SweptPair): void {
  const { weight } = pair;
  walkPair(test, pair, (squares, attackerToMove, value, otherValue) => {
    const turn = attackerToMove ? 0 : 1;
    const verdict = VERDICTS[verdictPlace(value)];
    const won = verdict === "won";
    const moves = movesOf(value);
    const rank = rankOf(squares, attackerToMove, verdict, moves);
    const placement = () => ({ squares: [...squares], attackerToMove });
    rules[turn].forEach(({ terms, usuallyWon }, n) => {
      const { leaves, shortest } = found[turn][n];
      let at = 0;
      while (at < terms.length && !test.meetsAt(terms[at], attackerToMove, value, otherValue)) ++at;
      const saysWon = at < terms.length !== usuallyWon;
      const wrong = saysWon === won ? 0 : 1;
      const { counts, shown } = leaves[at];
      counts[wrong] += weight;
      const best = shown[wrong];
      if (!best || rank < best.rank) shown[wrong] = { placement: placement(), moves, verdict, rank };
      if (!wrong) return;
      const list = shortest[won ? 0 : 1];
      if (list.length < KEPT || moves < list[KEPT - 1].moves) keep(list, { placement: placement(), moves });
    });
  });
}

export function merge(one: Found, other: Found): Found {
  one.forEach((list, turn) =>
    list.forEach(({ leaves, shortest }, n) => {
      const more = other[turn][n];
      leaves.forEach(({ counts, shown }, at) => {
        for (const wrong of [0, 1] as const) {
          counts[wrong] += more.leaves[at].counts[wrong];
          const theirs = more.leaves[at].shown[wrong];
          if (theirs && !(shown[wrong] && shown[wrong].rank <= theirs.rank)) shown[wrong] = theirs;
        }
      });
      for (const kind of [0, 1] as const)
        for (const exception of more.shortest[kind]) keep(shortest[kind], exception);
    }),
  );
  return one;
}

/** A placement shown for a leaf: with whom it is won or lost, and in how many moves. */
export interface LeafExample {
  readonly fen: string;
  readonly verdict: Verdict;
  /** Moves to mate; 0 of a draw. */
  readonly moves: Moves;
}

/**
 * One way through a rule, which is a list of decisions: the placements that meet its conditions and none of the leaves before
 * it, and what the rule says of them.
 */
export interface Leaf {
  /** In canonical form; none for the last leaf, which takes the rest. */
  readonly when: readonly string[];
  readonly says: "won" | "drawn";
  /** Placements that come here, and those of them that the rule is right about. */
  readonly of: number;
  readonly right: number;
  /** One that it is right about and one that it gets wrong, drawn by lot; none where there is none. */
  readonly example: LeafExample | null;
  readonly exception: LeafExample | null;
}

/** A rule with what it is worth over every placement that fits. */
export interface Rule {
  /** What it takes placements for, unless one of its terms is met. */
  readonly usually: "won" | "drawn";
  /** Each a list of conditions in canonical form that must all be met; one term is enough. */
  readonly unless: readonly (readonly string[])[];
  /** Placements that it is right about, out of how many. */
  readonly right: number;
  readonly of: number;
  /** Won, though the rule says drawn; not won, though it says won; and the FENs of the shortest wins of the first kind. */
  readonly wonThough: number;
  readonly notWonThough: number;
  readonly examples: { readonly wonThough: readonly string[]; readonly notWonThough: readonly string[] };
  /** The same as a list of decisions: a leaf for each term, in order, and one for the rest. */
  readonly leaves: readonly Leaf[];
}

/** The rules for one side to move, from coarse to fine: none has fewer conditions and is right as often. */
export interface RulesFor {
  readonly attackerToMove: boolean;
  readonly rules: readonly Rule[];
}

/** Placements looked at while rules are searched for. */
const SAMPLE = 16_000;

/** Rules for the placements that fit a question. `onSearched` is told when the search has ended and counting begins. */
export async function rulesOf(
  material: Material,
  asked: { readonly question: string; readonly setUps: string | null; readonly seed: number },
  threads: number,
  onSearched: () => void = () => {},
): Promise<readonly RulesFor[]> {
  const sampled = await samplePlacements(material, { ...asked, size: SAMPLE }, threads);
  const tables = new Tables(material, cacheFolder());
  let searched: { usuallyWon: boolean; rules: readonly (readonly Term[])[] }[];
  try {
    searched = [true, false].map((turn) => {
      const placements = sampled.filter(({ attackerToMove }) => attackerToMove === turn);
      const won = placements.map(
        ({ squares, attackerToMove }) => unpack(tables.probe(squares, attackerToMove)).verdict === "won",
      );
      return searchRules(material, placements, won);
    });
  } finally {
    tables.close();
  }
  onSearched();
  const texts = searched.map(({ usuallyWon, rules: list }) =>
    list.map((terms): RuleAsked => ({
      terms: terms.map((term) => term.map(({ text }) => text).join(" and ")),
      usuallyWon,
    })),
  );
  const visitor = visitorModule("rule");
  const question: RulesAsked = { ...asked, rules: [texts[0], texts[1]] };
  const found = await sweep<Found>(material, { threads, visitor, asked: question });
  const fenOf = (placement: Placement) => placementFen(frameOf(placement, material), material, "white");
  return found.map((list, turn) => ({
    attackerToMove: turn === 0,
    rules: list.map((counted, n) =>
      ruleOf(counted, searched[turn].usuallyWon, searched[turn].rules[n], fenOf),
    ),
  }));
}

/** A rule from what was counted of it. */
function ruleOf(
  { leaves: counted, shortest }: Counted,
  usuallyWon: boolean,
  terms: readonly Term[],
  fenOf: (placement: Placement) => string,
): Rule {
  const exampleOf = (shown: Shown | undefined): LeafExample | null =>
    shown ? { fen: fenOf(shown.placement), verdict: shown.verdict, moves: shown.moves } : null;
  const unless = terms.map((term) => term.map(({ text }) => text));
  const leaves = counted.map(({ counts: [right, wrong], shown }, n): Leaf => {
    const saysWon = n < unless.length !== usuallyWon;
    return {
      when: unless[n] ?? [],
      says: saysWon ? "won" : "drawn",
      of: right + wrong,
      right,
      example: exampleOf(shown[0]),
      exception: exampleOf(shown[1]),
    };
  });
  const sum = (values: readonly number[]) => values.reduce((one, other) => one + other, 0);
  const wrongOf = (says: Leaf["says"]) =>
    sum(leaves.filter((leaf) => leaf.says === says).map(({ of, right }) => of - right));
  const fens = (exceptions: readonly Exception[]) => exceptions.map(({ placement }) => fenOf(placement));
  return {
    usually: usuallyWon ? "won" : "drawn",
    unless,
    right: sum(leaves.map(({ right }) => right)),
    of: sum(leaves.map(({ of }) => of)),
    wonThough: wrongOf("drawn"),
    notWonThough: wrongOf("won"),
    examples: { wonThough: fens(shortest[0]), notWonThough: fens(shortest[1]) },
    leaves,
  };
}
