// "In the last ten moves": how far it is to the end of an ending, as a fact and in words.

import { join } from "node:path";

import { describe, expect, it } from "vitest";

import { factNamed } from "../../src/query/language/vocabulary.js";
import { formatQuestion } from "../../src/query/language/ast.js";
import { standardCatalogue } from "../../src/query/language/catalogue.js";
import { Evaluation } from "../../src/query/engine/evaluate.js";
import { readingsOf } from "../../src/query/language/parse.js";
import { columnStoreOf } from "../../src/store/column-store.js";
import { openForReading } from "../../src/store/database.js";
import { indexBundled, temporaryFolder } from "../support.js";

const { known } = standardCatalogue();
const read = (text: string) => formatQuestion(readingsOf(text, known)[0].question);

describe("the last moves of an ending", () => {
  it.each([
    ["blunder in the last ten moves", "error != none and moves-left <= 10"],
    [
      "defender's mistake in the final 5 moves of the ending",
      "to-move = defender and error != none and moves-left <= 5",
    ],
    ["stalemate trick within the last 3 moves", "stalemate-resource and moves-left <= 3"],
    ["second-rank defence in the last ten moves of the game", "second-rank-defence and moves-left <= 10"],
    ["no mistake in the last 20 moves", "never (error != none and moves-left <= 20)"],
    [
      "defender erred at least twice in his last 20 moves",
      "count (to-move = defender and error != none and moves-left <= 20) >= 2",
    ],
    [
      "defender made three mistakes in the last 20 moves",
      "count (to-move = defender and error != none and moves-left <= 20) = 3",
    ],
    // the same of the first moves
    [
      "defender erred twice in his first 20 moves",
      "count (to-move = defender and error != none and moves-in < 20) >= 2",
    ],
    // every ending has last moves: what came about there was decided there
    ["defender lost in the last ten moves", "outcome = lost and decisive-mistake and moves-left <= 10"],
    ["defender lost in the first ten moves", "outcome = lost and decisive-mistake and moves-in < 10"],
    // what lasts
    ["second-rank defence lasted ten moves", "held second-rank-defence for 10 moves"],
  ])("%s", (text, canonical) => {
    expect(read(text)).toBe(canonical);
  });

  it("are counted to the last position, a move that is begun as a whole one", async () => {
    const path = join(temporaryFolder(), "games.db");
    await indexBundled(path);
    const db = openForReading(path);
    const store = columnStoreOf(db);
    const { values } = new Evaluation(db, store).values(factNamed("moves-left")!);
    for (let n = 0; n < store.endings; ++n) {
      const own = Array.from(values.subarray(store.starts[n], store.starts[n + 1]));
      const half = own.map((_, p) => own.length - 1 - p);
      expect(own).toEqual(half.map((left) => Math.ceil(left / 2)));
    }
    db.close();
  });
});
