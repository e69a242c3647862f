// One number that says "behaviour unchanged": the signature of all that the bundled games give when they are indexed.
// A commit that means to change nothing leaves it as it is.

import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";

import { DEFAULT_TARGET, parseMaterial } from "../../src/chess/material.js";
import { cacheFolder } from "../../src/places.js";
import { openForReading } from "../../src/store/database.js";
import { SCHEMA_VERSION } from "../../src/store/schema.js";
import { contentSignature } from "../../src/store/signature.js";
import { buildTables } from "../../src/tablebase/build.js";
import { indexBundled } from "../bundled.js";

/** The schema's version and the first 64 bits of the content's signature, in hexadecimal digits. */
export async function bundledSignature(): Promise<string> {
  const folder = mkdtempSync(join(tmpdir(), "longside-signature-"));
  try {
    const path = join(folder, "bundled.db");
    await indexBundled(path);
    const connection = openForReading(path);
    const signature = contentSignature(connection).slice(0, 16);
    connection.close();
    return `schema ${SCHEMA_VERSION}, content ${signature}`;
  } finally {
    rmSync(folder, { recursive: true });
  }
}

if (process.argv[1]?.endsWith("signature.js")) {
  await buildTables([parseMaterial(DEFAULT_TARGET)], { folder: cacheFolder(), threads: 2 });
  process.stdout.write(`${await bundledSignature()}\n`);
}
