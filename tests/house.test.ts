// The house rules: imports run one way and never in a circle, folders say what they own, files stay short, SQL stays in
// its two folders, errors stand in one table. Each test names what breaks its rule.

import { existsSync, readFileSync, readdirSync } from "node:fs";
import { dirname, join, relative, resolve } from "node:path";

import { describe, expect, it } from "vitest";

import { ERRORS, LongsideError } from "../src/errors.js";
import { PACKAGE } from "../src/places.js";
import { FOLDERS } from "./support.js";

/** Files of src itself, which everyone may use. */
const COMMON = [
  "growing",
  "errors",
  "places",
  "plain-text",
  "processes",
  "read-text",
  "threads",
  "wasm",
  "write-whole",
];

/** Files that may be longer than `LONGEST` lines; kernels may be, too. */
const LONG: Readonly<Record<string, string>> = {
  "src/cli/options.ts": "a table: one entry a command and an option",
  "src/query/language/vocabulary.ts": "a table: one entry a fact",
  "src/query/language/lexicon/mistakes.ts": "a table: one entry a thing that people say",
  "src/query/language/lexicon/players.ts": "a table: one entry a thing that people say",
  "src/query/language/lexicon/places.ts": "a table: one entry a thing that people say",
  "src/query/language/lexicon/idioms.ts": "a table: one entry a thing that people say",
};
const LONGEST = 400;

const files = ["src", "workers", "fixtures"].flatMap((folder) =>
  readdirSync(join(PACKAGE, folder), { recursive: true, encoding: "utf8" })
    .filter((name) => /\.tsx?$/.test(name) && !name.includes("kernel/") && !name.endsWith(".d.ts"))
    .map((name) => join(folder, name)),
);
const textOf = (file: string) => readFileSync(join(PACKAGE, file), "utf8");
/** What a file imports of the project, types included, without the ending of the name. */
const imports = (file: string) =>
  [...textOf(file).matchAll(/(?:from|import\()\s*"(\.[^"]+)"/g)].map(([, path]) =>
    relative(PACKAGE, resolve(PACKAGE, dirname(file), path)).replace(/\.js$/, ""),
  );

describe("the house", () => {
  it.each(files.filter((file) => file.startsWith("src/")))("%s imports from the left only", (file) => {
    const [, folder] = file.split("/");
    const place = FOLDERS.indexOf(folder);
    for (const path of imports(file)) {
      const [top, target] = path.split("/");
      expect(top, `${file} imports ${path}`).toBe("src");
      if (COMMON.includes(target)) continue;
      if (COMMON.includes(folder.replace(".ts", ""))) expect.fail(`${file} imports ${path}`);
      expect(FOLDERS.indexOf(target), `${file} imports ${path}`).toBeLessThanOrEqual(place);
      expect(FOLDERS).toContain(target);
    }
  });

  it("has no circles of imports in src", () => {
    const nameOf = (file: string) => file.replace(/\.tsx?$/, "");
    const graph = new Map(files.map((file) => [nameOf(file), imports(file)]));
    /** All that a file imports, and what that imports, and so on. */
    const reached = (from: string) => {
      const seen = new Set<string>();
      const open = [...(graph.get(from) ?? [])];
      for (let next = open.pop(); next !== undefined; next = open.pop()) {
        if (seen.has(next)) continue;
        seen.add(next);
        open.push(...(graph.get(next) ?? []));
      }
      return seen;
    };
    const reach = new Map([...graph.keys()].map((name) => [name, reached(name)]));
    // two files are in the same circle if each reaches the other
    const circles = [...reach].flatMap(([name, all]) => {
      const circle = [...all].filter((other) => reach.get(other)?.has(name)).sort();
      return circle[0] === name ? [circle.join(" + ")] : [];
    });
    expect(circles).toEqual([]);
  });

  it("says in each folder of src what it owns, in at most fifteen lines", () => {
    const wrong = FOLDERS.filter((folder) => {
      const file = join("src", folder, "README.md");
      return !existsSync(join(PACKAGE, file)) || textOf(file).trimEnd().split("\n").length > 15;
    });
    expect(wrong).toEqual([]);
  });

  it(`has no file above ${LONGEST} lines but kernels and the tables in the list`, () => {
    const long = files
      .map((file) => [file, textOf(file).trimEnd().split("\n").length] as const)
      .filter(([, lines]) => lines > LONGEST);
    expect(long.filter(([file]) => !(file in LONG))).toEqual([]);
    // nothing stands in the list for nothing
    expect(long.map(([file]) => file)).toEqual(expect.arrayContaining(Object.keys(LONG)));
  });

  it("has SQL in the store and the engine of queries only", () => {
    const sql =
      /\bSELECT\s[^;]*?\bFROM\b|\bINSERT\s+(?:OR\s+\w+\s+)?INTO\b|\bUPDATE\s+\w+\s+SET\b|\bDELETE\s+FROM\b/;
    const wrong = files.filter(
      (file) => !/^src\/(?:store|query\/engine)\//.test(file) && sql.test(textOf(file)),
    );
    expect(wrong).toEqual([]);
  });

  it.each(files)("%s opens with its purpose", (file) => {
    const [first, second] = textOf(file).split("\n");
    expect(first.startsWith("#!") ? second : first).toMatch(/^\/\/ \S/);
  });

  it("fills every error's template, and every code is used", () => {
    const sources = files.map(textOf).join("\n");
    for (const [code, [message, hint]] of Object.entries(ERRORS)) {
      expect(sources.replace(/export const ERRORS[\s\S]*?\n}/, ""), code).toContain(`"${code}"`);
      const names = [...`${message} ${hint}`.matchAll(/\{(\w+)\}/g)].map(([, name]) => name);
      const error = new LongsideError(
        code as keyof typeof ERRORS,
        Object.fromEntries(names.map((name) => [name, "x"])),
      );
      expect(`${error.message} ${error.hint}`).not.toMatch(/[{}]/);
    }
  });
});
