// Damaged, truncated, foreign and older table files are recognised, never trusted.

import { copyFileSync, readFileSync, readdirSync, rmSync, truncateSync, writeFileSync } from "node:fs";
import { join } from "node:path";

import { beforeEach, describe, expect, it } from "vitest";

import { parseMaterial } from "../../src/chess/material.js";
import { cacheFolder } from "../../src/places.js";
import { buildTables, missingHalves } from "../../src/tablebase/build.js";
import { TableFile, tableFile } from "../../src/tablebase/table-file.js";
import { halfNamed } from "../../src/tablebase/half.js";
import { Tables } from "../../src/tablebase/tables.js";
import { temporaryFolder } from "../support.js";

const folder = temporaryFolder();
const material = parseMaterial("R v R");
const half = halfNamed("R-beats-R");
const path = tableFile(folder, half);

beforeEach(() => {
  for (const name of readdirSync(cacheFolder())) {
    if (/^(R-beats-K|R-beats-R)\.table$/.test(name))
      copyFileSync(join(cacheFolder(), name), join(folder, name));
  }
});

const patch = (at: number, byte: number) => {
  const bytes = readFileSync(path);
  bytes[at] = byte;
  writeFileSync(path, bytes);
};

describe("table files", () => {
  it.each([
    [
      "foreign",
      () => writeFileSync(path, "not a table at all, but long enough to be read as one, surely so"),
    ],
    ["empty", () => writeFileSync(path, "")],
    ["cut short", () => truncateSync(path, 5000)],
    ["of another version", () => patch(8, 99)],
    ["damaged in the head", () => patch(60, 0)],
    ["another half's", () => copyFileSync(join(folder, "R-beats-K.table"), path)],
  ])("that are %s count as missing, and are built again", async (_, spoil) => {
    spoil();
    expect(missingHalves(folder, [material]).map((one) => one.name)).toEqual(["R-beats-R"]);
    expect(() => new Tables(material, folder)).toThrow(/have not been built/);
    await buildTables([material], { folder, threads: 1 });
    expect(missingHalves(folder, [material])).toEqual([]);
    expect(readFileSync(path).equals(readFileSync(tableFile(cacheFolder(), half)))).toBe(true);
  });

  it("that are damaged in a block are reported when the block is read", () => {
    patch(readFileSync(path).length - 20, 0);
    const file = new TableFile(path, half);
    expect(() => {
      for (let block = 0; block < file.blocks; ++block)
        file.readWins(block, new Uint8Array(file.blocks * 512), block * 512);
    }).toThrow(/block .*/);
    file.close();
    expect(missingHalves(folder, [material])).toEqual([]);
  });

  it("that are damaged in a block are found by a closer look, and built again", async () => {
    patch(readFileSync(path).length - 20, 0);
    expect(missingHalves(folder, [material], "blocks").map((one) => one.name)).toEqual(["R-beats-R"]);
    expect(await buildTables([material], { folder, threads: 1 })).toEqual(["R-beats-R"]);
    expect(readFileSync(path).equals(readFileSync(tableFile(cacheFolder(), half)))).toBe(true);
  });

  it("of builds that were killed are removed, those of running builds are not", async () => {
    writeFileSync(`${path}.${2 ** 22 + 12345}.part`, "half a table");
    writeFileSync(`${path}.${process.ppid}.part`, "half a table");
    truncateSync(path, 5000);
    await buildTables([material], { folder, threads: 1 });
    const parts = readdirSync(folder).filter((name) => name.endsWith(".part"));
    expect(parts).toEqual([`R-beats-R.table.${process.ppid}.part`]);
    rmSync(join(folder, parts[0]));
  });

  it("leave nothing under another name", () => {
    expect(readdirSync(folder).filter((name) => name.endsWith(".part"))).toEqual([]);
  });
});
