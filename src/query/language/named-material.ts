// Another ending by its name, in words: "queen against rook", "R+B vs R".

import { DEFAULT_TARGET, type Material, parseMaterial } from "../../chess/material.js";
import { type Quantities, isWord } from "./quantities.js";
import { QueryError } from "./query-error.js";
import type { SpokenWord } from "./spoken.js";
import { entryOf } from "./tokens.js";

/** An ending that was named, with an error where it is not the one that is asked about. */
export interface NamedMaterial {
  readonly end: number;
  readonly error: QueryError | undefined;
}

const LETTERS: Readonly<Record<string, string>> = {
  queen: "Q",
  rook: "R",
  bishop: "B",
  knight: "N",
  // "R+B vs R", "RB v R"
  q: "Q",
  r: "R",
  b: "B",
  n: "N",
  rb: "RB",
  krb: "RB",
  kr: "R",
};

/** One side's pieces in words: "rook and bishop", "two knights", "a lone king". */
function piecesAt(
  words: readonly SpokenWord[],
  at: number,
  quantities: Quantities,
): { end: number; letters: string } | undefined {
  const is = (n: number, form: string) => isWord(words, n, form);
  let letters = "";
  let n = at;
  for (;;) {
    n = quantities.skipLight(n);
    const many = words[n]?.word === "two" ? 2 : 1;
    if (many === 2) ++n;
    const letter = [...(words[n]?.forms ?? [])]
      .map((form) => entryOf(LETTERS, form))
      .find((one) => one !== undefined);
    if (letter !== undefined) {
      letters += letter.repeat(many);
      ++n;
    } else if (is(n, "king") || ((is(n, "lone") || is(n, "bare")) && is(n + 1, "king")))
      n += is(n, "king") ? 1 : 2;
    else return undefined;
    const joined = words[n]?.word;
    if (joined === "and" || joined === "+" || joined === "plus") ++n;
    else return { end: n, letters };
  }
}

/** Another ending by its name: "queen against rook". */
export function materialAt(
  words: readonly SpokenWord[],
  at: number,
  quantities: Quantities,
  target: Material | undefined,
  text: string,
): NamedMaterial | undefined {
  const strong = piecesAt(words, at, quantities);
  if (!strong || !isWord(words, strong.end, "against")) return undefined;
  // "pinned by the bishop against its king" speaks of one side's pieces
  const own = /^(?:its|his|her|their|own)$/.test(words[strong.end + 1]?.word ?? "");
  const weak = own ? undefined : piecesAt(words, strong.end + 1, quantities);
  if (!weak || strong.letters + weak.letters === "") return undefined;
  const known = target ?? parseMaterial(DEFAULT_TARGET);
  let material: Material;
  try {
    material = parseMaterial(`K${strong.letters}vK${weak.letters}`);
  } catch {
    return undefined;
  }
  const { at: from } = words[at];
  const error =
    material.id === known.id
      ? undefined
      : new QueryError(
          text,
          from,
          words[weak.end - 1].end - from,
          `${material.name} is another ending; this is about ${known.name}`,
          `read games for it into a database of its own: longside index GAMES --target "${material.name}" --db FILE, then ask that one`,
        );
  return { end: weak.end, error };
}
