// Build step: the licences of all that is bundled into the page and the compiled kernels, as one text, which the server
// shows at /licences and the package carries. What is bundled is taken from the bundler's own list.

import { readFileSync, readdirSync, rmSync, writeFileSync } from "node:fs";
import { join } from "node:path";

import { PACKAGE, pageFolder } from "../places.js";

/** What esbuild tells of its inputs (https://esbuild.github.io/api/#metafile). */
interface Metafile {
  readonly inputs: Readonly<Record<string, unknown>>;
}

/** Packages of which parts are in the compiled kernels: AssemblyScript's standard library. */
const IN_KERNELS = ["assemblyscript"];

/** "node_modules/preact/hooks/…" as "preact", "node_modules/@a/b/…" as "@a/b". */
const packageOf = (path: string): string | undefined =>
  /.*node_modules\/((?:@[^/]+\/)?[^/]+)/.exec(path)?.[1];

/** A package's name, version, licence and the text of it. Throws where the package has none. */
function licenceOf(name: string): string {
  const folder = join(PACKAGE, "node_modules", name);
  const { version, license } = JSON.parse(readFileSync(join(folder, "package.json"), "utf8")) as {
    version: string;
    license: string;
  };
  const files = readdirSync(folder).filter((file) => /^(?:licen[cs]e|copying|notice)/i.test(file));
  if (files.length === 0) throw new Error(`${name} brings no text of its licence`);
  const texts = files.map((file) => readFileSync(join(folder, file), "utf8").trim());
  return [`${name} ${version} (${license})`, ...texts].join("\n\n");
}

const meta = join(pageFolder(), "meta.json");
const { inputs } = JSON.parse(readFileSync(meta, "utf8")) as Metafile;
const bundled = new Set([...Object.keys(inputs).flatMap((path) => packageOf(path) ?? []), ...IN_KERNELS]);
const own =
  "longside (GPL-3.0-or-later); its licence is the file LICENSE of the package.\nIt holds parts of:";
const parts = [own, ...[...bundled].sort().map(licenceOf)];
writeFileSync(join(pageFolder(), "licences.txt"), `${parts.join(`\n\n${"-".repeat(72)}\n\n`)}\n`);
rmSync(meta);
