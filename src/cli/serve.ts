// `serve`: the local page, until Ctrl-C.

import { existsSync } from "node:fs";
import { dirname, resolve } from "node:path";

import { LongsideError } from "../errors.js";
import { Folders } from "../server/folders.js";
import { serve } from "../server/server.js";
import type { Command } from "./command.js";
import { note, print } from "./messages.js";

const PORT = 6464;

export const run: Command = async (_args, options, workspace) => {
  const { settings } = workspace;
  const db = resolve(settings.db);
  const target = workspace.target();
  const games = options.games?.split(",").map((one) => resolve(one)) ?? [process.cwd()];
  void new Folders(games); // a folder that is not there is told before any work
  if (!existsSync(dirname(db))) throw new LongsideError("no-such-path", { path: dirname(db) });
  await workspace.prepare([target], "head");
  workspace.close();
  const server = await serve({
    host: options.host ?? "127.0.0.1",
    port: options.port ?? PORT,
    token: options.token,
    games,
    seconds: options.seconds,
    settings: {
      ...settings,
      db,
      target: target.name,
      setUps: settings.setUps === null ? null : resolve(settings.setUps),
    },
  });
  print([server.address, ...server.others].join("\n"));
  note(
    server.token === undefined
      ? "Open it in a browser on this machine. Ctrl-C ends it."
      : "Everybody who has this address can ask, look and play. Ctrl-C ends it.",
  );
  await new Promise<void>((done) => {
    process.once("SIGINT", done);
    process.once("SIGTERM", done);
  });
  note("Ending …");
  await server.close();
  // a build of tables is not waited for: it begins anew another time
  process.exit(0);
};
