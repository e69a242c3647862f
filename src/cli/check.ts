// `check`: looks at everything in a database, and mends what can be mended.

import { checkAsked, mend } from "../app/check.js";
import { LongsideError } from "../errors.js";
import { bringUpToDate } from "../store/database.js";
import { counted } from "../position/wording.js";
import type { Command } from "./command.js";
import { note, print, printJson } from "./messages.js";
import { TableBuild } from "./progress.js";

/** Hurt things that are named. */
const SHOWN = 20;
/** Files of a hurt thing that are named. */
const NAMED = 3;

export const run: Command = async (args, options, { settings }) => {
  const asked = { ...settings, db: args[0] ?? settings.db };
  if (options.mend && bringUpToDate(asked.db)) print(`${asked.db} was brought up to date.`);
  const checked = checkAsked(asked);
  const { games, endings, chunks, hurt, file } = checked;
  if (options.json) printJson({ database: asked.db, games, endings, chunks, file, hurt });
  else if (file.length === 0) {
    print(
      `${asked.db}: looked at ${counted(games, "game")}, ${counted(endings, "ending")} and ${counted(chunks, "chunk")} of columns.`,
    );
    for (const { what, games: of } of hurt.slice(0, SHOWN)) {
      const names = [...new Set(of.map(({ source }) => source?.name ?? "no file"))];
      print(
        `  hurt: ${what}, of ${names.slice(0, NAMED).join(", ")}${names.length > NAMED ? " and more" : ""}`,
      );
    }
    if (hurt.length > SHOWN) print(`  … and ${hurt.length - SHOWN} more`);
    if (hurt.length === 0) print("Everything is what was written.");
  }
  if (file.length > 0) throw new LongsideError("database-file-damaged", { path: asked.db, cause: file[0] });
  if (hurt.length === 0) return 0;
  if (!options.mend) {
    note("Mend it with --mend: files with hurt games are read again where they are there.");
    return 1;
  }
  const { again, gone, workedOut } = await mend(asked, checked, {
    stopping: new AbortController(),
    progress: () => undefined,
    tables: new TableBuild(settings.folder),
  });
  if (again.length > 0) print(`Read again: ${again.join(", ")}.`);
  if (workedOut.length > 0)
    print(`Worked out again from the stored moves, the files being gone: ${workedOut.join(", ")}.`);
  if (gone.length > 0) print(`Taken out, since the files are no longer there: ${gone.join(", ")}.`);
  const left = checkAsked(asked).hurt.length;
  print(left === 0 ? "Everything is whole now." : `${counted(left, "thing")} still hurt.`);
  return left === 0 ? 0 : 1;
};
