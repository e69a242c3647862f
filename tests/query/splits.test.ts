// Splits: how they are read, what their rows are called, and that every value falls into the band that names it.

import { join } from "node:path";

import { afterAll, beforeAll, describe, expect, it } from "vitest";

import { Evaluation } from "../../src/query/engine/evaluate.js";
import {
  type Split,
  compareKeys,
  isOfPositions,
  keyOfNone,
  keyShown,
  keysOf,
  readSplit,
  readSplits,
} from "../../src/query/engine/splits.js";
import { standardCatalogue } from "../../src/query/language/catalogue.js";
import { factNamed } from "../../src/query/language/vocabulary.js";
import type { Connection } from "../../src/store/connection.js";
import { openForReading } from "../../src/store/database.js";
import { TARGET, indexBundled, temporaryFolder } from "../support.js";

const setUps = standardCatalogue().tests(TARGET);
const shown = (text: string, keys: readonly (number | string | null)[]) => {
  const split = readSplit(text, setUps);
  return keys.map((key) => keyShown(split, key));
};

describe("a split", () => {
  it("is read with spaces and capitals as they come", () => {
    expect(readSplit(" Defender Rating:200 ", [])).toMatchObject({ kind: "fact", name: "defender-rating" });
    expect(readSplit("Entry set-up", setUps)).toMatchObject({ kind: "set-up", name: "entry-set-up" });
  });

  it.each([
    ["ratting", /"ratting" is no fact/],
    ["defender-ratin", /did you mean defender-rating\?/],
    ["outcome:10", /bands are/],
    ["year:", /bands are/],
    ["year:10:20", /bands are/],
    ["year:0", /bands are/],
    ["clock:10/10", /bands are/],
    ["set-up:2", /set-ups have no bands/],
  ])("%s is refused", (text, message) => {
    expect(() => readSplit(text, setUps)).toThrow(message);
  });

  it("comes alone or with one other", () => {
    expect(readSplits(["outcome", "year"], []).map(({ name }) => name)).toEqual(["outcome", "year"]);
    expect(() => readSplits(["outcome", "year", "pace"], [])).toThrow(/two facts at most/);
    expect(() => readSplits(["year", "year:10"], [])).toThrow(/year is named twice/);
  });

  it("is of positions where its values may differ within an ending", () => {
    const of = (text: string) => isOfPositions(readSplit(text, setUps));
    expect(["set-up", "rook-side", "kind", "clock"].map(of)).toEqual([true, true, true, true]);
    expect(["entry-set-up", "outcome", "year:10"].map(of)).toEqual([false, false, false]);
  });

  it("names its rows", () => {
    expect(shown("year:10", [201, null])).toEqual(["2010 to 2019", null]);
    expect(shown("blunder-potential:0.1", [0, 3])).toEqual(["0 to 0.1", "0.3 to 0.4"]);
    expect(shown("clock:10/60", [0, 1, 2])).toEqual(["under 10", "10 to 60", "60 or more"]);
    expect(shown("in-check", [0, 1])).toEqual(["no", "yes"]);
    expect(shown("verdict", [1, 0, -1])).toEqual(["won", "drawn", "lost"]);
    expect(shown("set-up", [0, null])).toEqual([setUps[0].name, null]);
    expect(keyOfNone(readSplit("set-up", setUps))).toBe("none");
    expect(keyOfNone(readSplit("year", setUps))).toBe("unknown");
  });

  it("puts the unknown first, then numbers by size, then words", () => {
    expect(["b", 10, null, 9, "a"].sort(compareKeys)).toEqual([null, 9, 10, "a", "b"]);
  });
});

describe("the keys of endings and positions", () => {
  let db: Connection;
  let evaluation: Evaluation;
  beforeAll(async () => {
    const path = join(temporaryFolder(), "bundled.db");
    await indexBundled(path);
    db = openForReading(path);
    evaluation = new Evaluation(db);
  });
  afterAll(() => db.close());

  /** Whether a value is within a band by its name. */
  const within = (value: number, band: string): boolean => {
    const numbers = [...band.matchAll(/[\d.]+/g)].map(Number);
    if (band.startsWith("under")) return value < numbers[0];
    if (band.endsWith("or more")) return value >= numbers[0];
    return band.includes("–")
      ? value >= numbers[0] && value <= numbers[1]
      : value >= numbers[0] - 1e-9 && value < numbers[1] + 1e-9;
  };

  it.each(["legal:5", "legal:5/10/20", "blunder-potential:0.1", "dtm:7"])(
    "%s fall into the band that names them",
    (text) => {
      const split = readSplit(text, []);
      const { values, none } = evaluation.values(factNamed(split.name)!);
      const keys = keysOf(evaluation, split, "position");
      let known = 0;
      for (let p = 0; p < values.length; ++p) {
        const [key] = keys.at(p);
        if (values[p] === none || Number.isNaN(values[p])) expect(key).toBeNull();
        else {
          ++known;
          const band = String(keyShown(split, key));
          expect(within(values[p], band), `${values[p]} in ${band}`).toBe(true);
        }
      }
      expect(known).toBeGreaterThan(300);
    },
  );

  it("of an ending's entry are those of its first position, for all its positions", () => {
    const keys = (name: string, unit: "ending" | "position") =>
      keysOf(evaluation, readSplit(name, setUps) satisfies Split, unit);
    const own = keys("set-up", "position");
    const entry = keys("entry-set-up", "ending");
    const entryOfPosition = keys("entry-set-up", "position");
    let p = 0;
    for (let n = 0; n < 20; ++n) {
      const { positions } = db
        .prepare("SELECT positions FROM endings ORDER BY id LIMIT 1 OFFSET ?")
        .get(n) as { positions: number };
      expect(entry.at(n)).toEqual(own.at(p));
      expect(entryOfPosition.at(p + positions - 1)).toEqual(own.at(p));
      p += positions;
    }
  });
});
