// `help TOPIC`: everything that the program's tables hold, on a narrow terminal too; and how commands are found.

import { execFileSync } from "node:child_process";
import { writeFileSync } from "node:fs";
import { join } from "node:path";

import { describe, expect, it } from "vitest";

import { COMMANDS, OPTIONS } from "../../src/cli/options.js";
import { BLOCKS } from "../../src/documents/lesson/outline.js";
import { ERRORS } from "../../src/errors.js";
import { KINDS_OF_MOVE } from "../../src/geometry/move-kinds.js";
import { PACKAGE } from "../../src/places.js";
import { standardCatalogue } from "../../src/query/language/catalogue.js";
import { COURSES, FACTS, QUANTIFIERS } from "../../src/query/language/vocabulary.js";
import { longside, temporaryFolder } from "../support.js";

/** What must be found under each topic, whatever lines it is wrapped to. */
const CONTENTS: Record<string, readonly string[]> = {
  options: [
    ...COMMANDS.flatMap(({ name, summary }) => [name, summary]),
    ...Object.values(OPTIONS).flatMap(({ flags, help }) => [flags, help]),
  ],
  "set-ups": standardCatalogue().setUps.flatMap(({ name, also = [], means, known, source }) => [
    name,
    ...also,
    means,
    known,
    source,
  ]),
  errors: Object.entries(ERRORS).flat(2),
  kinds: KINDS_OF_MOVE.flatMap(({ name, meaning }) => [name, meaning]),
  grammar: [
    ...COURSES.flatMap(({ write, meaning }) => [write, meaning]),
    ...Object.entries(QUANTIFIERS).flatMap(([name, { meaning }]) => [name, meaning]),
    ..."= != < <= > >= ~ .. and or not".split(" "),
  ],
  blocks: Object.entries(BLOCKS).flatMap(([name, { meaning, fields }]) => [name, meaning, ...fields]),
  facts: FACTS.flatMap(({ name, meaning, type, values = [] }) => [
    name,
    meaning,
    // kinds have a topic of their own
    ...(type === "kinds" ? [] : values.map((value) => value.name)),
  ]),
};

const unwrapped = (text: string) => text.replace(/\s+/g, " ").trim();

const folder = temporaryFolder();

describe("help", () => {
  it("lists its topics", () => {
    const { status, stdout } = longside(["help"]);
    expect(status).toBe(0);
    for (const topic of Object.keys(CONTENTS)) expect(stdout).toMatch(new RegExp(`^${topic} `, "m"));
  });

  it.each(Object.entries(CONTENTS))("prints %s, 60 columns wide", (topic, contents) => {
    const { status, stdout } = longside(["help", topic], { env: { COLUMNS: "60" } });
    expect(status).toBe(0);
    for (const line of stdout.split("\n")) expect([...line].length, line).toBeLessThanOrEqual(60);
    const text = unwrapped(stdout);
    for (const content of contents) expect(text).toContain(unwrapped(content));
  });

  it("prints the user's own set-ups as well", () => {
    const path = join(folder, "own.yaml");
    writeFileSync(path, "- name: box\n  means: king-rank = 1\n");
    expect(longside(["help", "set-ups", "--set-ups", path]).stdout).toMatch(/^box\s+means: king-rank = 1$/m);
  });

  it.each([
    ["fact", /did you mean facts/],
    ["find", /longside find --help/],
    ["nonsense", /options, set-ups, errors/],
  ])("on %s says what to ask for", (topic, hint) => {
    expect(longside(["help", topic])).toMatchObject({ status: 2, stderr: expect.stringMatching(hint) });
  });
});

describe("commands", () => {
  it("are each run by a module", () => {
    const modules = COMMANDS.map(({ name, module = name }) =>
      join(PACKAGE, "dist", "src", "cli", `${module}.js`),
    );
    const script =
      "const kinds = await Promise.all(process.argv.slice(1).map(async (path) => typeof (await import(path)).run));" +
      "console.log(JSON.stringify(kinds))";
    const told = execFileSync(process.execPath, ["--input-type=module", "-e", script, ...modules], {
      encoding: "utf8",
    });
    expect(JSON.parse(told)).toEqual(modules.map(() => "function"));
  });
});
