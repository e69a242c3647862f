// Results that are remembered between runs, as JSON with a checksum: a changed digit is worked out again, not told as theory.

import { createHash } from "node:crypto";
import { existsSync, mkdirSync, readFileSync } from "node:fs";
import { dirname } from "node:path";

import { writeWhole } from "../write-whole.js";

const sealOf = (text: string) => createHash("sha256").update(text).digest("hex");

/** What was remembered at a path; undefined where there is nothing, or not what was written. */
export function readSealed(path: string): unknown {
  try {
    if (!existsSync(path)) return undefined;
    const text = readFileSync(path, "utf8");
    const end = text.indexOf("\n");
    return text.slice(0, end) === sealOf(text.slice(end + 1)) ? JSON.parse(text.slice(end + 1)) : undefined;
  } catch {
    return undefined;
  }
}

/** Remembers a result. Throws where it cannot be written. */
export function writeSealed(path: string, value: unknown): void {
  const text = JSON.stringify(value);
  mkdirSync(dirname(path), { recursive: true });
  writeWhole(path, `${sealOf(text)}\n${text}`);
}
