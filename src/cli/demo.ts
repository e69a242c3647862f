// `demo`: the whole way once, on the games that come with the program.

import { gamesFolder } from "../places.js";
import { run as count } from "./count.js";
import { run as find } from "./find.js";
import { runIndex } from "./index-games.js";
import type { Command } from "./options.js";
import { INTERRUPTED } from "./resolve.js";
import { bold, dim, print, programName } from "./terminal.js";

export const DEMO_DB = "demo.db";

export const run: Command = async (_, options) => {
  const db = options.db ?? DEMO_DB;
  print(bold("Indexing the bundled games (invented players, made by this program)"));
  const summary = await runIndex([gamesFolder()], { ...options, db });
  if (summary.stopped) return INTERRUPTED;

  const asked = (text: string) => print(`\n${dim("$")} ${programName()} ${text} --db ${db}`);
  const question = "defender drew with the rook on the long side";
  asked(`find "${question}" --limit 5`);
  await find([question], { db, limit: 5 });
  asked("count --by outcome");
  await count([], { db, by: "outcome" });
  asked('count "second-rank defence" --by verdict,error');
  await count(["second-rank defence"], { db, by: "verdict,error" });

  print(`
${bold("What to type next")}
  ${programName()} show 1 --db ${db}
  ${programName()} find "Philidor, defender errs" --db ${db}
  ${programName()} probe "3k4/5R2/3K4/3B4/8/8/4r3/8 w - - 0 1"
  ${programName()} words
  ${programName()} index YOUR-GAMES/ --db games.db`);
  return 0;
};
