// Results that are remembered between runs, as JSON or bytes with a checksum: a changed digit is worked out again, not told as
// theory. And the key that names what a result was worked out from.

import { createHash } from "node:crypto";
import { existsSync, mkdirSync, readFileSync } from "node:fs";
import { dirname } from "node:path";

import { SCHEMA_VERSION } from "../store/schema.js";
import { FORMAT_VERSION } from "../tablebase/table-file.js";
import { writeWhole } from "../write-whole.js";

/** A key for what a result was worked out from; another schema may compute facts another way. */
export const keyOf = (text: string): string =>
  createHash("sha256").update(`${FORMAT_VERSION} ${SCHEMA_VERSION} ${text}`).digest("hex").slice(0, 24);

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

/** What is remembered at a path, or what is worked out now and remembered there; where it cannot be written it will be worked out again. */
export async function remembered<Result>(
  path: string,
  workOut: () => Result | Promise<Result>,
): Promise<Result> {
  const known = readSealed(path) as Result | undefined;
  if (known !== undefined) return known;
  const found = await workOut();
  try {
    writeSealed(path, found);
  } catch {
    // nobody is told: the answer is the same
  }
  return found;
}

/** Bytes that were remembered at a path under a name of 16 letters; undefined where there are none, or not what was written. */
export function readSealedBytes(path: string, name: string): Uint8Array | undefined {
  if (!existsSync(path)) return undefined;
  const bytes = readFileSync(path);
  const head = name.length;
  const body = bytes.subarray(head + SUM);
  const whole =
    bytes.subarray(0, head).toString() === name && sumOf(body).equals(bytes.subarray(head, head + SUM));
  return whole ? body : undefined;
}

/** Remembers bytes: their name, their SHA-256, and they themselves. Throws where they cannot be written. */
export function writeSealedBytes(path: string, name: string, body: Uint8Array): void {
  mkdirSync(dirname(path), { recursive: true });
  writeWhole(path, Buffer.concat([Buffer.from(name), sumOf(body), body]));
}

const SUM = 32;
const sumOf = (body: Uint8Array) => createHash("sha256").update(body).digest();
