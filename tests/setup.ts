// Before all tests: the tables of the default target, built where the user keeps them, unless they are there.

import { availableParallelism } from "node:os";

import { DEFAULT_TARGET, parseMaterial } from "../src/chess/material.js";
import { cacheFolder } from "../src/places.js";
import { buildTables } from "../src/tablebase/build.js";

export default async function setup(): Promise<void> {
  await buildTables([parseMaterial(DEFAULT_TARGET)], {
    folder: cacheFolder(),
    threads: availableParallelism(),
  });
}
