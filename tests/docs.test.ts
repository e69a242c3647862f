// The documentation is tested: README's commands print what it shows, and the tables in README.md and
// DEVELOPERS.md are those of the code. UPDATE_DOCS=1 writes them anew: read the diff.

import { readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";

import { beforeAll, describe, expect, it } from "vitest";

import { COMMANDS, OPTIONS } from "../src/cli/options.js";
import { ERRORS } from "../src/errors.js";
import { PACKAGE, gamesFolder } from "../src/places.js";
import { canonicalName, standardCatalogue } from "../src/query/language/catalogue.js";
import { factDrawing } from "../src/cli/words.js";
import { GEOMETRY } from "../src/geometry/facts.js";
import { KINDS_OF_MOVE } from "../src/geometry/move-kinds.js";
import { COURSES, FACTS } from "../src/query/language/vocabulary.js";
import { BLOCKS } from "../src/documents/lesson/outline.js";
import { FOLDERS, longside, temporaryFolder } from "./support.js";

const UPDATE = process.env.UPDATE_DOCS === "1";
const path = (name: string) => join(PACKAGE, name);
const read = (name: string) => readFileSync(path(name), "utf8");

/** Without the colours that a terminal, or the machine of the tests, may call for. */
const plainText = (text: string) => text.replace(/\u001b\[\d+m/g, "").replace(/ +$/gm, "");

const row = (...cells: string[]) => `| ${cells.map((cell) => cell.replaceAll("|", "\\|")).join(" | ")} |`;
const table = (head: string[], rows: string[][]) =>
  [row(...head), row(...head.map(() => "---")), ...rows.map((cells) => row(...cells))].join("\n");
const code = (text: string) => `\`${text}\``;

const TABLES: Record<string, Record<string, string>> = {
  "README.md": {
    "set-ups": table(
      ["set-up", "also called", "definition", "what is known"],
      standardCatalogue().setUps.map((one) => [
        code(canonicalName(one.name)),
        (one.also ?? []).join(", "),
        code(one.means),
        `${one.known} (${one.source})`,
      ]),
    ),
    courses: table(
      ["write", "meaning"],
      COURSES.map(({ write, meaning }) => [code(write), meaning]),
    ),
    blocks: table(
      ["block", "what is put in its place", "lines in it"],
      Object.entries(BLOCKS).map(([name, { meaning, fields }]) => [
        code(name),
        meaning,
        fields.map((field) => code(field)).join(" "),
      ]),
    ),
    commands: `${table(
      ["command", "what it does", "options"],
      COMMANDS.map((one) => [
        code(`${one.name} ${one.arguments ?? ""}`.trim()),
        one.summary,
        one.options.map((name) => code(OPTIONS[name].flags.split(" ")[0])).join(" "),
      ]),
    )}\n\n${table(
      ["option", "meaning"],
      Object.values(OPTIONS).map(({ flags, help }) => [code(flags), help]),
    )}`,
  },
  "DEVELOPERS.md": {
    facts: table(
      ["fact", "about", "takes", "meaning"],
      FACTS.map((fact) => [
        code(fact.name),
        fact.scope,
        (fact.type === "kinds" ? "a kind of move" : fact.values?.map((value) => value.name).join(", ")) ??
          (fact.type === "flag" ? "yes, no" : (fact.unit ?? fact.type)),
        fact.meaning,
      ]),
    ),
    kinds: table(
      ["kind of move", "meaning"],
      KINDS_OF_MOVE.map(({ name, meaning }) => [code(name), meaning]),
    ),
    errors: table(
      ["code", "message", "what to do"],
      Object.entries(ERRORS).map(([name, [message, hint]]) => [code(name), message, hint]),
    ),
  },
};

describe.each(Object.entries(TABLES))("%s", (name, tables) => {
  it.each(Object.entries(tables))("has the table of %s as the code has it", (title, wanted) => {
    const pattern = new RegExp(`(<!-- ${title} -->\n)([\\s\\S]*?)(<!-- end -->)`);
    const text = read(name);
    expect(text).toMatch(pattern);
    if (UPDATE)
      writeFileSync(
        path(name),
        text.replace(pattern, (_, open: string, __, close: string) => `${open}\n${wanted}\n\n${close}`),
      );
    expect(pattern.exec(read(name))![2].trim()).toBe(wanted);
  });
});

describe("src/geometry/FACTS.md", () => {
  it("draws every fact of the geometry", () => {
    const wanted = `# Facts of the geometry

Each fact with a position that has the value named first, and one that has not. In the frame rank 1 is the edge nearest to the defender's king, which stands on files a to d; the attacker is White here. Made from \`src/geometry/facts.ts\` and \`fixtures/fact-examples.csv\` by \`UPDATE_DOCS=1 npx vitest run tests/docs.test.ts\`.

${GEOMETRY.map(({ name, meaning }) => `## ${name}\n\n${meaning}.\n\n\`\`\`text\n${plainText(factDrawing(name)!)}\n\`\`\`\n`).join("\n")}`;
    if (UPDATE) writeFileSync(path("src/geometry/FACTS.md"), wanted);
    expect(read("src/geometry/FACTS.md")).toBe(wanted);
  });
});

describe("README.md", () => {
  const folder = temporaryFolder();
  beforeAll(() => {
    expect(longside(["index", gamesFolder(), "--db", "demo.db"], { cwd: folder }).status).toBe(0);
  });

  const PREFIX = "$ npm run -s longside -- ";
  const blocks = [...read("README.md").matchAll(/```console\n(\$ [^\n]*)\n([\s\S]*?)```/g)];

  /** Splits a command line the simple way: double quotes and spaces. */
  const words = (line: string) =>
    [...line.matchAll(/"([^"]*)"|(\S+)/g)].map(([, quoted, bare]) => quoted ?? bare);

  it("has examples", () => expect(blocks.length).toBeGreaterThan(5));

  it.each(blocks.map(([, command]) => command))("%s", (command) => {
    expect(command.startsWith(PREFIX)).toBe(true);
    // files of the package are named from its folder, the database is made elsewhere
    const args = words(command.slice(PREFIX.length)).map((word) =>
      word.startsWith("fixtures/") ? path(word) : word,
    );
    const { stdout, stderr, status } = longside(args, { cwd: folder });
    // what only writes files tells so on standard error
    const printed = status === 2 || stdout === "" ? stderr : stdout;
    expect(printed.trim()).not.toBe("");
    if (UPDATE) {
      const text = read("README.md");
      const at = text.indexOf(`\`\`\`console\n${command}\n`) + `\`\`\`console\n${command}\n`.length;
      writeFileSync(
        path("README.md"),
        `${text.slice(0, at)}${printed.trimEnd()}\n${text.slice(text.indexOf("```", at))}`,
      );
    }
    const shown = read("README.md").split(`\`\`\`console\n${command}\n`)[1].split("```")[0];
    expect(printed.trimEnd()).toBe(shown.trimEnd());
  });

  it("names no script that package.json does not have", () => {
    const { scripts } = JSON.parse(read("package.json")) as { scripts: Record<string, string> };
    for (const name of ["README.md", "DEVELOPERS.md"]) {
      for (const [, script] of read(name).matchAll(/npm (?:run )?(?:-s )?([a-z]+)/g)) {
        if (["ci", "install", "run", "pack"].includes(script)) continue;
        expect(Object.keys(scripts), `${name}: npm ${script}`).toContain(script);
      }
    }
  });
});

describe("DEVELOPERS.md", () => {
  it("names every folder of the house and every dependency", () => {
    const text = read("DEVELOPERS.md");
    const { dependencies, devDependencies } = JSON.parse(read("package.json")) as Record<
      string,
      Record<string, string>
    >;
    for (const name of Object.keys({ ...dependencies, ...devDependencies }))
      expect(text, name).toContain(code(name));
    for (const folder of FOLDERS) {
      expect(text).toContain(code(`src/${folder}`));
    }
  });
  it("names only files that exist", () => {
    for (const [, file] of read("DEVELOPERS.md").matchAll(
      /`((?:src|tests|fixtures|workers)\/[\w./-]+\.\w+)`/g,
    )) {
      expect(() => read(file), file).not.toThrow();
    }
  });
});
