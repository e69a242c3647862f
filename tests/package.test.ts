// A newcomer's path: what `npm pack` makes holds all that the program needs and can be installed elsewhere. (That a clone gives
// its first answer after the README's first command is what `.ci/run` begins with.)

import { execFileSync, spawnSync } from "node:child_process";
import { mkdirSync, readFileSync, readdirSync, symlinkSync } from "node:fs";
import { join, relative } from "node:path";

import { beforeAll, describe, expect, it } from "vitest";

import * as places from "../src/places.js";
import { temporaryFolder } from "./support.js";

const { PACKAGE, cacheFolder, version } = places;
const folder = temporaryFolder();
let tarball = "";
beforeAll(() => {
  execFileSync("npm", ["pack", "--silent", "--pack-destination", folder], { cwd: PACKAGE });
  tarball = join(
    folder,
    readdirSync(folder).find((name) => name.endsWith(".tgz"))!,
  );
});

/** Runs a program elsewhere, with the tables that are there already. */
function run(program: string, args: readonly string[], cwd: string, env: NodeJS.ProcessEnv = {}) {
  const own = { npm_lifecycle_event: undefined, LONGSIDE_CACHE: cacheFolder() };
  return spawnSync(program, args, { encoding: "utf8", cwd, env: { ...process.env, ...own, ...env } });
}

const DEMO = { status: 0, stdout: expect.stringMatching(/What to type next/) as string };

describe("the package", () => {
  it("holds every file that the program reads, and no test", () => {
    const packed = execFileSync("tar", ["-tzf", tarball], { encoding: "utf8" })
      .split("\n")
      .map((name) => name.replace(/^package\//, ""));
    const files = [
      places.kernelFile,
      places.decoderFile,
      places.gamesKernelFile,
      places.geometryKernelFile,
      places.masksKernelFile,
      places.catalogueFile,
    ].map((of) => relative(PACKAGE, of()));
    const page = relative(PACKAGE, places.pageFolder());
    for (const name of ["page.html", "page.js", "page.css", "mark.svg"]) files.push(join(page, name));
    const sources = readdirSync(join(PACKAGE, "src"), { recursive: true, encoding: "utf8" });
    for (const name of sources.filter((name) => /\.tsx?$/.test(name))) {
      const text = readFileSync(join(PACKAGE, "src", name), "utf8");
      // tables of the package; a name that is given to what is made is none
      for (const [, table] of text.matchAll(/(?<!\bname: )"([\w-]+\.csv)"/g))
        files.push(join("fixtures", table));
      if (!/kernel\/|portable\/|^page\/|\.d\.ts$/.test(name))
        files.push(join("dist", "src", name.replace(/\.tsx?$/, ".js")));
    }
    expect(files.length).toBeGreaterThan(100);
    expect(files.filter((file) => !packed.includes(file))).toEqual([]);
    expect(packed.filter((name) => /tests|generator|engine-games/.test(name))).toEqual([]);
  });

  it("indexes and answers from its tarball", () => {
    execFileSync("tar", ["-xzf", tarball, "-C", folder]);
    symlinkSync(join(PACKAGE, "node_modules"), join(folder, "package", "node_modules"));
    const main = join(folder, "package", "dist", "src", "cli", "main.js");
    expect(run(process.execPath, [main, "demo"], folder)).toMatchObject(DEMO);
    expect(
      run(process.execPath, [main, "find", "third-rank defence", "--db", "demo.db"], folder).status,
    ).toBe(0);
  });
});

/**
 * Has npm find the compiled parts of the dependencies among this project's, in the place where the packages look for
 * binaries before they compile: minutes are saved, and the installation is otherwise the usual one.
 */
function compiledParts(): NodeJS.ProcessEnv {
  const parts = join(folder, "parts");
  mkdirSync(parts);
  const env: NodeJS.ProcessEnv = {};
  const { platform, arch, versions } = process;
  for (const [name, abi, file] of [
    ["better-sqlite3", `node-v${versions.modules}`, "better_sqlite3.node"],
    ["zstd-napi", "napi-v8", "binding.node"],
  ]) {
    const from = join(PACKAGE, "node_modules", name);
    const part = JSON.parse(readFileSync(join(from, "package.json"), "utf8")) as { version: string };
    const packed = join(parts, `${name}-v${part.version}-${abi}-${platform}-${arch}.tar.gz`);
    execFileSync("tar", ["-czf", packed, "-C", from, `build/Release/${file}`]);
    env[`npm_config_${name.replaceAll("-", "_")}_local_prebuilds`] = parts;
  }
  return env;
}

// these fetch the dependencies: run by CI, and with CI=1 by anyone
describe.runIf(process.env.CI)("a newcomer", () => {
  let env: NodeJS.ProcessEnv = {};
  beforeAll(() => {
    env = compiledParts();
  });

  it("installs the tarball elsewhere and gets the first answer", () => {
    const place = join(folder, "installed");
    const installed = run("npm", ["install", "--global", "--prefix", place, tarball], folder, env);
    expect(installed.status, installed.stderr).toBe(0);
    const longside = (...args: string[]) => run(join(place, "bin", "longside"), args, folder);
    expect(longside("--version")).toMatchObject({ status: 0, stdout: `${version()}\n` });
    expect(longside("demo", "--db", "installed.db")).toMatchObject(DEMO);
  });

  it("who clones types what CI runs in its clean clone: the README's first command, then the tests", () => {
    const [block] = [
      ...readFileSync(join(PACKAGE, "README.md"), "utf8").matchAll(/```\w*\n((?:npm .*\n)+)```/g),
    ];
    const [first, second] = block[1].trim().split("\n");
    expect(second).toBe("npm test");
    const script = readFileSync(join(PACKAGE, ".ci", "run"), "utf8").split("\n");
    expect(script.some((line) => line.startsWith(`${first} `))).toBe(true);
  });
});
