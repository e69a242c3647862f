// Games by chance, for databases as large as one likes: some fifty positions of R+B v R each.
//
//   node dist/tests/bench/random-games.js FILE GAMES [SEED]

import { closeSync, openSync, writeSync } from "node:fs";
import { fileURLToPath } from "node:url";

import { placementFen } from "../../src/chess/fen.js";
import { DEFAULT_TARGET, parseMaterial } from "../../src/chess/material.js";
import { MoveList, Movement } from "../../src/chess/moves.js";
import { randomNumbers, randomPlacement } from "../../src/chess/random.js";
import { quietSanCode, sanText } from "../../src/chess/san.js";

/**
 * Writes games to a file: fifty random moves that take nothing, from a random placement given as a FEN, by invented players. The same
 * games for the same seed; `first` is the number of the first one.
 */
export function randomGames(path: string, games: number, seed = 2718, first = 0): void {
  const random = randomNumbers(seed);
  const target = parseMaterial(DEFAULT_TARGET);
  const movement = new Movement(target);
  const [list, replies] = [new MoveList(), new MoveList()];
  const pick = <T>(from: readonly T[]) => from[Math.floor(random() * from.length)];
  const names = [
    "Vastrel, Orrin",
    "Mirrovan, Teo",
    "Lindorf-Aske, Jette",
    "Pellamine, Rosa",
    "Harrowdal, Pim",
  ];
  const results = ["1-0", "1/2-1/2", "1/2-1/2", "0-1"];
  const file = openSync(path, "w");
  for (let game = first; game < first + games; ++game) {
    const { squares: placed, attackerToMove } = randomPlacement(target, random);
    const squares = [...placed];
    const start = placementFen({ squares, attackerToMove }, target, "white");
    const words: string[] = [];
    let turn = attackerToMove;
    for (let ply = 0; ply < 50; ++ply) {
      movement.legalMoves(squares, turn, list);
      const quiet = Array.from({ length: list.count }, (_, n) => n).filter((n) => list.captured[n] < 0);
      if (quiet.length === 0) break;
      const n = pick(quiet);
      const move = { piece: list.piece[n], to: list.to[n] };
      words.push(sanText(quietSanCode(movement, squares, turn, list, n, replies)));
      squares[move.piece] = move.to;
      turn = !turn;
    }
    const rating = () => 1800 + Math.floor(900 * random());
    const result = pick(results);
    writeSync(
      file,
      `[Event "${pick(["Lanternside Open", "Harbour League", "Winter Cup"])} ${game}"]\n[Date "${2005 + (game % 20)}.01.01"]\n[White "${pick(names)}"]\n[Black "${pick(names)}"]\n[WhiteElo "${rating()}"]\n[BlackElo "${rating()}"]\n[Result "${result}"]\n[SetUp "1"]\n[FEN "${start}"]\n\n${words.join(" ")} ${result}\n\n`,
    );
  }
  closeSync(file);
}

if (process.argv[1] === fileURLToPath(import.meta.url)) {
  const [path, games, seed] = process.argv.slice(2);
  randomGames(path, Number(games), seed === undefined ? undefined : Number(seed));
}
