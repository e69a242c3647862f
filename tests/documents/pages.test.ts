// Lessons, reports and drawings: what they hold, what they refuse, and that they need nothing from elsewhere.

import { existsSync, readFileSync, readdirSync, writeFileSync } from "node:fs";
import { join } from "node:path";

import { parse as parseCsv } from "csv-parse/sync";
import { parquetMetadata, parquetReadObjects } from "hyparquet";
import { readParquet } from "parquet-wasm/node";
import { beforeAll, describe, expect, it } from "vitest";

import { findBrowser, pdfOf } from "../../src/documents/browser.js";
import { Raw, renderPage } from "../../src/documents/printed-page.js";
import {
  type Diagram,
  boardInWords,
  diagramsSvg,
  readArrows,
  readRings,
} from "../../src/documents/diagram.js";
import { defaultOutline } from "../../src/documents/lesson/default-outline.js";
import { BLOCKS, renderOutline } from "../../src/documents/lesson/outline.js";
import { pngOf } from "../../src/documents/png.js";
import { faultsOf } from "../grammar.js";
import { ZSTD, askDuckDb } from "../parquet-readers.js";
import { indexBundled, jsonLines, longside, temporaryFolder } from "../support.js";

const folder = temporaryFolder();
const db = join(folder, "bundled.db");
beforeAll(() => indexBundled(db));

