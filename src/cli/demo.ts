// `demo`: the whole way once, on the games that come with the program.

import { gamesFolder } from "../places.js";
import { type Command, workspaceFor } from "./command.js";
import { run as count } from "./count.js";
import { run as find } from "./find.js";
import { runIndex } from "./index-games.js";
import { INTERRUPTED } from "./progress.js";
import { print, programName } from "./messages.js";
import { bold, dim } from "./terminal.js";

const DEMO_DB = "demo.db";

export const run: Command = async (_args, options) => {
  const db = options.db ?? DEMO_DB;
  const workspace = workspaceFor({ ...options, db });
  try {
    print(bold("Indexing the bundled games (invented players, made by this program)"));
    const summary = await runIndex([gamesFolder()], options, workspace);
    if (summary.stopped) return INTERRUPTED;

    const asked = (text: string) => print(`\n${dim("$")} ${programName()} ${text} --db ${db}`);
    const question = "defender drew with the rook on the long side";
    asked(`find "${question}" --limit 5`);
    await find([question], { limit: 5 }, workspace);
    asked("count --by outcome");
    await count([], { by: "outcome" }, workspace);
    asked('count "second-rank defence" --by verdict,error');
    await count(["second-rank defence"], { by: "verdict,error" }, workspace);
  } finally {
    workspace.close();
  }

  print(`
${bold("What to type next")}
  ${programName()} show 1 --db ${db}
  ${programName()} find "defender missed an only move" --db ${db}
  ${programName()} probe "3k4/5R2/3K4/3B4/8/8/4r3/8 w - - 0 1"
  ${programName()} words
  ${programName()} index YOUR-GAMES/ --db games.db`);
  return 0;
};
