// What is kept, where moves lead and what a rule is worth, against slow twins of them that play every move with the
// generator (which the rules libraries check), on rook against bishop.

import { beforeAll, describe, expect, it } from "vitest";

import { parseMaterial } from "../../src/chess/material.js";
import { MoveList, Movement } from "../../src/chess/moves.js";
import { type Placement, placementNumber } from "../../src/chess/placement.js";
import { Geometer } from "../../src/geometry/facts.js";
import { placementReader } from "../../src/position/probe.js";
import { standardCatalogue } from "../../src/query/language/catalogue.js";
import { parseQuestion } from "../../src/query/language/parse.js";
import { asksForValues } from "../../src/query/engine/placement-conditions.js";
import { meets } from "../../src/query/engine/predicate.js";
import { changesOver } from "../../src/survey/changes.js";
import { planesOf } from "../../src/survey/planes.js";
import { Regions, placeOf } from "../../src/survey/regions.js";
import {
  keptPlane,
  nextOf,
  orderOf,
  rememberedKept,
  repertoireOf,
  toBeHeld,
} from "../../src/survey/repertoire.js";
import { rulesOf } from "../../src/survey/rule.js";
import { drawPlacements } from "../../src/survey/draw.js";
import { samplePlacements } from "../../src/survey/sample.js";
import { survey } from "../../src/survey/survey.js";
import { countPlane, hasBit } from "../../src/tablebase/keep.js";
import { kingsOfPairs } from "../../src/tablebase/solver-kernel.js";
import { unpack } from "../../src/tablebase/tables.js";
import { openTables } from "../support.js";

const material = parseMaterial("R v B");
const tables = openTables(material);
const movement = new Movement(material);
const geometer = new Geometer(material);
const question = (text: string) => parseQuestion(text, standardCatalogue().known);
// made for this test: the bishop's king in or by the corner, quiet
const ONE = "corner-steps = 0 and attacker-king-rank <= 3 and free-piece = none and not in-check";
const OTHER = "king-rank = 1 and corner-steps = 1 and free-piece = none and not in-check";

let regions: Regions;
beforeAll(async () => {
  regions = await Regions.of(
    material,
    [
      { name: "corner", basic: false, question: question(ONE) },
      { name: "edge", basic: false, question: question(OTHER) },
    ],
    2,
  );
});

const isWon = (squares: readonly number[]) => unpack(tables.probe(squares, true)).verdict === "won";
const weightOf = (squares: readonly number[]) =>
  [squares[0], squares[1]].every((square) => square >> 3 === (square & 7)) ? 4 : 8;

/** The king's steps from a square to the nearest corner. */
const cornerSteps = (square: number) => {
  const [file, rank] = [square & 7, square >> 3].map((n) => Math.min(n, 7 - n));
  return Math.max(file, rank);
};

/** Every legal placement with the attacker to move, the kings as in the pairs and the defender's near the corner. */
function* placements(): Generator<number[]> {
  for (const [attacker, defender] of kingsOfPairs().filter(([, king]) => cornerSteps(king) === 0))
    for (let n = 0; n < 64 * 64; ++n) {
      const squares = [attacker, defender, n >> 6, n & 63];
      if (new Set(squares).size < 4 || movement.inCheck(squares, 1)) continue;
      yield squares;
    }
}
const fits = (text: string, most: number) => {
  const asked = question(text);
  const known = new Map<number, boolean>();
  return (squares: readonly number[]): boolean => {
    if (cornerSteps(squares[1]) > most) return false;
    const placement: Placement = { squares, attackerToMove: true };
    const key = placementNumber(placement);
    let met = known.get(key);
    if (met === undefined) {
      met = meets(asked, placementReader(geometer, placement, unpack(tables.probe(squares, true))));
      known.set(key, met);
    }
    return met;
  };
};

/** What each quiet move of the attacker leaves: the placements that the defender's quiet replies lead to, and the rest. */
function* tests(squares: number[]) {
  const [list, replies] = [new MoveList(), new MoveList()];
  movement.legalMoves(squares, true, list);
  for (let n = 0; n < list.count; ++n) {
    if (list.captured[n] >= 0) continue;
    const after = [...squares];
    after[list.piece[n]] = list.to[n];
    movement.legalMoves(after, false, replies);
    const into: number[][] = [];
    let saves = false;
    for (let m = 0; m < replies.count; ++m) {
      if (replies.captured[m] >= 0) {
        // rook against bishop: the bishop's side takes the rook, and is not lost
        saves = true;
        continue;
      }
      const then = [...after];
      then[replies.piece[m]] = replies.to[m];
      into.push(then);
    }
    yield { into, saves, checked: movement.inCheck(after, 1), stalemate: replies.count === 0 };
  }
}

