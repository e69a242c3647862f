// A rule that a person can remember: "drawn, unless A and B, or C". Searched for among all facts on a sample of the
// placements that fit a question, then counted over every one of them. A visitor of `sweep`.

import { placementFen } from "../chess/fen.js";
import type { Material } from "../chess/material.js";
import type { Placement } from "../chess/placement.js";
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
import { type Term, searchRules } from "./rule-search.js";
import { samplePlacements } from "./sample.js";
import { movesOf, placementTest, verdictPlace, visitorModule, walkPair } from "./walk.js";

/** What the threads are asked. */
export interface RulesAsked {
  readonly question: string;
  readonly setUps: string | null;
  /** By side to move, the attacker first: what each rule excepts, in canonical form, and whether it takes the rest for won. */
  readonly rules: readonly [readonly RuleAsked[], readonly RuleAsked[]];
}
interface RuleAsked {
  readonly unless: string;
  readonly usuallyWon: boolean;
}

/** A placement that a rule gets wrong. */
interface Exception {
  readonly placement: Placement;
  readonly moves: Moves;
}
interface Counted {
  right: number;
  all: number;
  /** Wrong ones: taken for drawn and won, taken for won and not. */
  readonly wrong: [won: number, notWon: number];
  readonly shortest: [Exception[], Exception[]];
}
type Found = readonly [Counted[], Counted[]];

let test: PlacementTest;
let rules: readonly [
  readonly { unless: Question; usuallyWon: boolean }[],
  readonly { unless: Question; usuallyWon: boolean }[],
];

const empty = (): Counted => ({ right: 0, all: 0, wrong: [0, 0], shortest: [[], []] });

export function start({ question, setUps, rules: asked }: RulesAsked, material: Material): Found {
  test = placementTest(question, setUps, material);
  const { known } = catalogueWith(setUps);
  const read = (list: readonly RuleAsked[]) =>
    list.map(({ unless, usuallyWon }) => ({ unless: parseQuestion(unless, known), usuallyWon }));
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

export function visit(found: Found, pair: SweptPair): void {
  const { weight } = pair;
  walkPair(test, pair, (squares, attackerToMove, value) => {
    const turn = attackerToMove ? 0 : 1;
    const won = VERDICTS[verdictPlace(value)] === "won";
    rules[turn].forEach(({ unless, usuallyWon }, n) => {
      const counted = found[turn][n];
      counted.all += weight;
      const saysWon = test.meetsAt(unless, attackerToMove) !== usuallyWon;
      if (saysWon === won) {
        counted.right += weight;
        return;
      }
      const kind = won ? 0 : 1;
      counted.wrong[kind] += weight;
      const moves = movesOf(value);
      if (counted.shortest[kind].length < KEPT || moves < counted.shortest[kind][KEPT - 1].moves)
        keep(counted.shortest[kind], { placement: { squares: [...squares], attackerToMove }, moves });
    });
  });
}

export function merge(one: Found, other: Found): Found {
  one.forEach((list, turn) =>
    list.forEach((counted, n) => {
      const more = other[turn][n];
      counted.right += more.right;
      counted.all += more.all;
      for (const kind of [0, 1] as const) {
        counted.wrong[kind] += more.wrong[kind];
        for (const exception of more.shortest[kind]) keep(counted.shortest[kind], exception);
      }
    }),
  );
  return one;
}

/** A rule with what it is worth over every placement that fits. */
export interface Rule {
  /** What it takes placements for, unless one of its terms is met. */
  readonly usually: Verdict;
  /** Each a list of conditions in canonical form that must all be met; one term is enough. */
  readonly unless: readonly (readonly string[])[];
  /** Placements that it is right about, out of how many. */
  readonly right: number;
  readonly of: number;
  /** Won, though the rule says drawn; not won, though it says won; and the FENs of the shortest wins of the first kind. */
  readonly wonThough: number;
  readonly notWonThough: number;
  readonly examples: { readonly wonThough: readonly string[]; readonly notWonThough: readonly string[] };
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
    list.map((terms) => ({
      // a rule without exceptions excepts what can't be
      unless:
        terms.length === 0
          ? "king-rank > 4"
          : terms.map((term) => `(${term.map(({ text }) => text).join(" and ")})`).join(" or "),
      usuallyWon,
    })),
  );
  const visitor = visitorModule("rule");
  const question: RulesAsked = { ...asked, rules: [texts[0], texts[1]] };
  const found = await sweep<Found>(material, { threads, visitor, asked: question });
  return found.map((list, turn) => ({
    attackerToMove: turn === 0,
    rules: list.map(({ right, all, wrong, shortest }, n): Rule => {
      const fens = (exceptions: readonly Exception[]) =>
        exceptions.map(({ placement }) => placementFen(frameOf(placement, material), material, "white"));
      return {
        usually: searched[turn].usuallyWon ? "won" : "drawn",
        unless: searched[turn].rules[n].map((term) => term.map(({ text }) => text)),
        right,
        of: all,
        wonThough: wrong[0],
        notWonThough: wrong[1],
        examples: { wonThough: fens(shortest[0]), notWonThough: fens(shortest[1]) },
      };
    }),
  }));
}