const isSelfContained = (page: string) =>
  !/<script|<link|<iframe|src\s*=|url\(\s*['"]?http|@import/i.test(page);

/** The texts of paragraphs and captions, without their tags. */
const paragraphsOf = (html: string): string[] =>
  [...html.matchAll(/<(?:p|figcaption)[^>]*>([\s\S]*?)<\/(?:p|figcaption)>/g)]
    .map(([, text]) =>
      text
        .replace(/<[^>]*>/g, "")
        .replaceAll("&quot;", '"')
        .trim(),
    )
    // moves, hints in a row and what a board asks have their own signs
    .filter((text) => /^[A-Z]/.test(text) && /[.!?]$/.test(text));

describe("an outline", () => {
  const filled: string[] = [];
  const render = (text: string) =>
    renderOutline(text, "lesson.md", async ({ name, values, line }) => {
      filled.push(`${name} ${JSON.stringify(values)} ${line}`);
      return `<p>${name}</p>`;
    });

  it("keeps the teacher's text and fills its blocks", async () => {
    const { title, html } = await render(
      "# My lesson\n\nSome *text*, <b>as typed</b>.\n\n```board\nfen: 8/8/8/8/8/8/8/8 w\nrings: [e4, d5]\n```\n\n```pgn\n1. e4\n```\n",
    );
    expect(title).toBe("My lesson");
    expect(html).toContain("<em>text</em>, &lt;b&gt;as typed&lt;/b&gt;");
    expect(html).toContain("<p>board</p>");
    // what is no block of ours stays as it is
    expect(html).toContain('<code class="language-pgn">1. e4');
    expect(filled).toEqual(['board {"fen":"8/8/8/8/8/8/8/8 w","rings":"e4\\nd5"} 5']);
  });

  it("leaves fences alone whose names only objects know", async () => {
    expect((await render("```toString\nx\n```\n")).html).toContain("x");
  });

  it("written for a question with signs of YAML in it reads back as it was", async () => {
    const question = 'event contains "Foo: bar #1" or szen';
    const text = defaultOutline(
      [
        {
          question,
          title: "odd",
          setUp: undefined,
          fen: undefined,
          caption: undefined,
          isWon: false,
          ofPositions: false,
          ofTable: false,
        },
      ],
      true,
    );
    filled.length = 0;
    await render(text);
    const asked = filled.map(
      (said) => (JSON.parse(/\{.*\}/.exec(said)![0]) as { question: string }).question,
    );
    expect(asked.slice(0, 2)).toEqual([question, `(${question}) and outcome = held`]);
  });

  it.each([
    ["```bord\nfen: x\n```", /no block "bord"; did you mean board/],
    ["```board\nfem: x\n```", /no "fem"; did you mean fen/],
    ["```survey\nquestion: [a\n```", /lines of this survey cannot be read/],
    ["```games\n- 3\n```", /takes lines such as "question: …"/],
  ])("says what is wrong with %s, and where", async (text, message) => {
    await expect(render(`A line.\n\n${text}`)).rejects.toThrow(message);
    await expect(render(`A line.\n\n${text}`)).rejects.toMatchObject({
      where: { file: "lesson.md", line: 3 },
    });
  });

  it("is written for any subject with blocks that exist", () => {
    const text = defaultOutline(
      [
        {
          question: "szen",
          title: "Szén",
          setUp: undefined,
          fen: undefined,
          caption: undefined,
          isWon: false,
          ofPositions: true,
          ofTable: true,
        },
        {
          question: "outcome = held",
          title: "held",
          setUp: undefined,
          fen: undefined,
          caption: undefined,
          isWon: false,
          ofPositions: false,
          ofTable: false,
        },
      ],
      true,
    );
    expect(text).toMatch(/^# Szén, held\n\n## Szén\n/);
    const names = [...text.matchAll(/```([\w-]+)/g)].map(([, name]) => name);
    expect(names.length).toBeGreaterThan(4);
    const bare = {
      question: "szen",
      title: "Szén",
      setUp: undefined,
      fen: undefined,
      caption: undefined,
      isWon: false,
      ofPositions: true,
      ofTable: true,
    };
    expect(defaultOutline([bare], false)).not.toMatch(/```(?:games|errors)/);
    for (const name of names) expect(Object.keys(BLOCKS)).toContain(name);
  });
});

describe("a lesson", () => {
  it("is made of a set-up alone, and holds everything it promises", () => {
    const page = join(folder, "lesson.html");
    const outline = join(folder, "outline.md");
    const wanted = longside(["lesson", "second-rank defence", "--db", db, "--write-outline", outline], {
      cwd: folder,
    });
    expect(wanted.status).toBe(0);
    const text = readFileSync(outline, "utf8");
    for (const name of ["practice", "rule", "memory", "key-squares", "tries", "slides", "games", "exercises"])
      expect(text).toContain(`\`\`\`${name}\n`);
    // what asks the whole table has tests of its own, and takes long
    const cut = text
      .replace(/```(?:practice|rule|memory)\n[\s\S]*?```\n/g, "")
      .replace(/(```tries\nfen: .*\n)question: .*\n/, "$1")
      .replaceAll("size: 6", "size: 3\namong: games")
      .replace(/```exercises\n[^`]*pairs[\s\S]*?```\n/, "");
    writeFileSync(outline, cut);
    const { status, stderr } = longside(["lesson", "--outline", outline, "--db", db, "--html", page], {
      cwd: folder,
    });
    expect(stderr).toContain("Written:");
    expect(status).toBe(0);
    const html = readFileSync(page, "utf8");
    expect(isSelfContained(html)).toBe(true);
    expect(html).toContain("<title>Second-rank defence</title>");
    for (const heading of [
      "The rule",
      "Key squares",
      "What the attacker tries",
      "One file over",
      "A game held",
      "A game lost",
      "Exercises",
      "Hints",
      "Solutions",
    ])
      expect(html).toContain(`<h2>${heading}</h2>`);
    // every drawing has a text in its place
    for (const [svg] of html.matchAll(/<svg[^>]*>/g)) expect(svg).toMatch(/aria-label(ledby)?=/);
    // names within drawings are each used once
    const ids = [...html.matchAll(/ id="([^"]+)"/g)].map(([, id]) => id);
    expect(new Set(ids).size).toBe(ids.length);
    // no definition, no column, no path of this machine
    expect(html.replace(/<style>[\s\S]*?<\/style>/, "")).not.toMatch(
      /rook-rank|king-rank|to-move|free-piece/,
    );
    expect(html).not.toContain(folder);
    // the first board stands upright: Black's king in the upper half, White attacks
    const boards = [...html.matchAll(/White: ([^.]*)\. Black: ([^.]*)\./g)];
    expect(boards.length).toBeGreaterThan(4);
    expect(boards[0][1]).toContain("bishop");
    expect(boards[0][2]).toMatch(/king [a-h][5-8]/);
    for (const text of paragraphsOf(html)) expect(faultsOf(text), text).toEqual([]);
  });

  it("keeps what an author adds, and takes the letters and the paper that are asked for", () => {
    const outline = join(folder, "comments.md");
    const page = join(folder, "comments.html");
    const given = "4k3/R7/8/4K3/4B3/8/4r3/8 b - - 0 1";
    writeFileSync(
      outline,
      `# Own\n\n\`\`\`exercises\nquestion: second-rank defence\nsize: 2\namong: games\ncomments:\n  - 2: Look at the corner first.\n\`\`\`\n\n\`\`\`exercises\nfens:\n  - 7k/8/8/8/8/8/8/KR6 w - - 0 1\n  - ${given}; Known since Cochrane.\ncomments:\n  2: The pin holds.\n\`\`\`\n`,
    );
    const run = longside([
      "lesson",
      "--outline",
      outline,
      "--db",
      db,
      "--html",
      page,
      "--paper",
      "letter",
      "--letters",
      "german",
    ]);
    expect(run.stderr).toContain("Written");
    const html = readFileSync(page, "utf8");
    expect(html).toContain("Look at the corner first.");
    // the second of those given, though the first is not taken
    expect(html).toContain("Known since Cochrane. The pin holds.");
    // a position that is not taken is named, with the reason
    expect(html).toContain("7k/8/8/8/8/8/8/KR6 w is another ending.");
    expect(html).toContain("size: letter;");
    expect(html).toMatch(/\bT[a-h][1-8]/);
    expect(html.replace(/<[^>]*>/g, " ")).not.toMatch(/(?<![A-Za-z])R[a-h][1-8](?![A-Za-z0-9])/);
  });

  it("of one's own outline says which block cannot be filled in", () => {
    const outline = join(folder, "own.md");
    const run = (text: string) => {
      writeFileSync(outline, text);
      return longside(["lesson", "--outline", outline, "--db", db, "--html", join(folder, "own.html")]);
    };
    expect(run("# Own\n\n```board\nfen: nonsense\n```\n").stderr).toMatch(/not a position.*own\.md, line 3/);
    expect(run("# Own\n\n```games\nquestion: rok on the long side\n```\n")).toMatchObject({ status: 2 });
    expect(run("```map\n```").stderr).toMatch(/the block "map" cannot be filled in: .*needs a line "fen: …"/);
    // where the endings asked for have too few positions, others make the set
    const few = "question: held szen for 300 moves\nelse: everything\nsize: 3\namong: games\n";
    expect(run(`\`\`\`exercises\n${few}\`\`\`\n`).status).toBe(0);
    expect(readFileSync(join(folder, "own.html"), "utf8").match(/class="solution"/g)).toHaveLength(3);
    // YAML's block of text ends with a line that is none
    const many = "fens: |\n  3k4/r7/3K4/3B4/8/8/8/6R1 b - - 0 1\ncomments: |\n  1: The classic.\n";
    expect(run(`\`\`\`exercises\n${many}\`\`\`\n`).status).toBe(0);
    expect(readFileSync(join(folder, "own.html"), "utf8")).toContain("The classic.");
    expect(
      run(
        "# Own\n\n```board\nfen: 3k4/5R2/3K4/3B4/8/8/4r3/8 w - - 0 1\narrows: f7b7\ncaption: <Philidor>\n```\n",
      ).status,
    ).toBe(0);
    const html = readFileSync(join(folder, "own.html"), "utf8");
    expect(html).toContain("&lt;Philidor&gt;");
    expect(html).not.toContain("<Philidor>");
  });

  it("wants a question or an outline, not both", () => {
    expect(longside(["lesson"]).stderr).toMatch(/needs a question or an outline/);
    expect(longside(["lesson", "Szén", "--outline", "x.md"]).stderr).toMatch(/leave the question out/);
    expect(longside(["lesson", "--outline", join(folder, "none.md")]).stderr).toMatch(/no file or folder/);
  });
});

describe("a report", () => {
  const tables = join(folder, "tables");
  const page = join(folder, "report.html");

  it("is one page, with every table and chart as files as well", () => {
    const { status, stdout } = longside(
      ["report", "--db", db, "--html", page, "--tables", tables, "--from", "second-rank defence"],
      { cwd: folder },
    );
    expect(status).toBe(0);
    expect(stdout).toMatch(/endings; left out: \d+ in duplicate games/);
    const html = readFileSync(page, "utf8");
    expect(isSelfContained(html)).toBe(true);
    expect(html).toContain("longside report");
    for (const title of [
      "Who held",
      "Theory beside practice",
      "How long they hold, and how it ends",
      "Where it goes wrong",
      "Method",
      "Appendix: method and tables",
      "Made from",
    ])
      expect(html).toContain(title);
    expect(html).not.toMatch(/NaN|undefined|\[object/);
    const files = readdirSync(tables);
    for (const name of files.filter((one) => one.endsWith(".csv"))) {
      const rows = parseCsv(readFileSync(join(tables, name)), { columns: true });
      const lines = jsonLines<Record<string, unknown>>(
        readFileSync(join(tables, name.replace("csv", "jsonl")), "utf8"),
      );
      expect(lines.length, name).toBe(rows.length);
    }
    expect(files.filter((name) => name.endsWith(".svg")).length).toBeGreaterThan(8);
    const manifest = JSON.parse(readFileSync(join(tables, "manifest.json"), "utf8")) as {
      files: Record<string, string>;
      sources: { name: string; hash: string }[];
      leftOut: Record<string, number>;
    };
    expect(Object.keys(manifest.files).sort()).toEqual(
      files.filter((name) => name !== "manifest.json").sort(),
    );
    expect(manifest.sources.every(({ hash }) => /^[0-9a-f]{64}$/.test(hash))).toBe(true);
    const told = parseCsv(readFileSync(join(tables, "errors.csv")), { columns: true }) as Record<
      string,
      string
    >[];
    expect(told[0]).toMatchObject({ question: "everything", database: "bundled.db" });
    expect(readFileSync(join(tables, "ends.svg"), "utf8")).toContain(
      "<desc>everything; bundled.db; left out: ",
    );
  });

  it("gives the same bytes for the same command, replaces its own files and leaves others' alone", () => {
    const once = join(folder, "once");
    const make = (question: string) =>
      longside(["report", question, "--db", db, "--html", page, "--tables", once], { cwd: folder });
    const bytes = () =>
      new Map(readdirSync(once).map((name) => [name, readFileSync(join(once, name), "utf8")]));
    make("attacker = white");
    const [first, firstPage] = [bytes(), readFileSync(page, "utf8")];
    make("attacker = white");
    expect(bytes()).toEqual(first);
    expect(readFileSync(page, "utf8")).toBe(firstPage);
    // a report of another question has no time to count, and leaves none of the first one's curves
    expect(first.has("ends.svg")).toBe(true);
    expect(make("outcome = held").status).toBe(0);
    expect(bytes().has("ends.svg")).toBe(false);
    expect(readFileSync(page, "utf8")).toContain("the question selects by “outcome = held”");
    writeFileSync(join(once, "mine.txt"), "x");
    const refused = make("attacker = white");
    expect(refused.status).toBe(2);
    expect(refused.stderr).toMatch(/the folder holds other files, such as mine\.txt/);
    expect(readFileSync(join(once, "mine.txt"), "utf8")).toBe("x");
  });

  it("agrees with count", () => {
    const lines = jsonLines<{ table: string; attacker: string; count: number; of: number }>(
      longside(["report", "--db", db, "--json", "--by", "attacker"]).stdout,
    ).filter(({ table }) => table === "outcome-by-attacker");
    const counted = jsonLines<{ attacker: string; count: number; of: number }>(
      longside([
        "count",
        "outcome != open",
        "--by",
        "attacker",
        "--share",
        "defender held",
        "--db",
        db,
        "--json",
      ]).stdout,
    );
    expect(lines.length).toBe(2);
    lines.forEach(({ attacker, count, of }, n) => expect(counted[n]).toMatchObject({ attacker, count, of }));
  });

  it("refuses set-ups and facts that there are not", () => {
    expect(longside(["report", "--db", db, "--from", "rook on the long side"]).stderr).toMatch(/no set-up/);
    expect(longside(["report", "--db", db, "--by", "ratting"]).stderr).toMatch(/no fact/);
  });
});

describe("a drawing", () => {
  const fen = "3k4/5R2/3K4/3B4/8/8/4r3/8 w - - 0 1";
  const draw = (more: Partial<Diagram>) => diagramsSvg([{ fen, ...more }], 1, "Philidor", "x");

  it("has arrows, rings, the turn and a text", () => {
    const plain = draw({});
    const full = draw({ arrows: readArrows("f7b7, e2-e1"), marks: readRings("d5"), turn: true });
    expect(full.match(/paint-order/g)!.length - (plain.match(/paint-order/g) ?? []).length).toBe(2);
    expect(full.match(/r="43"/g)!.length).toBe(2);
    expect(full.match(/r="20"/g)!.length).toBe(1);
    expect(full).toContain(boardInWords(fen));
    expect(() => readArrows("f7")).toThrow(/an arrow looks like/);
    expect(() => readRings("k9")).toThrow(/a square looks like/);
  });

  it("from Black's side has the corner h8 at the lower left", () => {
    const first = (svg: string) => [...svg.matchAll(/>([a-h1-8])<\/text>/g)].map(([, c]) => c).slice(0, 2);
    const place = (svg: string, c: string) =>
      Number(new RegExp(`<text x="([\\d.]+)"[^>]*>${c}</text>`).exec(svg)![1]);
    expect(first(draw({})).length).toBe(2);
    expect(place(draw({}), "a")).toBeLessThan(place(draw({}), "h"));
    expect(place(draw({ below: "black" }), "a")).toBeGreaterThan(place(draw({ below: "black" }), "h"));
  });

  it("becomes a PNG of the width that is asked for, dark squares and pieces in it", () => {
    const png = pngOf(draw({ turn: true }), 300);
    // PNG (W3C Recommendation, 2003), signature and IHDR
    expect([...png.slice(0, 8)]).toEqual([137, 80, 78, 71, 13, 10, 26, 10]);
    expect(new DataView(png.buffer, png.byteOffset).getUint32(16)).toBe(300);
    expect(png.length).toBeGreaterThan(5000);
  });

  it("is written by the command, and said in words", () => {
    const files = ["d.svg", "d.png"].map((name) => join(folder, name));
    const { status, stdout } = longside([
      "diagram",
      fen,
      "--svg",
      files[0],
      "--png",
      files[1],
      "--rings",
      "d5",
    ]);
    expect(status).toBe(0);
    expect(stdout).toContain("White: rook f7, king d6, bishop d5. Black: king d8, rook e2. White to move.");
    expect(files.every((name) => existsSync(name))).toBe(true);
  });
});

describe("positions as a table", () => {
  const positions = () =>
    jsonLines<{
      fen: string;
      dtm: number | null;
      id: number;
      game: number;
      error: string | null;
      spent: number | null;
    }>(
      longside([
        ...["find", "second-rank defence", "--each", "position", "--db", db, "--leave-out", "nothing"],
        ...["--sort", "file", "--json"],
      ]).stdout,
    );
  const codebook = (path: string) =>
    parseCsv(readFileSync(`${path}.codebook.csv`), { columns: true }) as Record<string, string>[];

  it("in Parquet hold every position that answers, for other readers, with types, manifest and codebook", async () => {
    const path = join(folder, "positions.parquet");
    expect(longside(["find", "second-rank defence", "--db", db, "--data", path]).status).toBe(0);
    const wanted = positions();
    const bytes = readFileSync(path);
    // a reader of another house: Arrow's in Rust
    const batches = readParquet(new Uint8Array(bytes)).recordBatches();
    expect(batches.reduce((sum, { numRows }) => sum + numRows, 0)).toBe(wanted.length);
    const file = new Uint8Array(bytes).buffer;
    const rows = await parquetReadObjects({ file, compressors: ZSTD });
    expect(rows.length).toBe(wanted.length);
    wanted.forEach(({ fen, dtm, id, game, error }, n) =>
      expect(rows[n]).toMatchObject({ fen, dtm, ending: id, game, error }),
    );
    expect(rows.every((row) => String(row["set-ups"]).includes("second-rank defence"))).toBe(true);
    const { schema, key_value_metadata: metadata } = parquetMetadata(file);
    const types = new Map(schema.map(({ name, type }) => [name, type]));
    expect([types.get("dtm"), types.get("year"), types.get("spent")]).toEqual(["INT32", "INT32", "DOUBLE"]);
    const manifest = JSON.parse(metadata!.find(({ key }) => key === "manifest")!.value!) as {
      counted: number;
      database: { signature: string };
    };
    expect(manifest.counted).toBe(wanted.length);
    expect(manifest.database.signature).toMatch(/^[0-9a-f]{64}$/);
    expect(codebook(path).map(({ name }) => name)).toEqual(schema.slice(1).map(({ name }) => name));
    expect(codebook(path).every(({ meaning }) => meaning !== "")).toBe(true);
  });

  it("in Parquet are what a database engine makes of them, in one file as in one for each year", async () => {
    const [file, years] = ["all.parquet", "by-year"].map((name) => join(folder, name));
    const find = ["find", "everything", "--db", db, "--data"];
    expect(longside([...find, file]).status).toBe(0);
    const { status, stderr } = longside([...find, `${years}/`, "--by-year"]);
    expect(status, stderr).toBe(0);
    expect(codebook(years)).toEqual(codebook(file));
    const [one, many] = [`'${file}'`, `read_parquet('${years}/*/*.parquet', hive_partitioning = true)`];
    const count = (from: string) => askDuckDb(`SELECT count(*) AS n, count(year) AS known FROM ${from}`);
    expect(await count(many)).toEqual(await count(one));
    const names = codebook(file).map(({ name }) => `"${name}"`);
    // the year comes from the name of the folder, and so as a wider number
    const row = names.map((name) => (name === '"year"' ? "year::BIGINT" : name)).join(", ");
    for (const [from, less] of [
      [one, many],
      [many, one],
    ])
      expect(await askDuckDb(`SELECT ${row} FROM ${from} EXCEPT ALL SELECT ${row} FROM ${less}`)).toEqual([]);
    const [{ white, plys }] = (await askDuckDb(
      `SELECT count(*) FILTER (attacker = 'white') AS white, max(ply) AS plys FROM ${one} WHERE "only-move" AND dtm > 10`,
    )) as [{ white: string; plys: number }];
    const found = jsonLines<{ attacker: string; ply: number }>(
      longside([
        ...[
          "find",
          "only-move, dtm > 10",
          "--each",
          "position",
          "--leave-out",
          "nothing",
          "--db",
          db,
          "--json",
        ],
      ]).stdout,
    );
    expect(Number(white)).toBe(found.filter(({ attacker }) => attacker === "white").length);
    expect(plys).toBe(Math.max(...found.map(({ ply }) => ply)));
    // nothing is written among what is there already
    const again = longside([...find, years, "--by-year"]);
    expect([again.status, again.stderr]).toEqual([2, expect.stringMatching(/--data: .* is there already/)]);
  });

  it("by year needs a folder to write", () => {
    const by = (...rest: string[]) => longside(["find", "everything", "--db", db, "--by-year", ...rest]);
    expect(by().stderr).toContain("--by-year: it says how --data is written");
    expect(by("--data", join(folder, "x.csv")).stderr).toContain("no CSV");
  });

  it("in CSV hold the same", () => {
    const path = join(folder, "positions.csv");
    expect(longside(["find", "second-rank defence", "--db", db, "--data", path]).status).toBe(0);
    const rows = parseCsv(readFileSync(path), { columns: true }) as Record<string, string>[];
    const wanted = positions();
    expect(rows.map(({ fen }) => fen)).toEqual(wanted.map(({ fen }) => fen));
    expect(Object.keys(rows[0])).toEqual(codebook(path).map(({ name }) => name));
  });
});

describe("PDF", () => {
  const pagesOf = (pdf: Uint8Array) =>
    Buffer.from(pdf)
      .toString("latin1")
      .split(/\/Type \/Page\b/).length - 1;
  const browser = (() => {
    try {
      return findBrowser();
    } catch {
      return undefined;
    }
  })();

  it.skipIf(browser === undefined)("is printed by an installed browser", () => {
    const path = join(folder, "sheet.pdf");
    const { status, stderr } = longside(["exercises", "--size", "12", "--db", db, "--pdf", path]);
    expect(stderr).toContain(`Written: ${path}`);
    expect(status).toBe(0);
    expect(readFileSync(path).subarray(0, 5).toString()).toBe("%PDF-");
    // twelve boards with their hints fill a page, their solutions the next
    expect(pagesOf(readFileSync(path))).toBe(2);
  });

  it.skipIf(browser === undefined)("is set closer where that saves a page", async () => {
    const lines = (count: number) =>
      renderPage({ title: "Lines", command: "x", body: Raw({ html: "<p>A line.</p>".repeat(count) }) });
    expect(pagesOf(await pdfOf(lines(32), "lines.pdf"))).toBe(1);
    expect(pagesOf(await pdfOf(lines(40), "lines.pdf"))).toBe(2);
  });

  it("says what made a page at the foot of its first sheet, where it fills none by itself", () => {
    const pageBy = (command: string) =>
      renderPage({ title: "T", command, body: Raw({ html: "<p>A line.</p>" }) });
    const foot = (command: string) => /@bottom-left \{ content: "([^"]*)"/.exec(pageBy(command))![1];
    expect(foot("longside lesson Szén --html /lessons/of-mine/szen.html")).toMatch(
      /^Made by longside \S+ with longside lesson Szén --html szen.html$/,
    );
    expect(foot('longside lesson "rear pin\n or Szén"')).toMatch(/lesson \\22 rear pin or Szén\\22 $/);
    const long = `longside find "${"won and ".repeat(100)}lost"`;
    expect(foot(long)).toMatch(/won and …$|won …$/);
    expect(foot(long).length).toBeLessThan(320);
    // where it is cut short the page itself has the whole
    expect(pageBy(long)).toContain(`${"won and ".repeat(100)}lost`);
    expect(pageBy("x")).toContain("@media print { footer { display: none; }");
  });

  it("keeps a move beside its number, in moves of any language, and changes no other text", () => {
    const html = renderPage({
      title: "T",
      command: "x",
      body: Raw({ html: "<p>1. Rf4 Re8 12... Tb8 9. ♖d2: mate in 9. Rook wins. <code>3. Ke4</code></p>" }),
    });
    expect(html).toContain(
      "1.\u00a0Rf4 Re8 12...\u00a0Tb8 9.\u00a0♖d2: mate in 9. Rook wins. <code>3. Ke4</code>",
    );
  });

  it("without a browser says what to do", () => {
    const { status, stderr } = longside(
      ["exercises", "--size", "2", "--db", db, "--pdf", join(folder, "no.pdf")],
      {
        env: { LONGSIDE_BROWSER: join(folder, "none") },
      },
    );
    expect(status).toBe(2);
    expect(stderr).toMatch(/no browser to print with[\s\S]*LONGSIDE_BROWSER/);
  });
});
