// The catalogue of set-ups: read from a text file, parsed with the question language, ready to be named in
// questions and to be found in positions.

import { readFileSync } from "node:fs";

import { parse as parseYaml } from "yaml";

import { catalogueFile } from "../places.js";
import { type Question, type SetUpTest, levelOf } from "./ast.js";
import { type KnownSetUps, parseQuestion } from "./parse.js";
import { type FactReader, meets } from "./predicate.js";
import { spoken, withoutKind } from "./words.js";

export interface SetUp {
  readonly name: string;
  readonly also?: readonly string[];
  readonly means: string;
  readonly picture: string;
  readonly known: string;
  readonly source: string;
  readonly examples: readonly { readonly fen: string; readonly source: string }[];
  readonly "near-misses": readonly { readonly fen: string; readonly because: string }[];
}

export class Catalogue {
  /** By every name, as `parseQuestion` wants them. */
  readonly known: KnownSetUps;
  private readonly meanings: readonly { readonly setUp: SetUp; readonly question: Question }[];

  constructor(readonly setUps: readonly SetUp[]) {
    const known = new Map<string, SetUpTest>();
    this.meanings = setUps.map((setUp) => {
      const question = parseQuestion(setUp.means, known);
      if (levelOf(question) !== "position") throw new Error(`set-up ${setUp.name} is not about a placement`);
      const test: SetUpTest = { kind: "set-up", name: canonicalName(setUp.name), means: question };
      for (const name of [setUp.name, ...(setUp.also ?? [])]) {
        known.set(spoken(name), test);
        known.set(withoutKind(spoken(name)), test);
        known.set(spoken(canonicalName(name)), test);
      }
      return { setUp, question };
    });
    this.known = known;
  }

  /** Names of the set-ups that a placement fits, in catalogue order. */
  fitting(read: FactReader): string[] {
    return this.meanings.filter(({ question }) => meets(question, read)).map(({ setUp }) => setUp.name);
  }
}

/** One word in plain letters: "second-rank-defence", "szen". */
export const canonicalName = (name: string): string =>
  name.normalize("NFD").replace(/\p{M}/gu, "").toLowerCase().replaceAll(" ", "-");

let standard: Catalogue | undefined;

/** The catalogue that comes with the program. */
export function standardCatalogue(): Catalogue {
  standard ??= new Catalogue(parseYaml(readFileSync(catalogueFile(), "utf8")) as SetUp[]);
  return standard;
}