/** A placement's place in planes as one number. */
const numberOf = (squares: readonly number[]) => {
  const { word, bit } = placeOf({ squares });
  return word * 64 + bit;
};

interface Need {
  /** Places of the quiet replies. */
  readonly into: readonly number[];
  readonly checked: boolean;
}
interface Node {
  readonly squares: number[];
  readonly number: number;
  /** What each move of the attacker needs that no capture and no stalemate answers. */
  readonly needs: readonly Need[];
}
/** Every placement with the attacker to move that is not won and that `takes` takes, with what its moves need. */
function nodesOf(takes: (squares: readonly number[]) => boolean): Node[] {
  const nodes: Node[] = [];
  for (const [attacker, defender] of kingsOfPairs())
    for (let n = 0; n < 64 * 64; ++n) {
      const squares = [attacker, defender, n >> 6, n & 63];
      if (new Set(squares).size < 4 || movement.inCheck(squares, 1)) continue;
      if (!takes(squares) || isWon(squares)) continue;
      const needs = [...tests(squares)]
        .filter(({ saves, stalemate }) => !saves && !stalemate)
        .map(({ into, checked }) => ({ into: into.map(numberOf), checked }));
      nodes.push({ squares, number: numberOf(squares), needs });
    }
  return nodes;
}
/** Takes numbers of nodes that lack what they need from the sets, until none does. */
function drop(nodes: readonly Node[], lacks: (need: Need) => boolean, sets: readonly Set<number>[]): void {
  for (let changed = true; changed;) {
    changed = false;
    for (const { number, needs } of nodes)
      if (sets[0].has(number) && needs.some(lacks)) {
        for (const set of sets) set.delete(number);
        changed = true;
      }
  }
}
const numbersOf = (nodes: readonly Node[]) => new Set(nodes.map(({ number }) => number));
const weigh = (nodes: readonly Node[], set: ReadonlySet<number>) =>
  nodes.reduce((sum, { number, squares }) => (set.has(number) ? sum + weightOf(squares) : sum), 0);
/** Nodes about which a plane says something else than a set of their numbers. */
const disputed = (nodes: readonly Node[], plane: Uint32Array, set: ReadonlySet<number>) =>
  nodes.filter(({ number, squares }) => hasBit(plane, placeOf({ squares })) !== set.has(number));

