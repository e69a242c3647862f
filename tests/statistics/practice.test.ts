// Practice in numbers, held against a plain walk over the positions that `find --json` gives.

import { beforeAll, describe, expect, it } from "vitest";

import { writeFileSync } from "node:fs";
import { join } from "node:path";

import type { Connection } from "../../src/store/connection.js";
import { openForReading } from "../../src/store/database.js";
import { usualExclusions } from "../../src/statistics/exclusions.js";
import { EXCLUDED_BY_DEFAULT } from "../../src/store/exclusions.js";
import { catalogueWith, standardCatalogue } from "../../src/query/language/catalogue.js";
import { parseQuestion } from "../../src/query/language/parse.js";
import { changeQuestion, changesOf } from "../../src/statistics/changes.js";
import { count } from "../../src/statistics/count.js";
import { countedIn } from "../../src/statistics/counted.js";
import { heldBy, heldFrom, heldIn } from "../../src/statistics/held.js";
import { endsOf } from "../../src/statistics/ends.js";
import { startOf } from "../../src/statistics/late.js";
import { formatQuestion } from "../../src/query/language/ast.js";
import { errorsBy, errorsByRule, squaresOfErrors } from "../../src/statistics/errors.js";
import { Answers } from "../../src/query/engine/find.js";
import { type Gathering, type Rule, Study } from "../../src/statistics/moves-made.js";
import type { EndingAnswer, PositionAnswer } from "../../src/query/engine/rows.js";
import { readSplit } from "../../src/query/engine/splits.js";
import { spoken } from "../../src/query/language/tokens.js";
import { survey } from "../../src/survey/survey.js";
import { theoryOfSetUps } from "../../src/survey/theory.js";
import { TARGET, indexBundled, temporaryFolder } from "../support.js";

const catalogue = standardCatalogue();
const setUps = catalogue.tests(TARGET);
const parse = (text: string) => parseQuestion(text, catalogue.known);
const EVERYTHING = parse("");

let db: Connection;
/** Endings that count, each with its positions. */
let endings: { ending: EndingAnswer; positions: PositionAnswer[] }[];

beforeAll(async () => {
  const path = join(temporaryFolder(), "bundled.db");
  await indexBundled(path);
  db = openForReading(path);
  const all = [...new Answers(db, EVERYTHING, { order: "file" }).endings()].filter(
    ({ duplicateOf, passing }) => !duplicateOf && !passing,
  );
  const positions = new Map<number, PositionAnswer[]>();
  for (const one of new Answers(db, EVERYTHING, { order: "file" }).positions())
    positions.set(one.id, [...(positions.get(one.id) ?? []), one]);
  endings = all.map((ending) => ({ ending, positions: positions.get(ending.id)! }));
});

/** The result of one thing that is asked of a study. */
const found = <T>(make: (study: Study) => Gathering<T>, rule?: Rule): T => {
  const study = new Study(db, EVERYTHING, EXCLUDED_BY_DEFAULT, rule);
  return study.ask(make(study))();
};

const options = { by: [], unit: "ending", leaveOut: EXCLUDED_BY_DEFAULT } as const;

describe("count with a share", () => {
  it("says of each group how much of it meets the share", () => {
    const by = [readSplit("entry-verdict", setUps)];
    const found = count(db, EVERYTHING, { ...options, by, share: parse("defender held") });
    for (const { values, count: held, of } of found.groups) {
      const group = endings.filter(({ ending }) => ending.entryVerdict === values[0]);
      expect(of).toBe(group.length);
      expect(held).toBe(group.filter(({ ending }) => ending.outcome === "held").length);
    }
    expect(found.groups.length).toBeGreaterThan(1);
    expect(found.share!.of).toBe(endings.length);
  });

  it("splits by set-up, of each position and at the entry", () => {
    const named = setUps.map(({ name }) => name);
    for (const text of ["set-up", "entry-set-up"]) {
      const by = [readSplit(text, setUps)];
      const unit = text === "set-up" ? "position" : "ending";
      const { groups } = count(db, EVERYTHING, { ...options, by, unit });
      for (const { values, count: number } of groups) {
        if (values[0] === null) continue;
        expect(named).toContain(values[0]);
        const asked = text === "set-up" ? String(values[0]) : `entry (${String(values[0])})`;
        expect(number, asked).toBe(count(db, parse(asked), { ...options, unit }).matching);
      }
      expect(groups.length).toBeGreaterThan(3);
    }
  });

  it("takes bands by limits, each value in one of them", () => {
    const by = [readSplit("legal:5/10/20", setUps)];
    const { groups, matching } = count(db, EVERYTHING, { ...options, by, unit: "position" });
    expect(groups.map(({ values }) => values[0])).toEqual(["under 5", "5 to 10", "10 to 20", "20 or more"]);
    expect(groups.reduce((sum, group) => sum + group.count, 0)).toBe(matching);
    expect(groups[1].count).toBe(
      count(db, parse("legal >= 5 and legal < 10"), { ...options, unit: "position" }).matching,
    );
    expect(() => readSplit("legal:10/5", setUps)).toThrow(/rising limits/);
    expect(() => readSplit("set-up:3", setUps)).toThrow(/no bands/);
    expect(() => readSplit("ruk-side", setUps)).toThrow(/did you mean rook-side/);
  });

  it("leaves nothing out for a reason that is asked about, in the question or by what is counted", () => {
    expect(usualExclusions(EVERYTHING)).toEqual(EXCLUDED_BY_DEFAULT);
    const others = EXCLUDED_BY_DEFAULT.filter((name) => name !== "engine-games");
    expect(usualExclusions(parse("engine-game"))).toEqual(others);
    expect(usualExclusions(EVERYTHING, [readSplit("engine-game", [])])).toEqual(others);
  });

  it("leaves out what it is told to, and says how much", () => {
    const all = count(db, EVERYTHING, { ...options, leaveOut: [] });
    const usual = count(db, EVERYTHING, options);
    expect(usual.of + usual.leftOut.duplicates! + usual.leftOut.passing!).toBe(all.of);
    const time = count(db, EVERYTHING, { ...options, leaveOut: ["time-forfeits"] });
    expect(time.leftOut["time-forfeits"]).toBe(
      count(db, parse("ended-by = time"), { ...options, leaveOut: [] }).matching,
    );
  });
});

