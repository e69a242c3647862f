// `serve`: the local page, until Ctrl-C.

import { existsSync } from "node:fs";
import { dirname, resolve } from "node:path";

import { LongsideError } from "../errors.js";
import { isThere, openForReading, targetOf } from "../store/database.js";
import { catalogueWith } from "../query/language/catalogue.js";
import { serve } from "../server/server.js";
import type { Command } from "./options.js";
import { dbPath, ensureTables, targetOption, threadsOf } from "./resolve.js";
import { note, print } from "./terminal.js";

const PORT = 6464;

export const run: Command = async (_words, options) => {
  catalogueWith(options.setUps); // what is wrong with it is told before anything begins
  const path = resolve(dbPath(options));
  let target = targetOption(options);
  if (isThere(path)) {
    const db = openForReading(path);
    target = targetOf(db);
    db.close();
  }
  if (!existsSync(dirname(path))) throw new LongsideError("no-such-path", { path: dirname(path) });
  const { folder } = await ensureTables([target], options, "head");
  const server = await serve({
    host: options.host ?? "127.0.0.1",
    port: options.port ?? PORT,
    token: options.token,
    games:
      options.games === undefined ? [process.cwd()] : options.games.split(",").map((one) => resolve(one)),
    seconds: options.seconds,
    means: {
      db: path,
      target: target.name,
      setUps: options.setUps === undefined ? null : resolve(options.setUps),
      folder,
      threads: threadsOf(options),
    },
  });
  print([server.address, ...server.others].join("\n"));
  note(
    server.token === undefined
      ? "Open it in a browser on this machine. Ctrl-C ends it."
      : "Whoever has this address can ask, look and play. Ctrl-C ends it.",
  );
  await new Promise<void>((done) => {
    process.once("SIGINT", done);
    process.once("SIGTERM", done);
  });
  note("Ending …");
  await server.close();
  // tables on their way are begun anew another time
  process.exit(0);
};