describe("what is kept", () => {
  const isInside = fits(ONE, 0);
  const staysIn = (squares: readonly number[]) => isInside(squares) || movement.inCheck(squares, 0);

  it("is the greatest set that is come back to after every quiet move, by a slow twin", () => {
    // any reply to a check that does not lose will do, and there is one where the placement is not won
    const stays = nodesOf(staysIn);
    const kept = numbersOf(stays);
    drop(stays, ({ into, checked }) => !checked && !into.some((one) => kept.has(one)), [kept]);
    const [region] = regions.named(["corner"]);
    const plane = keptPlane(regions, [region]);
    expect(disputed(stays, plane, kept)).toEqual([]);
    expect(countPlane(plane)).toBe(weigh(stays, kept));
    const own = stays.filter(({ squares }) => isInside(squares));
    const [held, keptOfOwn] = [weigh(own, numbersOf(own)), weigh(own, kept)];
    expect(keptOfOwn).toBeGreaterThan(0);
    expect(keptOfOwn).toBeLessThan(held);
    expect(repertoireOf(regions, [region]).own[0]).toEqual({ setUp: "corner", held, kept: keptOfOwn });
  });

  // plays every move of the whole material: left to `npm test`, for the sake of CI's time
  it.skipIf(process.env.CI)("is come back to for ever against checks too, by a slow twin", () => {
    const all = nodesOf(() => true);
    const stays = all.filter(({ squares }) => staysIn(squares));
    // a reply to a check must lead to where the same can be done from again, in the set-up or not
    const [open, kept] = [numbersOf(all), numbersOf(stays)];
    drop(all, ({ into, checked }) => !into.some((one) => (checked ? open : kept).has(one)), [open, kept]);
    const [region] = regions.named(["corner"]);
    const plane = keptPlane(regions, [region], "checks too");
    expect(disputed(all, plane, kept)).toEqual([]);
    expect(repertoireOf(regions, [region]).againstChecks.kept).toBe(weigh(all, kept));
    expect(kept.size).toBeGreaterThan(0);
    expect(kept.size).toBeLessThan(countPlane(keptPlane(regions, [region])));
  });

  it("never grows smaller when more is known, and the order takes what adds most", () => {
    const [corner, edge] = regions.named(["corner", "edge"]);
    const alone = [corner, edge].map((one) => countPlane(keptPlane(regions, [one])));
    const both = countPlane(keptPlane(regions, [corner, edge]));
    expect(both).toBeGreaterThanOrEqual(Math.max(...alone));
    const order = orderOf(regions, [], [corner, edge]);
    // told of what the set-ups name; placements with the attacker in check are kept besides
    const ofNamed = (known: (typeof regions.regions)[number][]) =>
      countPlane(toBeHeld(regions), keptPlane(regions, known));
    expect(order.map(({ kept }) => kept)).toEqual([
      Math.max(ofNamed([corner]), ofNamed([edge])),
      ofNamed([corner, edge]),
    ]);
    expect(order.map(({ againstChecks }) => againstChecks)).toEqual(
      [1, 2].map((n) =>
        countPlane(
          toBeHeld(regions),
          keptPlane(regions, regions.named(order.slice(0, n).map(({ setUp }) => setUp)), "checks too"),
        ),
      ),
    );
    expect(nextOf(regions, [corner], [edge])).toEqual([{ setUp: "edge", kept: ofNamed([corner, edge]) }]);
  });

  it("is the same whatever the solver was asked before", () => {
    const [corner, edge] = regions.named(["corner", "edge"]);
    const fresh = keptPlane(regions, [corner]);
    keptPlane(regions, [edge]);
    expect(keptPlane(regions, [corner])).toEqual(fresh);
    // another iteration on the same kernel
    expect(regions.solver.planes().notWon).toEqual(regions.notWon);
    expect(keptPlane(regions, [corner])).toEqual(fresh);
  });

  it("is remembered by the definitions, in whatever order they are given", () => {
    const [corner, edge] = regions.named(["corner", "edge"]);
    for (const against of ["quiet moves", "checks too"] as const) {
      const fresh = keptPlane(regions, [corner, edge], against);
      expect(rememberedKept(regions, [corner, edge], against)).toEqual(fresh);
      const unsolved = { ...regions, solver: undefined } as unknown as Regions;
      expect(rememberedKept(unsolved, [edge, corner], against)).toEqual(fresh);
    }
    expect(rememberedKept(regions, [corner], "quiet moves")).toEqual(keptPlane(regions, [corner]));
  });

  it("everything that is not won can be kept by whoever knows everything", () => {
    for (const against of ["quiet moves", "checks too"] as const)
      expect(countPlane(regions.solver.kept(regions.notWon, against)), against).toBe(regions.held);
  });
});

describe("a question that asks for no values", () => {
  // met by everything, but only a solved table can tell
  const anyhow = (text: string) => `(${text}) and (verdict = won or verdict = drawn or verdict = lost)`;
  const PLAIN = "corner-steps <= 1 and attacker-rook-rank >= 3 and not in-check";

  it("is known from one that does", () => {
    expect(asksForValues(question(PLAIN))).toBe(false);
    expect(asksForValues(question(`${PLAIN} and to-move = defender`))).toBe(false);
    for (const fact of ["verdict = drawn", "dtm < 5", "dtc < 5", "only-move", "not (verdict = won)"])
      expect(asksForValues(question(`${PLAIN} and ${fact}`)), fact).toBe(true);
  });

  it("draws the same sample from what is legal as from the solved table", async () => {
    const sample = (text: string) =>
      samplePlacements(material, { question: text, setUps: null, seed: 5, size: 300 }, 2);
    // so few that all placements are looked at
    const rare = `${PLAIN} and corner-steps = 0 and attacker-king-rank = 3 and attacker-rook-rank = 8`;
    expect(drawPlacements(material, { question: rare, setUps: null, seed: 5, size: 300 })).toBeUndefined();
    const [plain, solved] = [await sample(rare), await sample(anyhow(rare))];
    expect(plain).toEqual(solved);
    expect(plain).toHaveLength(300);
    expect(new Set(plain.map(({ attackerToMove }) => attackerToMove)).size).toBe(2);
  });

  it("has the same plane, with each side to move", async () => {
    for (const turn of ["attacker", "defender"] as const) {
      const asked = [question(PLAIN), question(anyhow(PLAIN))];
      const [plain, solved] = (await planesOf(material, asked, 2, undefined, turn)).map((plane) => plane());
      expect(plain).toEqual(solved);
      expect(countPlane(plain)).toBeGreaterThan(0);
    }
  });
});

