// The workflow for many machines, on this one: where Snakemake is installed.

import { spawn, spawnSync } from "node:child_process";
import { copyFileSync, existsSync, readFileSync, readdirSync, writeFileSync } from "node:fs";
import { join } from "node:path";

import { describe, expect, it } from "vitest";

import { PACKAGE, gamesFolder } from "../../src/places.js";
import { Connection } from "../../src/store/connection.js";
import { contentSignature } from "../../src/store/signature.js";
import { longside, temporaryFolder } from "../support.js";

const isInstalled = spawnSync("snakemake", ["--version"]).status === 0;
const WORKFLOW = join(PACKAGE, "workers", "cluster", "Snakefile");

/** A collection of the bundled games with one large file in parts, and what a run in one go makes of it. */
function collection() {
  const folder = temporaryFolder();
  const filler = '[Event "Filler"]\n\n1. e4 e5 2. Nf3 Nc6 1/2-1/2\n\n'.repeat(100_000);
  for (const name of readdirSync(gamesFolder())) copyFileSync(join(gamesFolder(), name), join(folder, name));
  const [first] = readdirSync(gamesFolder()).sort();
  writeFileSync(join(folder, first), `${filler}${readFileSync(join(gamesFolder(), first), "utf8")}`);
  const settings = join(folder, "games.yaml");
  writeFileSync(
    settings,
    JSON.stringify({
      archives: [join(folder, "*.pgn")],
      database: join(folder, "all.db"),
      longside: `'${process.execPath}' '${join(PACKAGE, "dist", "src", "cli", "main.js")}'`,
      threads: 1,
      part_bytes: 3_000_000,
      together: 2,
    }),
  );
  return {
    folder,
    settings,
    database: join(folder, "all.db"),
    args: ["-s", WORKFLOW, "--configfile", settings, "--cores", "2", "--rerun-incomplete", "-d", folder],
  };
}

const signatureOf = (path: string): string => {
  const db = new Connection(path);
  db.exec("UPDATE sources SET name = replace(path, rtrim(path, replace(path, '/', '')), '')");
  const signature = contentSignature(db);
  db.close();
  return signature;
};

describe.skipIf(!isInstalled)("the workflow", () => {
  it("makes what one run makes, also when it was killed in between", async () => {
    const { folder, database, args } = collection();
    // killed as soon as the first database is in hand, with all that it started
    const killed = spawn("snakemake", args, { detached: true, stdio: "ignore" });
    const ended = new Promise((resolve) => killed.once("exit", resolve));
    const hand = join(folder, "all.db-work", "hand");
    while (!(existsSync(hand) && readdirSync(hand).length > 0))
      await new Promise((resolve) => setTimeout(resolve, 20));
    process.kill(-killed.pid!, "SIGKILL");
    await ended;
    expect(existsSync(database)).toBe(false);
    spawnSync("snakemake", [...args, "--unlock"]);
    const again = spawnSync("snakemake", args, { encoding: "utf8" });
    expect(again.status, again.stderr).toBe(0);
    const whole = join(folder, "whole.db");
    expect(
      longside([
        "index",
        ...readdirSync(folder)
          .filter((name) => name.endsWith(".pgn"))
          .map((name) => join(folder, name)),
        "--db",
        whole,
      ]).status,
    ).toBe(0);
    expect(signatureOf(database)).toBe(signatureOf(whole));
  });
});
