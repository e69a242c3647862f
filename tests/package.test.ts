// The packed tarball runs on its own: what users install holds all it needs.

import { execFileSync, spawnSync } from "node:child_process";
import { readdirSync, symlinkSync } from "node:fs";
import { join } from "node:path";

import { describe, expect, it } from "vitest";

import { PACKAGE, cacheFolder } from "../src/places.js";
import { temporaryFolder } from "./support.js";

describe("the package", () => {
  it("indexes and answers from its tarball", () => {
    const folder = temporaryFolder();
    execFileSync("npm", ["pack", "--silent", "--pack-destination", folder], { cwd: PACKAGE });
    const [tarball] = readdirSync(folder).filter((name) => name.endsWith(".tgz"));
    execFileSync("tar", ["-xzf", join(folder, tarball), "-C", folder]);
    symlinkSync(join(PACKAGE, "node_modules"), join(folder, "package", "node_modules"));
    const run = (...args: string[]) =>
      spawnSync(process.execPath, [join(folder, "package", "dist", "src", "cli", "main.js"), ...args], {
        encoding: "utf8",
        cwd: folder,
        env: { ...process.env, LONGSIDE_CACHE: cacheFolder() },
      });
    expect(run("demo")).toMatchObject({ status: 0, stdout: expect.stringMatching(/What to type next/) });
    expect(run("find", "third-rank defence", "--db", "demo.db").status).toBe(0);
  });
});