describe("changes", () => {
  it("count the attacker's quiet moves as a slow twin does", () => {
    const [isCorner, isEdge] = [fits(ONE, 0), fits(OTHER, 1)];
    const wanted = { moves: 0, stay: 0, captures: 0, into: 0, nameless: 0 };
    for (const squares of placements()) {
      if (!isCorner(squares) || isWon(squares)) continue;
      const weight = weightOf(squares);
      for (const { into, saves } of tests(squares)) {
        wanted.moves += weight;
        const holding = into.filter((one) => !isWon(one));
        if (holding.some(isCorner)) wanted.stay += weight;
        else if (saves) wanted.captures += weight;
        else if (holding.some(isEdge)) wanted.into += weight;
        else wanted.nameless += weight;
      }
    }
    const [found] = changesOver(regions, regions.named(["corner", "edge"]));
    expect(found).toMatchObject({
      moves: wanted.moves,
      stay: wanted.stay,
      captures: wanted.captures,
      nameless: wanted.nameless,
    });
    expect(found.into).toEqual([{ setUp: "edge", moves: wanted.into }]);
  });
});

describe("a rule", () => {
  it("is right about as many placements as a survey of its parts says, and finer ones about more", async () => {
    const asked = { question: "corner-steps = 0 and king-rank = 1", setUps: null, seed: 3 };
    const found = await rulesOf(material, asked, 2);
    expect(found.map(({ attackerToMove }) => attackerToMove)).toEqual([true, false]);
    for (const { attackerToMove, rules } of found) {
      const shares = rules.map(({ right, of }) => right / of);
      expect(shares).toEqual([...shares].sort((a, b) => a - b));
      const rule = rules[rules.length - 1];
      const unless = rule.unless.map((term) => `(${term.join(" and ")})`).join(" or ");
      const turn = attackerToMove ? "attackerToMove" : "defenderToMove";
      const counts = async (text: string) =>
        (await survey(material, { question: text, setUps: null, by: null }, 2)).all[turn].counts;
      const all = await counts(asked.question);
      const excepted =
        unless === "" ? { won: 0, drawn: 0, lost: 0 } : await counts(`${asked.question} and (${unless})`);
      const usual =
        rule.usually === "won"
          ? all.won - excepted.won
          : all.drawn + all.lost - excepted.drawn - excepted.lost;
      const other = rule.usually === "won" ? excepted.drawn + excepted.lost : excepted.won;
      expect(rule.right).toBe(usual + other);
      expect(rule.of).toBe(all.won + all.drawn + all.lost);
      expect(rule.wonThough + rule.notWonThough).toBe(rule.of - rule.right);
      // a leaf holds what meets its term and none of the terms before it
      for (const [n, { when, says, of, right, example, exception }] of rule.leaves.entries()) {
        const before = rule.unless.slice(0, n).map((term) => ` and not (${term.join(" and ")})`);
        const here = when.length === 0 ? "" : ` and ${when.join(" and ")}`;
        const { won, drawn, lost } = await counts(asked.question + here + before.join(""));
        expect(of).toBe(won + drawn + lost);
        expect(right).toBe(says === "won" ? won : drawn + lost);
        expect(example === null).toBe(right === 0);
        expect(exception === null).toBe(right === of);
        if (example) expect(example.verdict === "won").toBe(says === "won");
        if (exception) expect(exception.verdict === "won").toBe(says !== "won");
      }
    }
  });
});
