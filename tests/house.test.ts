// The house rules: imports run one way, errors and options stand in one table each, no unfinished names.

import { readFileSync, readdirSync } from "node:fs";
import { dirname, join, relative, resolve } from "node:path";

import { describe, expect, it } from "vitest";

import { ERRORS, LongsideError } from "../src/errors.js";
import { PACKAGE } from "../src/places.js";
import { FOLDERS } from "./support.js";

/** Files of src itself, which everyone may use. */
const COMMON = ["errors", "places", "threads", "wasm"];

const files = ["src", "workers", "fixtures"].flatMap((folder) =>
  readdirSync(join(PACKAGE, folder), { recursive: true, encoding: "utf8" })
    .filter((name) => /\.tsx?$/.test(name) && !name.includes("kernel/") && !name.endsWith(".d.ts"))
    .map((name) => join(folder, name)),
);
const imports = (file: string) =>
  [...readFileSync(join(PACKAGE, file), "utf8").matchAll(/(?:from|import\()\s*"(\.[^"]+)"/g)].map(
    ([, path]) => relative(PACKAGE, resolve(PACKAGE, dirname(file), path)).replace(/\.js$/, ""),
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

  it.each(files)("%s opens with its purpose", (file) => {
    const [first, second] = readFileSync(join(PACKAGE, file), "utf8").split("\n");
    expect(first.startsWith("#!") ? second : first).toMatch(/^\/\/ \S/);
  });

  it("fills every error's template, and every code is used", () => {
    const sources = files.map((file) => readFileSync(join(PACKAGE, file), "utf8")).join("\n");
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
