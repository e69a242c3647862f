// A user's own file of set-ups, in the form of the catalogue: reading it, with every fault shown under its line.

import { readFileSync } from "node:fs";

import { LineCounter, isMap, isSeq, parseDocument } from "yaml";

import { parseMaterial } from "../../chess/material.js";
import { LongsideError, causeOf } from "../../errors.js";
import type { SetUp } from "./set-up.js";
import { pointAt } from "./query-error.js";
import { nearest } from "./tokens.js";

/** A fault in a file of set-ups, shown under its line. */
export class SetUpError extends LongsideError {
  constructor(
    path: string,
    cause: string,
    line: number,
    private readonly text: string,
    private readonly at: number,
    private readonly length: number,
  ) {
    super("bad-set-up", { path, cause }, { file: path, line });
  }

  /** The line with carets under the fault, cut to `width` columns round it. */
  pointer(width = 80): string {
    return pointAt(this.text, this.at, this.length, width);
  }
}

/** What else a set-up may have. */
const LISTS = ["also", "examples", "near-misses"] as const;
const TEXTS = ["name", "material", "means", "picture", "known", "source"] as const;

/** Reads a user's file: set-ups in the form of the catalogue, of which only name and means are needed. */
export function readOwnSetUps(path: string): {
  readonly setUps: readonly SetUp[];
  readonly placeOf: (
    setUp: SetUp,
  ) => { readonly line: number; readonly column: number; readonly text: string } | undefined;
} {
  let text: string;
  try {
    text = readFileSync(path, "utf8");
  } catch (thrown) {
    const code = (thrown as NodeJS.ErrnoException).code;
    throw code === "ENOENT"
      ? new LongsideError("no-such-path", { path })
      : new LongsideError("not-readable", { path, cause: causeOf(thrown) });
  }
  const counter = new LineCounter();
  const document = parseDocument(text, { lineCounter: counter });
  const lines = text.split("\n");
  const placeAt = (offset: number) => {
    const { line, col } = counter.linePos(offset);
    return { line, column: col - 1, text: lines[line - 1].replace(/\r$/, "") };
  };
  const fail = (offset: number, cause: string): never => {
    const { line, column, text: shown } = placeAt(offset);
    throw new SetUpError(path, cause, line, shown, column, 1);
  };
  const [error] = document.errors;
  if (error)
    fail(
      Math.min(error.pos[0], Math.max(0, text.length - 1)),
      error.message.split("\n")[0].replace(/ at line .*/, ""),
    );
  const list = document.contents;
  if (!isSeq(list)) return fail(0, "it must be a list of set-ups, each with a name and what it means");
  const places = new Map<SetUp, ReturnType<typeof placeAt>>();
  const names = new Set<string>();
  const setUps = list.items.map((item): SetUp => {
    const offset = (item as { range?: readonly number[] }).range?.[0] ?? 0;
    if (!isMap(item)) return fail(offset, "a set-up is written as name: … and means: …");
    const given = item.toJSON() as Record<string, unknown>;
    for (const pair of item.items) {
      const field = String(pair.key);
      const fields = [...TEXTS, ...LISTS];
      if ((fields as string[]).includes(field)) continue;
      const near = nearest(field, fields);
      const { range } = pair.key as { range?: readonly number[] };
      fail(range?.[0] ?? offset, `"${field}" says nothing here${near ? `; did you mean ${near}?` : ""}`);
    }
    for (const name of TEXTS) {
      const value = given[name];
      if (
        typeof value === "string"
          ? value.trim() !== ""
          : value === undefined && name !== "name" && name !== "means"
      )
        continue;
      const node = item.get(name, true) as { range?: readonly number[] } | undefined;
      fail(node?.range?.[0] ?? offset, `${name} must be a text`);
    }
    const also = given.also;
    if (also !== undefined && !(Array.isArray(also) && also.every((one) => typeof one === "string")))
      fail(offset, "also must be a list of names");
    if (given.material !== undefined) {
      try {
        parseMaterial(given.material as string);
      } catch (thrown) {
        fail((item.get("material", true) as { range: readonly number[] }).range[0], causeOf(thrown));
      }
    }
    const name = (given.name as string).trim().toLowerCase();
    if (names.has(name)) fail(offset, `there are two set-ups of the name ${name}`);
    names.add(name);
    const setUp = {
      picture: "",
      known: "",
      source: "",
      examples: [],
      "near-misses": [],
      ...given,
    } as unknown as SetUp;
    const means = item.get("means", true) as { range: readonly number[]; type?: string };
    const place = placeAt(means.range[0]);
    places.set(setUp, { ...place, column: place.column + (/^["']/.test(text[means.range[0]]) ? 1 : 0) });
    return setUp;
  });
  return { setUps, placeOf: (setUp) => places.get(setUp) };
}
