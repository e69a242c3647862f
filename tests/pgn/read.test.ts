// Files as people keep them: packed in every way, cut short, damaged, in zips and in UTF-16. Packed here by other
// programs than those that unpack: Node's zlib, zstd's own compressor, Python's bz2 and zipfile.

import { spawnSync } from "node:child_process";
import { mkdirSync, readFileSync, symlinkSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { gzipSync } from "node:zlib";

import { afterAll, describe, expect, it } from "vitest";
import { compress } from "zstd-napi";

import { randomNumbers } from "../../src/chess/random.js";
import { findGames } from "../../src/pgn/scan/game-finder.js";
import { FileReader, type FoundFile, findFiles } from "../../src/pgn/files/find.js";
import { gamesFolder } from "../../src/places.js";
import { temporaryFolder } from "../support.js";

const folder = temporaryFolder();
const reader = new FileReader();
afterAll(() => reader.close());

const text = readFileSync(join(gamesFolder(), "winter-club-cup-2024.pgn"));
/** Some twelve megabytes, several blocks, no two copies alike so that they do not pack to nothing. */
const long = Buffer.concat(
  Array.from({ length: Math.ceil((12 << 20) / text.length) }, (_, copy) => {
    const random = randomNumbers(copy + 1);
    return Buffer.from(
      text.toString("latin1").replace(/\d/g, () => String(Math.floor(random() * 10))),
      "latin1",
    );
  }),
);
function python(code: string, input: Uint8Array): Buffer {
  const { status, stdout, stderr } = spawnSync("python3", ["-c", code], { input, maxBuffer: 1 << 28 });
  if (status !== 0) throw new Error(stderr.toString());
  return stdout;
}
const bzip2 = (bytes: Uint8Array) =>
  python("import bz2,sys; sys.stdout.buffer.write(bz2.compress(sys.stdin.buffer.read()))", bytes);

/** Everything a file holds, block by block, and what went wrong. */
async function read(file: FoundFile) {
  const blocks = reader.blocks(file);
  const parts: Uint8Array[] = [];
  let offset = 0;
  let fault: unknown;
  try {
    for await (const block of blocks) {
      expect(block.offset).toBe(offset);
      offset += block.bytes.length;
      parts.push(block.bytes);
    }
  } catch (thrown) {
    fault = thrown;
  }
  return { bytes: Buffer.concat(parts), parts: parts.length, fault };
}

async function only(name: string, bytes: Uint8Array): Promise<FoundFile> {
  const path = join(folder, name);
  writeFileSync(path, bytes);
  const { files, unreadable } = await findFiles([path]);
  expect(unreadable).toEqual([]);
  expect(files).toHaveLength(1);
  return files[0];
}

const half = long.length >> 1;
// a frame to be skipped: its magic number, its length, its bytes (RFC 8878, 3.1.2)
const skippable = Buffer.from([0x5a, 0x2a, 0x4d, 0x18, 3, 0, 0, 0, 1, 2, 3]);
const PACKED: [string, () => Buffer][] = [
  ["plain", () => long],
  ["gzip", () => gzipSync(long)],
  [
    "gzip of several members",
    () => Buffer.concat([gzipSync(long.subarray(0, half)), gzipSync(long.subarray(half))]),
  ],
  ["zstd", () => Buffer.from(compress(long))],
  [
    "zstd of several frames, one of them to be skipped",
    () =>
      Buffer.concat([skippable, compress(long.subarray(0, half)), skippable, compress(long.subarray(half))]),
  ],
  ["zstd of a large window", () => Buffer.from(compress(long, { compressionLevel: 19, windowLog: 27 }))],
  ["bzip2", () => bzip2(long)],
  [
    "bzip2 of several streams",
    () => Buffer.concat([bzip2(long.subarray(0, half)), bzip2(long.subarray(half))]),
  ],
];

describe("a file", () => {
  // the name says nothing: what a file is, its bytes tell
  it.each(PACKED)("%s is read as it was, in blocks", async (name, pack) => {
    const found = await read(await only(`${name.replace(/\W/g, "-")}.txt`, pack()));
    expect(found.fault).toBeUndefined();
    expect(found.bytes.equals(long)).toBe(true);
    expect(found.parts).toBeGreaterThan(2);
  });

  it.each(PACKED.slice(1))(
    "%s, cut short, gives what comes before, and says where it ends",
    async (name, pack) => {
      const whole = pack();
      const cut = Math.floor(whole.length * 0.7);
      const found = await read(await only(`${name.replace(/\W/g, "-")}-short.txt`, whole.subarray(0, cut)));
      expect(found.fault).toMatchObject({ code: "damaged-input", where: { byte: cut } });
      expect(long.subarray(0, found.bytes.length).equals(found.bytes)).toBe(true);
      // a block of bzip2 holds 900,000 bytes, a frame's block of zstd 128 KB
      expect(found.bytes.length).toBeGreaterThan(
        /several|large/.test(name) ? half - (1 << 20) : 0.6 * long.length,
      );
    },
  );

  it.each(PACKED.filter(([name]) => /^(gzip|zstd|bzip2)$/.test(name)))(
    "%s, damaged inside, gives games before the damage",
    async (name, pack) => {
      const damaged = pack();
      damaged.fill(0x55, Math.floor(damaged.length * 0.6), Math.floor(damaged.length * 0.6) + 400);
      const found = await read(await only(`${name}-damaged.txt`, damaged));
      expect(found.fault).toMatchObject({
        code: "damaged-input",
        where: { byte: expect.any(Number) as number },
      });
      expect(found.bytes.length).toBeGreaterThan(0.3 * long.length);
      let games = 0;
      findGames(found.bytes, () => ++games);
      expect(games).toBeGreaterThan(500);
    },
  );

  it("in UTF-16 is read as UTF-8", async () => {
    const wide = Buffer.from(`\ufeff${text.toString("utf8")}`, "utf16le");
    for (const [name, bytes] of [
      ["le", wide],
      ["be", Buffer.from(wide).swap16()],
      ["packed", gzipSync(wide)],
    ] as const) {
      expect((await read(await only(`utf16-${name}.pgn`, bytes))).bytes.equals(text), name).toBe(true);
    }
  });

  it.each([
    ["xz", Buffer.from([0xfd, 0x37, 0x7a, 0x58, 0x5a, 0, 0])],
    ["tar", Buffer.concat([Buffer.alloc(257), Buffer.from("ustar"), Buffer.alloc(300)])],
    ["an SQLite database", Buffer.from("SQLite format 3\0 and more")],
  ])("that is %s is refused by its name", async (kind, bytes) => {
    const path = join(folder, "foreign.pgn");
    writeFileSync(path, bytes);
    const { files, unreadable } = await findFiles([path]);
    expect(files).toEqual([]);
    expect(unreadable[0].message).toContain(`is packed (${kind})`);
  });
});

describe("a zip", () => {
  const zip = join(folder, "club.zip");
  const make = `
import zipfile,sys
with zipfile.ZipFile(${JSON.stringify(zip)}, "w", zipfile.ZIP_DEFLATED) as z:
    data = sys.stdin.buffer.read()
    z.writestr("2024/winter.pgn", data)
    z.writestr("readme.txt", b"no games here")
    z.writestr("autumn.PGN", data[:len(data)//2], zipfile.ZIP_STORED)
`;

  it("is read member by member, each a file of its own", async () => {
    python(make, text);
    const { files } = await findFiles([zip]);
    expect(files.map((file) => file.name)).toEqual([join(zip, "2024/winter.pgn"), join(zip, "autumn.PGN")]);
    const [winter, autumn] = [await read(files[0]), await read(files[1])];
    expect(winter.bytes.equals(text)).toBe(true);
    expect(autumn.bytes.equals(text.subarray(0, text.length >> 1))).toBe(true);
  });

  it("that is damaged is told, the other files of the folder are read", async () => {
    const place = join(folder, "zips");
    mkdirSync(place);
    python(make, text);
    writeFileSync(join(place, "broken.zip"), readFileSync(zip).subarray(0, 5000));
    writeFileSync(join(place, "good.pgn"), text);
    const { files, unreadable } = await findFiles([place]);
    expect(files.map((file) => file.name)).toEqual(["good.pgn"]);
    expect(unreadable.map((fault) => fault.code)).toEqual(["damaged-input"]);
  });

  it("with two members of one name, a bad name and an encrypted one gives each good one and tells the others", async () => {
    const path = join(folder, "odd.zip");
    python(
      `
import sys,warnings,zipfile
warnings.simplefilter("ignore")
data = sys.stdin.buffer.read()
with zipfile.ZipFile(${JSON.stringify(path)}, "w", zipfile.ZIP_DEFLATED) as z:
    z.writestr("a.pgn", data)
    z.writestr("../b.pgn", data)
    z.writestr("a.pgn", data[:1000])
    z.writestr("locked.pgn", data)
raw = bytearray(open(${JSON.stringify(path)}, "rb").read())
entry = raw.rindex(b"PK\x01\x02")
raw[entry + 8] |= 1
open(${JSON.stringify(path)}, "wb").write(raw)
`,
      text,
    );
    const { files, unreadable } = await findFiles([path]);
    expect(files.map(({ member }) => member)).toEqual(["a.pgn", "a.pgn (2)", "locked.pgn"]);
    expect(unreadable.map(({ code }) => code)).toEqual(["not-readable"]);
    expect((await read(files[0])).bytes.equals(text)).toBe(true);
    expect((await read(files[1])).bytes.equals(text.subarray(0, 1000))).toBe(true);
    expect((await read(files[2])).fault).toMatchObject({ code: "damaged-input" });
    expect((await read(files[0])).fault).toBeUndefined();
  });

  it("whose member is damaged gives what comes before", async () => {
    python(make, text);
    const bytes = readFileSync(zip);
    bytes.fill(0, 30_000, 30_100);
    writeFileSync(join(folder, "inside.zip"), bytes);
    const { files } = await findFiles([join(folder, "inside.zip")]);
    const found = await read(files[0]);
    expect(found.fault).toMatchObject({ code: "damaged-input" });
    expect(found.bytes.subarray(0, 50_000).equals(text.subarray(0, 50_000))).toBe(true);
  });
});

describe("a folder", () => {
  it("is searched for names that say games, in a fixed order; what cannot be looked at is told", async () => {
    const place = join(folder, "place");
    mkdirSync(join(place, "b"), { recursive: true });
    for (const name of ["b/two.pgn.gz", "one.PGN", "notes.txt", "b/three.pgn.zst"]) {
      const bytes = name.endsWith("gz")
        ? gzipSync(text)
        : name.endsWith("zst")
          ? Buffer.from(compress(text))
          : text;
      writeFileSync(join(place, name), bytes);
    }
    symlinkSync(join(folder, "nowhere"), join(place, "dangling.pgn"));
    const { files, unreadable } = await findFiles([place]);
    expect(files.map((file) => [file.name, file.packing])).toEqual([
      ["b/three.pgn.zst", "zstd"],
      ["b/two.pgn.gz", "gzip"],
      ["one.PGN", "plain"],
    ]);
    expect(unreadable.map((fault) => fault.where.file)).toEqual([join(place, "dangling.pgn")]);
  });

  it("without games, or that is not there, is an error", async () => {
    mkdirSync(join(folder, "bare"));
    await expect(findFiles([join(folder, "bare")])).rejects.toMatchObject({ code: "no-games-found" });
    await expect(findFiles([join(folder, "not-there")])).rejects.toMatchObject({ code: "no-such-path" });
  });
});
