// The documentation is tested: README's commands print what it shows, what the documents name exists, and they stay short.
// UPDATE_DOCS=1 writes the outputs anew: read the diff. What the program prints of itself is tested in tests/cli/help.test.ts.

import { readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";

import { beforeAll, describe, expect, it } from "vitest";

import { PACKAGE, gamesFolder } from "../src/places.js";
import { factDrawing } from "../src/cli/words.js";
import { GEOMETRY } from "../src/geometry/facts.js";
import { FOLDERS, longside, temporaryFolder } from "./support.js";

const UPDATE = process.env.UPDATE_DOCS === "1";
const path = (name: string) => join(PACKAGE, name);
const read = (name: string) => readFileSync(path(name), "utf8");

/** Without the colours that a terminal, or the machine of the tests, may call for. */
const plainText = (text: string) => text.replace(/\u001b\[\d+m/g, "").replace(/ +$/gm, "");

const code = (text: string) => `\`${text}\``;

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
  it.each([
    ["README.md", 250],
    ["DEVELOPERS.md", 200],
  ])("%s has at most %i lines", (name, most) => {
    expect(read(name).trimEnd().split("\n").length).toBeLessThanOrEqual(most);
  });
  it("shows pictures that are there", () => {
    const pictures = [...read("README.md").matchAll(/!\[[^\]]+\]\(([^)]+)\)/g)].map(([, name]) => name);
    expect(pictures.length).toBeGreaterThan(0);
    for (const name of pictures) expect(() => read(name), name).not.toThrow();
  });

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