/** What a position is worth under the fifty-move rule. */
const worth = ({ verdict, beyondFifty }: PositionAnswer) => (beyondFifty ? "drawn" : verdict);

describe("errors", () => {
  /** Moves with something to lose under the fifty-move rule: some legal move gives it away. */
  const moves = () =>
    endings.flatMap(({ positions }) =>
      positions.filter(({ fiftyError, fiftyKeeping, legal }) => fiftyError !== null && fiftyKeeping! < legal),
    );
  const stood = (position: PositionAnswer) =>
    worth(position) === (position.sideToMove === "attacker" ? "won" : "lost") ? "won" : "drawn";

  it("are counted by side and by what there was to lose, with what chance would give away", () => {
    const groups = found((study) => errorsBy(study));
    expect(groups.map(({ side, stood: had }) => `${side} ${had}`)).toEqual([
      "attacker drawn",
      "attacker won",
      "defender drawn",
    ]);
    for (const { side, stood: had, count: errors, of, half, full, expected } of groups) {
      const made = moves().filter((one) => one.sideToMove === side && stood(one) === had);
      expect(of).toBe(made.length);
      expect(half).toBe(made.filter(({ fiftyError }) => fiftyError === "half").length);
      expect(full).toBe(made.filter(({ fiftyError }) => fiftyError === "full").length);
      expect(errors).toBe(half + full);
      expect(expected).toBeCloseTo(
        made.reduce((sum, { legal, fiftyKeeping }) => sum + (legal - fiftyKeeping!) / legal, 0),
        6,
      );
    }
  });

  it("by kind count a move once for each of its kinds", () => {
    const groups = found((study) => errorsBy(study, readSplit("kind", [])));
    const checks = groups.find(
      ({ side, stood: had, value }) => side === "defender" && had === "drawn" && value === "check",
    )!;
    const made = moves().filter(
      (one) => one.sideToMove === "defender" && stood(one) === "drawn" && one.kinds.includes("check"),
    );
    expect(checks.of).toBe(made.length);
    expect(checks.count).toBe(made.filter(({ fiftyError }) => fiftyError !== "none").length);
  });

  it("under the rule and on paper are told apart", () => {
    const all = endings.flatMap(({ positions }) => positions);
    for (const { side, both, paperOnly, ruleOnly } of found(() => errorsByRule())) {
      const made = all.filter(({ sideToMove }) => sideToMove === side);
      const some = (error: string | null) => error === "half" || error === "full";
      expect([both, paperOnly, ruleOnly]).toEqual([
        made.filter(({ error, fiftyError }) => some(error) && some(fiftyError)).length,
        made.filter(({ error, fiftyError }) => some(error) && !some(fiftyError)).length,
        made.filter(({ error, fiftyError }) => !some(error) && some(fiftyError)).length,
      ]);
    }
    const paper = found((study) => errorsBy(study), "paper");
    const defender = paper.find((group) => group.side === "defender" && group.stood === "drawn")!;
    expect(defender.of).toBe(
      all.filter(
        ({ sideToMove, verdict, error, keeping, legal }) =>
          sideToMove === "defender" && verdict === "drawn" && error !== null && keeping! < legal,
      ).length,
    );
  });

  it("stand on the squares of the frame", () => {
    const { king, rook } = found(() => squaresOfErrors());
    const drawn = moves().filter((one) => one.sideToMove === "defender" && worth(one) === "drawn");
    for (const squares of [king, rook]) {
      expect(squares.moves.reduce((sum, n) => sum + n, 0)).toBe(drawn.length);
      expect(squares.errors.reduce((sum, n) => sum + n, 0)).toBe(
        drawn.filter(({ fiftyError }) => fiftyError !== "none").length,
      );
    }
    // the frame's king stands on the files a to d, nearest to the first rank
    king.moves.forEach((number, square) => {
      if ((square & 7) > 3 || square >> 3 > (square & 7)) expect(number).toBe(0);
    });
  });
});

