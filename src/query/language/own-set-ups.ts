// A user's own file of set-ups, in the form of the catalogue: reading it, with every fault shown under its line.

import { LineCounter, isSeq, parseDocument } from "yaml";

import { parseMaterial } from "../../chess/material.js";
import { causeOf } from "../../errors.js";
import { readText } from "../../read-text.js";
import type { SetUp } from "./set-up.js";
import { SetUpError } from "./set-up-error.js";
import { nearest } from "./tokens.js";

const isText = (value: unknown): boolean => typeof value === "string" && /\S/.test(value);
const isExample = (value: unknown): boolean =>
  typeof value === "object" && value !== null && !Array.isArray(value);
const listOf =
  (holds: (value: unknown) => boolean) =>
  (value: unknown): boolean =>
    Array.isArray(value) && value.every(holds);
/** What a field must hold, and how that is said. */
interface Field {
  readonly wanted: string;
  readonly holds: (value: unknown) => boolean;
}
const TEXT: Field = { wanted: "a text", holds: isText };
const EXAMPLES: Field = { wanted: "a list", holds: listOf(isExample) };
/**
 * The shape of a user's file: set-ups in the form of the catalogue. Checked by hand: every command reads the catalogue,
 * and the library of schemas takes longer to load than a question to answer.
 */
const FIELDS: Readonly<Record<string, Field>> = {
  name: TEXT,
  means: TEXT,
  side: {
    wanted: "attacker or defender",
    holds: (value) => value === "attacker" || value === "defender",
  },
  basic: { wanted: "yes or no (true or false)", holds: (value) => typeof value === "boolean" },
  material: TEXT,
  picture: TEXT,
  known: TEXT,
  source: TEXT,
  also: { wanted: "a list of names", holds: listOf((value) => typeof value === "string") },
  "instead-of": { wanted: "a list of names", holds: listOf((value) => typeof value === "string") },
  examples: EXAMPLES,
  "near-misses": EXAMPLES,
};
const REQUIRED: ReadonlySet<string> = new Set(["name", "means"]);

/** Where a definition stands in the file. */
interface Place {
  readonly line: number;
  readonly column: number;
  readonly text: string;
}
/** A part of the file, as the YAML library knows where it is. */
type Located = { readonly range?: readonly number[] } | null | undefined;

/** A user's file of set-ups, with places in it. */
class SetUpFile {
  private readonly text: string;
  private readonly counter = new LineCounter();
  private readonly document;

  constructor(private readonly path: string) {
    this.text = readText(path);
    this.document = parseDocument(this.text, { lineCounter: this.counter, logLevel: "error" });
    const [error] = this.document.errors;
    if (error)
      this.fail(
        Math.min(error.pos[0], Math.max(0, this.text.length - 1)),
        error.message.split("\n")[0].replace(/ at line .*/, ""),
      );
  }

  placeAt(offset: number): Place {
    const { line, col } = this.counter.linePos(offset);
    return { line, column: col - 1, text: this.text.split("\n")[line - 1].replace(/\r$/, "") };
  }

  private fail(offset: number, cause: string): never {
    const { line, column, text } = this.placeAt(offset);
    throw new SetUpError(this.path, cause, line, text, column, 1);
  }

  private offsetOf(item: number, field?: string): number {
    const node = this.document.getIn(field === undefined ? [item] : [item, field], true) as Located;
    return node?.range?.[0] ?? (field === undefined ? 0 : this.offsetOf(item));
  }

  /** Throws for the first thing that is not as `FIELDS` wants it. */
  private checkShape(list: readonly unknown[]): void {
    list.forEach((one, item) => {
      if (typeof one !== "object" || one === null || Array.isArray(one))
        this.fail(this.offsetOf(item), "a set-up is written as name: … and means: …");
      for (const field of Object.keys(one)) if (!Object.hasOwn(FIELDS, field)) this.failUnknown(item, field);
    });
    (list as readonly Readonly<Record<string, unknown>>[]).forEach((one, item) => {
      for (const [field, { wanted, holds }] of Object.entries(FIELDS)) {
        const given = Object.hasOwn(one, field);
        if (given ? !holds(one[field]) : REQUIRED.has(field))
          this.fail(this.offsetOf(item, given ? field : undefined), `${field} must be ${wanted}`);
      }
    });
  }

  private failUnknown(item: number, field: string): never {
    const near = nearest(field, Object.keys(FIELDS));
    const map = this.document.getIn([item], true) as { readonly items: readonly { readonly key: unknown }[] };
    const key = map.items.find((pair) => String(pair.key) === field)?.key as Located;
    return this.fail(
      key?.range?.[0] ?? this.offsetOf(item),
      `"${field}" says nothing here${near ? `; did you mean ${near}?` : ""}`,
    );
  }

  /** The set-ups, each with the place of its definition. Throws `SetUpError`. */
  read(): Map<SetUp, Place> {
    if (!isSeq(this.document.contents))
      return this.fail(0, "it must be a list of set-ups, each with a name and what it means");
    let list: (Partial<SetUp> & Pick<SetUp, "name" | "means">)[];
    try {
      list = this.document.toJS() as typeof list;
    } catch (thrown) {
      // references that lead nowhere, or that would unfold without end
      return this.fail(0, causeOf(thrown));
    }
    this.checkShape(list);
    const places = new Map<SetUp, Place>();
    const names = new Set<string>();
    list.forEach((given, item) => {
      if (given.material !== undefined) {
        try {
          parseMaterial(given.material);
        } catch (thrown) {
          this.fail(this.offsetOf(item, "material"), causeOf(thrown));
        }
      }
      const name = given.name.trim().toLowerCase();
      if (names.has(name)) this.fail(this.offsetOf(item), `there are two set-ups of the name ${name}`);
      names.add(name);
      const setUp = { picture: "", known: "", source: "", examples: [], "near-misses": [], ...given };
      const at = this.offsetOf(item, "means");
      const place = this.placeAt(at);
      places.set(setUp, { ...place, column: place.column + (/^["']/.test(this.text[at]) ? 1 : 0) });
    });
    return places;
  }
}

/** Reads a user's file: its set-ups, and where each is defined in it. Throws `SetUpError`, `no-such-path`, `not-readable`. */
export function readOwnSetUps(path: string): {
  readonly setUps: readonly SetUp[];
  readonly placeOf: (setUp: SetUp) => Place | undefined;
} {
  const places = new SetUpFile(path).read();
  return { setUps: [...places.keys()], placeOf: (setUp) => places.get(setUp) };
}
