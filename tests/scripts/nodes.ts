// The supported versions of Node, tried one after the other (or those named): each is fetched from npm's registry, runs
// the unit tests, has the packed program installed, which compiles what no binary fits, and gives the first answer.

import { spawnSync } from "node:child_process";
import { mkdirSync, mkdtempSync, readdirSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { delimiter, join } from "node:path";

import { PACKAGE } from "../../src/places.js";

const VERSIONS = process.argv.length > 2 ? process.argv.slice(2) : ["20", "22", "24", "26"];

const folder = mkdtempSync(join(tmpdir(), "longside-nodes-"));
let failed = 0;

/** Runs a command and prints its name, whether it ended well and how long it took; the end of its output only if not. */
function step(name: string, program: string, args: readonly string[], env: NodeJS.ProcessEnv, cwd: string) {
  const begun = performance.now();
  const { status, stdout, stderr } = spawnSync(program, args, {
    encoding: "utf8",
    cwd,
    env: { ...process.env, ...env },
    maxBuffer: 1 << 28,
  });
  const seconds = ((performance.now() - begun) / 1000).toFixed(1);
  process.stdout.write(`  ${name}: ${status === 0 ? "done" : "FAILED"}, ${seconds} s\n`);
  if (status === 0) return true;
  ++failed;
  process.stdout.write(`${`${stdout}${stderr}`.split("\n").slice(-30).join("\n")}\n`);
  return false;
}

function tryVersion(version: string, tarball: string): void {
  const place = join(folder, version);
  mkdirSync(place);
  process.stdout.write(`Node ${version}\n`);
  // the package of this platform: the program and the headers that add-ons are compiled with
  const node = `node-${process.platform}-${process.arch}`;
  const fetch = ["install", "--prefix", place, "--no-save", "--ignore-scripts", `${node}@${version}`];
  if (!step("fetched", "npm", fetch, {}, place)) return;
  const home = join(place, "node_modules", node);
  const env = {
    PATH: [join(home, "bin"), process.env.PATH].join(delimiter),
    npm_config_nodedir: home,
    npm_lifecycle_event: undefined,
  };
  const vitest = join(PACKAGE, "node_modules", "vitest", "vitest.mjs");
  step("unit tests", "node", [vitest, "run", "--project", "unit"], env, PACKAGE);
  const installed = join(place, "installed");
  if (!step("installed", "npm", ["install", "--global", "--prefix", installed, tarball], env, place)) return;
  const longside = join(installed, "bin", "longside");
  step("longside --version", longside, ["--version"], env, place);
  step("longside demo", longside, ["demo"], env, place);
}

try {
  if (step("packed", "npm", ["pack", "--pack-destination", folder], {}, PACKAGE)) {
    const tarball = readdirSync(folder).find((name) => name.endsWith(".tgz"))!;
    for (const version of VERSIONS) tryVersion(version, join(folder, tarball));
  }
} finally {
  rmSync(folder, { recursive: true, force: true });
}
process.exitCode = failed === 0 ? 0 : 1;
