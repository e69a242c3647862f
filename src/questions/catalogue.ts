// The catalogue of set-ups: read from a text file, parsed with the question language, ready to be named in
// questions and to be found in positions.

import { readFileSync } from "node:fs";

import { parse as parseYaml } from "yaml";

import { DEFAULT_TARGET, type Material, parseMaterial } from "../chess/material.js";
import { catalogueFile } from "../places.js";
import { type Question, type SetUpTest, formatQuestion, levelOf } from "./ast.js";
import { type KnownSetUps, parseQuestion } from "./parse.js";
import { type FactReader, meets } from "./predicate.js";
import { isPlacementFact } from "./vocabulary.js";
import { spoken, withoutKind } from "./words.js";

export interface SetUp {
  readonly name: string;
  readonly also?: readonly string[];
  /** The material it belongs to; the default target where it is not said. */
  readonly material?: string;
  readonly means: string;
  readonly picture: string;
  readonly known: string;
  readonly source: string;
  readonly examples: readonly { readonly fen: string; readonly source: string }[];
  readonly "near-misses": readonly { readonly fen: string; readonly because: string }[];
}

const materialOf = ({ material = DEFAULT_TARGET }: SetUp): Material => parseMaterial(material);

/** What in a definition a placement by itself cannot answer; undefined if it can answer all of it. */
function foreignPart(question: Question): string | undefined {
  switch (question.kind) {
    case "compare":
    case "range":
      return isPlacementFact(question.fact) ? undefined : question.fact.name;
    case "set-up":
      return undefined;
    case "and":
    case "or":
      return question.parts.map(foreignPart).find((name) => name !== undefined);
    case "not":
      return foreignPart(question.part);
    default:
      return formatQuestion(question);
  }
}

/** The set-ups known by name, each with its definition parsed. Throws where one is not about a placement. */
export class Catalogue {
  /** By every name, as `parseQuestion` wants them. */
  readonly known: KnownSetUps;
  private readonly meanings: readonly { readonly setUp: SetUp; readonly question: Question }[];

  constructor(readonly setUps: readonly SetUp[]) {
    const known = new Map<string, SetUpTest>();
    this.meanings = setUps.map((setUp) => {
      const question = parseQuestion(setUp.means, known);
      const foreign = foreignPart(question);
      if (levelOf(question) !== "position" || foreign !== undefined) {
        const why = foreign === undefined ? "" : `: ${foreign} is not known of one`;
        throw new Error(`set-up ${setUp.name} is not about a placement${why}`);
      }
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

  /** Names of the set-ups of a material that a placement of it fits, in catalogue order. */
  fitting(read: FactReader, material: Material): string[] {
    return this.meanings
      .filter(({ setUp, question }) => materialOf(setUp).id === material.id && meets(question, read))
      .map(({ setUp }) => setUp.name);
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
