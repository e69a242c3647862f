// Files of games, damaged in every way, through an index run.

import { readFileSync, readdirSync, rmSync, writeFileSync } from "node:fs";
import { join } from "node:path";

import { gamesFolder } from "../../src/places.js";
import { type Campaign, ODD } from "./campaign.js";
import { faultOf } from "./terminal.js";

const TAGS = [
  '[White "\u001b]0;x\u0007\u202eevil"]',
  '[Event "=cmd|x"]',
  '[FEN "3k4/5R2/3K4/3B4/8/8/4r3/8 w - - 0 99999"]',
  '[SetUp "1"]',
  "{",
  "}",
  "(",
  ";",
  "%",
  "1-0",
  "$999999",
  "[%clk 99999:99:99]",
  "\ufeff",
  "0000",
];

/** `folder` is where files are written. */
export function filesCampaign(folder: string): Campaign {
  const lines = readdirSync(gamesFolder())
    .filter((name) => name.endsWith(".pgn"))
    .flatMap((name) => readFileSync(join(gamesFolder(), name), "latin1").split("\n"))
    .slice(0, 4000);
  const file = join(folder, "fuzzed.pgn");
  const db = join(folder, "fuzzed.db");
  return {
    name: "files",
    make(chance) {
      const from = chance.below(lines.length - 200);
      const parts = lines.slice(from, from + 20 + chance.below(180));
      for (let n = 1 + chance.below(8); n > 0; --n) {
        const at = chance.below(parts.length);
        const line = parts[at];
        const cut = chance.below(line.length + 1);
        switch (chance.below(6)) {
          case 0:
            parts.splice(at, 1);
            break;
          case 1:
            parts.splice(at, 0, chance.of(TAGS));
            break;
          case 2:
            parts[at] = line.slice(0, cut) + chance.of([...ODD, ...TAGS]) + line.slice(cut);
            break;
          case 3:
            parts[at] = line.slice(0, cut);
            break;
          case 4:
            parts[at] =
              `${line.slice(0, cut)}${String.fromCharCode(chance.below(256))}${line.slice(cut + 1)}`;
            break;
          default:
            parts.splice(at, 0, ...parts.slice(chance.below(parts.length)).slice(0, 20));
        }
      }
      return parts;
    },
    async attempt(parts) {
      for (const end of ["", "-wal", "-shm", ".lock"]) rmSync(db + end, { force: true });
      const text = parts.join("\n");
      writeFileSync(file, text, "latin1");
      const index = ["index", file, "--db", db, "--threads", "1", "--skipped", join(folder, "skipped.jsonl")];
      return (
        (await faultOf(index, text)) ??
        (await faultOf(["find", "--db", db], text)) ??
        (await faultOf(["find", "--db", db, "--csv"], text)) ??
        (await faultOf(["find", "--db", db, "--json"], text)) ??
        (await faultOf(["find", "--db", db, "--pgn"], text))
      );
    },
  };
}
