// Real games with independently computed truth, on any machine: endings that engines played, read as games are read,
// have in each position the verdict, distances and number of keeping moves of another solver.

import { readFileSync } from "node:fs";
import { join } from "node:path";

import { Chess } from "chess.js";
import { parse as parseCsv } from "csv-parse/sync";
import { describe, expect, it } from "vitest";

import { placementFen } from "../../src/chess/fen.js";
import { CandidateFinder } from "../../src/endings/candidates.js";
import { GameReader } from "../../src/endings/game-reader.js";
import { PositionColumns } from "../../src/endings/position-columns.js";
import { PACKAGE } from "../../src/places.js";
import { TARGET, openTables } from "../support.js";

type Row = Record<"game" | "fen" | "move" | "verdict" | "dtm" | "dtc" | "keeping", string>;

// the sign of mate is the comments' sign too
const rows = parseCsv(readFileSync(join(PACKAGE, "fixtures", "engine-games.csv"), "utf8"), {
  columns: true,
  comment: "#",
  comment_no_infix: true,
}) as Row[];
const games = [...new Set(rows.map(({ game }) => game))].map((game) =>
  rows.filter((row) => row.game === game),
);

const tables = openTables();
const finder = new CandidateFinder(TARGET);
const reader = new GameReader(TARGET, tables);

describe("the endings of engine games", () => {
  it("are 23 with 1,103 positions, 102 of them won", () => {
    expect(games.length).toBe(23);
    expect(rows.length).toBe(1103);
    expect(rows.filter(({ verdict }) => verdict === "won").length).toBe(102);
  });

  it.each(games.map((game) => [game[0].game, game] as const))(
    "game %s has the other solver's values, and its moves lead from row to row",
    (_, game) => {
      // a game of its own from the ending's first position; chess.js 1.4 makes the moves
      const chess = new Chess(game[0].fen);
      const pgn = `[SetUp "1"]\n[FEN "${game[0].fen}"]\n\n${game.map(({ move }) => move).join(" ")} *\n`;
      const { found, skipped } = reader.read(finder.find(new Uint8Array(Buffer.from(pgn))).candidates);
      expect(skipped).toEqual([]);
      expect(found.length).toBe(1);
      expect(found[0].endings.length).toBe(1);
      const [ending] = found[0].endings;
      const columns = PositionColumns.from(ending.columns);
      expect(columns.count).toBe(game.length);
      game.forEach((row, n) => {
        expect(chess.fen()).toBe(row.fen);
        const placement = columns.placement(n, TARGET.men);
        expect(placementFen(placement, TARGET, ending.attacker).split(" ")[0]).toBe(row.fen.split(" ")[0]);
        const { verdict, dtm, dtc, keeping, san } = columns.record(n);
        expect({ verdict, dtm, dtc, keeping, san }, row.fen).toEqual({
          verdict: ["lost", "drawn", "won"].indexOf(row.verdict) - 1,
          dtm: row.dtm === "" ? null : Number(row.dtm),
          dtc: row.dtc === "" ? null : Number(row.dtc),
          keeping: Number(row.keeping),
          san: row.move === "" ? null : row.move,
        });
        if (row.move !== "") expect(chess.move(row.move).san).toBe(row.move);
      });
    },
  );
});