describe("who held", () => {
  it("is told of the endings of the study, also where a question only denies", () => {
    const question = parse("not second-rank defence and not third-rank defence");
    const study = new Study(db, question, EXCLUDED_BY_DEFAULT);
    const counts = study.ask(countedIn(study));
    const held = study.ask(heldIn(study));
    const byVerdict = study.ask(heldBy(study, readSplit("entry-verdict", setUps)));
    const decided = endings.filter(({ ending }) => ending.outcome !== "open");
    const { matching } = count(db, question, options);
    expect(counts().endings).toBe(matching);
    expect(matching).toBeLessThan(endings.length);
    expect(held().of).toBeLessThanOrEqual(matching);
    expect(byVerdict().reduce((sum, { of }) => sum + of, 0)).toBe(held().of);
    const all = found((whole) => heldIn(whole));
    expect([all.count, all.of]).toEqual([
      decided.filter(({ ending }) => ending.outcome === "held").length,
      decided.length,
    ]);
  });

  it("from a set-up is what a count of the endings that reach it drawn finds", () => {
    const shares = found((study) => heldFrom(study, setUps));
    setUps.forEach(({ name }, n) => {
      const reached = parse(`somewhere (${spoken(name)} and verdict = drawn) and outcome != open`);
      const { matching } = count(db, reached, options);
      expect(shares[n].of, name).toBe(matching);
    });
  });
});

describe("how endings end", () => {
  it("is what a walk over the positions finds", () => {
    const { all, without } = found((study) => endsOf(study, {}));
    const wanted = endings
      .filter(({ positions }) => positions[0].verdict !== null && worth(positions[0]) !== "won")
      .map(({ ending, positions }) => {
        const own = positions.filter(
          ({ sideToMove, fiftyError }) => sideToMove === "defender" && fiftyError !== null,
        );
        const fatal = own.findIndex(
          (one) =>
            (worth(one) === "drawn" && one.fiftyError !== "none") ||
            (worth(one) === "lost" && one.fiftyError === "full"),
        );
        if (fatal >= 0) return { time: fatal + 1, end: 0 };
        const end =
          ending.endedBy === "capture"
            ? 2
            : ending.endedBy === "cut off" || ending.outcome === "open"
              ? null
              : ending.outcome === "lost"
                ? 1
                : 2;
        return { time: own.length, end };
      });
    expect(all.spells.map(({ time, end }) => ({ time, end }))).toEqual(wanted);
    expect(without).toBe(endings.length - wanted.length);
    expect(all.spells.filter(({ end }) => end === 0).length).toBeGreaterThan(5);
  });

  it("may be counted from a set-up, in groups that are disjoint; the unknown are in none", () => {
    const from = [setUps.find(({ name }) => name === "second-rank defence")!.test];
    const { all, groups, without } = found((study) =>
      endsOf(study, { from, split: readSplit("pace", setUps) }),
    );
    expect(all.spells.length + without).toBe(endings.length);
    const known = endings.filter(({ ending }) => ending !== undefined).length;
    expect(groups.reduce((sum, { spells }) => sum + spells.length, 0)).toBeLessThanOrEqual(known);
    expect(groups.every(({ value }) => value !== "unknown")).toBe(true);
    const reaching = count(db, parse("second-rank defence"), options).matching;
    expect(all.spells.length).toBeLessThanOrEqual(reaching);
    expect(all.spells.length).toBeGreaterThan(0);
  });

  it.each<[string, string[], string | undefined]>([
    ["defender-rating > 2000 and attacker = white", [], undefined],
    ["entry (second-rank defence)", [], undefined],
    ["second-rank defence", ["second-rank-defence"], undefined],
    ["second-rank defence and year > 2000", ["second-rank-defence"], undefined],
    ["outcome = held", [], "outcome = held"],
    ["length > 20 and second-rank defence", [], "length > 20"],
    ["held second-rank defence for 5 moves", [], "held second-rank-defence for 5 moves"],
    ["mostly (rook-side = long)", [], "mostly (rook-side = long)"],
  ])("of %s starts no earlier than it is known", (question, from, forbidden) => {
    const start = startOf(parse(question));
    expect(start.from.map((one) => formatQuestion(one))).toEqual(from);
    expect(start.forbidden).toBe(forbidden);
  });
});

