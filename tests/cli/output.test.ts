// Result files: whole or not there, and nothing left beside them.

import { mkdirSync, readFileSync, readdirSync, symlinkSync, writeFileSync } from "node:fs";
import { join } from "node:path";

import { describe, expect, it } from "vitest";

import { writeResult } from "../../src/cli/output.js";
import { temporaryFolder } from "../support.js";

describe("a result file", () => {
  const folder = temporaryFolder();

  it("takes the place of the old one, in a folder that is made", () => {
    const path = join(folder, "new", "page.html");
    writeResult(path, "one");
    writeResult(path, Uint8Array.of(0x74, 0x77, 0x6f));
    expect(readFileSync(path, "utf8")).toBe("two");
    expect(readdirSync(join(folder, "new"))).toEqual(["page.html"]);
  });

  it("is written where a link leads", () => {
    const path = join(folder, "real.svg");
    writeFileSync(path, "old");
    symlinkSync(path, join(folder, "link.svg"));
    writeResult(join(folder, "link.svg"), "new");
    expect(readFileSync(path, "utf8")).toBe("new");
  });

  it("may be no file at all", () => {
    expect(() => writeResult("/dev/null", "text")).not.toThrow();
  });

  it("that cannot be written leaves nothing behind", () => {
    const place = join(folder, "taken");
    mkdirSync(place);
    expect(() => writeResult(place, "text")).toThrow(/cannot write/);
    writeFileSync(join(folder, "file"), "");
    expect(() => writeResult(join(folder, "file", "below"), "text")).toThrow(/cannot write/);
    expect(readdirSync(folder).sort()).toEqual(["file", "link.svg", "new", "real.svg", "taken"]);
  });
});
