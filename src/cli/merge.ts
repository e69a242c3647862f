// `merge`: several databases into one.

import { openForReading, openForWriting, targetOf } from "../store/database.js";
import { mergeDatabases } from "../store/merge.js";
import { totalsOf } from "../store/totals.js";
import type { Command } from "./command.js";
import { counted } from "../position/wording.js";
import { print, printJson } from "./messages.js";

export const run: Command = (args, options, { settings }) => {
  const first = openForReading(args[0]);
  const target = targetOf(first);
  first.close();
  const path = settings.db;
  const db = openForWriting(path, target);
  try {
    const { taken, left } = mergeDatabases(db, path, args);
    const totals = totalsOf(db);
    if (options.json) {
      printJson({ taken, left, ...totals });
      return 0;
    }
    print(
      `Took over ${counted(taken, "file")}; ${counted(left, "file")} there already. ` +
        `${path} now holds ${counted(totals.endings, "ending")} with ${counted(totals.positions, "position")} from ${counted(totals.gamesWithEndings, "game")}.`,
    );
    return 0;
  } finally {
    db.close();
  }
};