describe("changes of set-up", () => {
  it("keep the draw or not", () => {
    const changes = found((study) => changesOf(study, setUps));
    expect(changes.length).toBeGreaterThan(5);
    for (const { from, to, changes: all, of, count: kept, wonBefore, wonToDrawn } of changes) {
      expect(from).not.toBe(to);
      expect(of + wonBefore).toBeLessThanOrEqual(all);
      expect(kept).toBeLessThanOrEqual(of);
      expect(wonToDrawn).toBeLessThanOrEqual(wonBefore);
    }
  });

  it("are what a walk with sets finds: one that only joins another, or is left alone, is none", () => {
    const masks = setUps.map(({ name }) => {
      const fits = new Map<number, Set<number>>();
      for (const { id, ply } of new Answers(db, parse(name)).positions())
        fits.set(id, (fits.get(id) ?? new Set()).add(ply));
      return { name, fits };
    });
    const wanted = new Map<string, number>();
    for (const { ending, positions } of endings) {
      const named = positions
        .map(({ ply }) => ({
          ply,
          names: masks.filter(({ fits }) => fits.get(ending.id)?.has(ply)).map(({ name }) => name),
        }))
        .filter(({ names }) => names.length > 0);
      named.forEach(({ ply, names }, n) => {
        const before = named[n - 1];
        if (!before || ply - before.ply > 20) return;
        for (const from of before.names.filter((name) => !names.includes(name))) {
          // back to the position in which it began
          let start = n - 1;
          while (
            start > 0 &&
            named[start - 1].names.includes(from) &&
            named[start].ply - named[start - 1].ply <= 20
          )
            --start;
          for (const to of names.filter((name) => !named[start].names.includes(name))) {
            const key = `${from} > ${to}`;
            wanted.set(key, (wanted.get(key) ?? 0) + 1);
          }
        }
      });
    }
    const all = found((study) => changesOf(study, setUps));
    expect(new Map(all.map(({ from, to, changes }) => [`${from} > ${to}`, changes]))).toEqual(wanted);
  });

  it("from one look to the next are answered by a question of their own, in canonical form", () => {
    const fits = setUps.map(({ name }) => {
      const at = new Set<string>();
      for (const { id, ply } of new Answers(db, parse(name)).positions()) at.add(`${id} ${ply}`);
      return at;
    });
    let shown = 0;
    setUps.forEach((from, n) =>
      setUps.forEach((to, m) => {
        if (n === m || from.side !== "defender" || to.side !== "defender") return;
        const question = changeQuestion(from, to);
        expect(formatQuestion(parse(formatQuestion(question)))).toBe(formatQuestion(question));
        const wanted = endings.filter(({ ending: { id }, positions }) =>
          positions.some(({ ply, sideToMove, verdict }, p) => {
            const [here, next] = [`${id} ${ply}`, `${id} ${ply + 2}`];
            if (sideToMove !== "attacker" || verdict === "won" || positions[p + 2]?.ply !== ply + 2)
              return false;
            return fits[n].has(here) && !fits[m].has(here) && fits[m].has(next) && !fits[n].has(next);
          }),
        );
        const { matching } = count(db, question, options);
        expect(matching, formatQuestion(question)).toBe(wanted.length);
        shown += matching;
      }),
    );
    expect(shown).toBeGreaterThan(10);
  });
});

describe("theory", () => {
  it("is the survey's, also of a set-up that builds on another", async () => {
    const path = join(temporaryFolder(), "own.yaml");
    writeFileSync(
      path,
      "- name: box\n  means: king-rank = 1 and king-file = 1 and rook-rank = 1\n- name: tight box\n  means: box and kings-apart = 2 and wedge-depth = 1\n",
    );
    const own = catalogueWith(path);
    const [tight] = own.tests(TARGET).filter(({ name }) => name === "tight box");
    const [theory] = await theoryOfSetUps(TARGET, [tight], 2);
    const { all } = await survey(TARGET, { question: "tight box", setUps: path, by: null }, 2);
    expect(theory.attackerToMove).toEqual(all.attackerToMove.counts);
    expect(theory.defenderToMove).toEqual(all.defenderToMove.counts);
    expect(theory.attackerToMove.won).toBeGreaterThan(0);
    // remembered: not counted again
    let counted = 0;
    expect(await theoryOfSetUps(TARGET, [tight], 2, (n) => (counted += n))).toEqual([theory]);
    expect(counted).toBe(0);
  });
});
