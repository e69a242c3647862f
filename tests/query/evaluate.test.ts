// The two ways to answer a question, passes over columns and the predicate, select the same positions; endings follow
// from them.

import { join } from "node:path";

import { afterAll, beforeAll, describe, expect, it } from "vitest";

import { placementAt } from "../../src/chess/placement.js";
import { GEOMETRY, Geometer } from "../../src/geometry/facts.js";
import type { Connection } from "../../src/store/connection.js";
import { openForReading } from "../../src/store/database.js";
import { positionsOf } from "../../src/store/chunks.js";
import { type Question, aboutEndings } from "../../src/query/language/ast.js";
import { standardCatalogue } from "../../src/query/language/catalogue.js";
import { parseQuestion } from "../../src/query/language/parse.js";
import { type FactReader, joinReaders, meets } from "../../src/query/engine/predicate.js";
import { compilePlain } from "../../src/query/engine/sql.js";
import { Answers } from "../../src/query/engine/find.js";
import { EXCLUDED_BY_DEFAULT } from "../../src/store/exclusions.js";
import { count } from "../../src/statistics/count.js";
import { readSplit } from "../../src/query/engine/splits.js";
import { TARGET, indexBundled, temporaryFolder } from "../support.js";

let db: Connection;
beforeAll(async () => {
  const path = join(temporaryFolder(), "games.db");
  await indexBundled(path);
  db = openForReading(path);
});
afterAll(() => db.close());

const tallyEndings = (on: Connection, question: Question) => ({
  endings: new Answers(on, question).tally("ending"),
});
const tallyPositions = (on: Connection, question: Question) => new Answers(on, question).tally("position");
const findEndings = (on: Connection, question: Question) => new Answers(on, question).endings();
const findPositions = (on: Connection, question: Question) => new Answers(on, question).positions();
/** Every position of the database, with the number of its ending and its ply. */
const stored = () =>
  (db.prepare("SELECT id, first_ply FROM endings").all() as { id: number; first_ply: number }[]).flatMap(
    ({ id, first_ply }) => {
      const positions = positionsOf(db, id);
      return positions
        .records()
        .map((record, n) => ({ ending: id, ply: first_ply + n, facts: positions.facts(n), ...record }));
    },
  );

const parse = (text: string) => parseQuestion(text, standardCatalogue().known);
const POSITIONS = [
  "rook on the long side",
  "not (rook on the long side or king on the edge)",
  "second-rank defence, defender to move",
  "third rank or first-rank defence or rear pin",
  "wedge-depth >= 2, verdict = drawn",
  "not (wedge-depth >= 2)",
  "verdict won, dtm 5..20",
  "opposition = direct, attacker to move, not in check",
  "pinned != none",
];

describe("columns and predicate", () => {
  it.each(POSITIONS)("agree on: %s", (text) => {
    const question = parse(text);
    const geometer = new Geometer(TARGET);
    const rows = stored();
    const wanted = rows
      .filter((row) => {
        const placement = placementAt(row.placement, TARGET.men);
        const reader =
          (facts: readonly (number | null)[]): FactReader =>
          (fact) => {
            const n = GEOMETRY.findIndex((one) => one.name === fact.name);
            if (n >= 0) return facts[n];
            if (fact.name === "to-move") return placement.attackerToMove ? 1 : 0;
            return row[fact.name as "verdict" | "dtm" | "dtc"];
          };
        const first = reader(geometer.facts(placement));
        const other = geometer.factsFromOtherEdge(placement);
        return meets(question, other ? joinReaders(first, reader(other)) : first);
      })
      .map((row) => `${row.ending} ${row.ply}`);
    const found = [...findPositions(db, question)].map((one) => `${one.id} ${one.ply}`);
    expect(found.sort()).toEqual(wanted.sort());
    expect(tallyPositions(db, question)).toBe(found.length);
    expect(found.length).toBeGreaterThan(0);
    expect(found.length).toBeLessThan(rows.length);
    // an ending answers if one of its positions does
    const endings = [...findEndings(db, parse(`somewhere (${text})`))].map((one) => String(one.id));
    expect(endings.sort()).toEqual([...new Set(found.map((key) => key.split(" ")[0]))].sort());
  });

  it("values are bound, never written into the SQL", () => {
    const sql = compilePlain(parse(`white = "x'; DROP TABLE games; --" and year = 2019..2022, event ~ "%"`));
    expect(sql.text).not.toMatch(/drop|2019|%/i);
    const name = "x'; drop table games; --";
    expect(sql.values).toEqual([name, name.length + 1, `${name},`, 2019, 2022, "%"]);
    expect([...findEndings(db, parse(`white = "x'; DROP TABLE games; --"`))]).toEqual([]);
  });

  it("the conditions of a question are the same trees each time, so that each is worked out once", () => {
    const question = parse("king-rank = 1 and checking-distance >= 3");
    expect(aboutEndings(question)).not.toBe(question);
    expect(aboutEndings(question)).toBe(aboutEndings(question));
  });

  it("a player is either of the two, and no wildcard works in a name", () => {
    const number = (text: string) => tallyEndings(db, parse(text)).endings;
    const { white, black } = db.prepare("SELECT white, black FROM games").get() as Record<string, string>;
    for (const name of [white, black, white.split(",")[0]]) {
      const each = number(`white = "${name}" or black = "${name}"`);
      expect(number(`player = "${name}"`)).toBe(each);
      expect(each).toBeGreaterThan(0);
      expect(number(`player != "${name}"`)).toBe(number("") - each);
    }
    expect(number(`player = "%"`) + number(`white = "_%"`)).toBe(0);
  });

  it("bands may be fractions, and hold what their name says", () => {
    const shares = count(db, parse(""), {
      by: [readSplit("blunder-potential:0.1", [])],
      unit: "position",
      leaveOut: [],
    });
    expect(shares.groups.map((group) => group.values[0])).toContain("0.3 to 0.4");
    const whole = shares.groups.reduce((sum, group) => sum + group.count, 0);
    expect(whole).toBe(shares.matching);
    const [from] = shares.groups.filter((group) => group.values[0] === "0.3 to 0.4");
    expect(from.count).toBe(
      tallyPositions(db, parse("blunder-potential >= 0.3 and blunder-potential < 0.4")),
    );
    expect(() => readSplit("year:1e400", [])).toThrow(/bands are/);
    expect(() => readSplit("year:-3", [])).toThrow(/bands are/);
  });

  it("more than half of the positions is what mostly means", () => {
    const long = GEOMETRY.findIndex((fact) => fact.name === "rook-side");
    const endings = new Map<number, { some: number; every: number }>();
    const geometer = new Geometer(TARGET);
    for (const { ending, facts, placement } of stored()) {
      const { some, every } = endings.get(ending) ?? { some: 0, every: 0 };
      const other = geometer.factsFromOtherEdge(placementAt(placement, TARGET.men));
      endings.set(ending, {
        some: some + (facts[long] === 2 || other?.[long] === 2 ? 1 : 0),
        every: every + 1,
      });
    }
    const wanted = [...endings.values()].filter(({ some, every }) => 2 * some > every).length;
    expect(tallyEndings(db, parse("mostly (rook on the long side)")).endings).toBe(wanted);
    expect(wanted).toBeGreaterThan(0);
  });

  it("every fact can be asked about and counted by", async () => {
    const { FACTS } = await import("../../src/query/language/vocabulary.js");
    for (const fact of FACTS) {
      const value = fact.values
        ? fact.values[0].name
        : fact.type === "text"
          ? '"a"'
          : fact.type === "flag"
            ? "yes"
            : String(fact.least ?? 1);
      const position = fact.scope === "position" || fact.scope === "move";
      tallyEndings(db, parse(`${fact.name} = ${value}`));
      const found = count(db, parse(""), {
        by: [readSplit(fact.name, [])],
        unit: position ? "position" : "ending",
        leaveOut: EXCLUDED_BY_DEFAULT,
      });
      // a move is of several kinds at once
      if (fact.type === "kinds") continue;
      expect(
        found.groups.reduce((sum, group) => sum + group.count, 0),
        fact.name,
      ).toBe(found.matching);
      expect(
        found.groups.reduce((sum, group) => sum + group.share, 0),
        fact.name,
      ).toBeCloseTo(1, 9);
    }
  });
});

describe("what has no value", () => {
  it("meets no comparison, whatever number stands for it", () => {
    const number = (text: string) => tallyPositions(db, parse(text));
    const drawn = number("verdict = drawn");
    expect(drawn).toBeGreaterThan(0);
    const all = number("");
    for (const text of [
      "dtm = -32768",
      "dtm = -40000..-30000",
      "dtm < -1",
      "wedge-depth != 99 and dtm <= -5",
    ])
      expect(number(text), text).toBe(0);
    for (const text of [
      "dtm < 1000",
      "dtm <= 1000",
      "dtm > -99999",
      "dtm >= -99999",
      "dtm != 1000",
      "dtm -99999..1000",
    ])
      expect(number(text), text).toBe(all - drawn);
    expect(number("not (dtm >= 0)")).toBe(drawn);
    // fractions, and thresholds between whole numbers
    expect(number("dtm > 10.5")).toBe(number("dtm >= 11"));
    expect(number("dtm < 10.5")).toBe(number("dtm <= 10"));
    expect(number("dtm = 10.5")).toBe(0);
    expect(number("blunder-potential < 2") + number("legal = 0")).toBe(all);
  });
});

describe("scopes", () => {
  const number = (text: string) => tallyEndings(db, parse(text)).endings;
  it("somewhere, throughout, never, entry and end speak of the positions they name", () => {
    const all = number("");
    expect(number("never rook on the long side")).toBe(all - number("somewhere rook on the long side"));
    expect(number("throughout rook on the long side")).toBe(
      all - number("somewhere (not rook on the long side)"),
    );
    expect(number("entry verdict = won")).toBe(number("entry-verdict = won"));
    expect(number("end verdict = won")).toBe(number("final-verdict = won"));
  });
  it("one set of answers tells endings and positions apart, whichever is asked for first", () => {
    for (const text of ["", "defender held", "not (defender held)"]) {
      const expected = [
        new Answers(db, parse(text)).tally("ending"),
        new Answers(db, parse(text)).tally("position"),
      ];
      expect(expected[1]).toBeGreaterThan(expected[0]);
      const [one, other] = [new Answers(db, parse(text)), new Answers(db, parse(text))];
      expect([one.tally("ending"), one.tally("position")]).toEqual(expected);
      const last = other.tally("position");
      expect([other.tally("ending"), last]).toEqual(expected);
    }
  });
  it("conditions side by side speak of one position, each in its own brackets of any", () => {
    const together = number("rook on the long side, defender to move, king in the corner");
    const apart = number(
      "somewhere (rook on the long side), somewhere (defender to move, king in the corner)",
    );
    expect(together).toBeLessThanOrEqual(apart);
    expect(aboutEndings(parse("outcome = held, rook on the long side"))).toMatchObject({ kind: "and" });
  });
});
