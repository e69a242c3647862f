// The catalogue of set-ups: read from a text file, parsed with the question language, ready to be named in
// questions and to be found in positions.

import { readFileSync } from "node:fs";

import { parse as parseYaml } from "yaml";

import { DEFAULT_TARGET, type Material, parseMaterial } from "../../chess/material.js";
import { LongsideError } from "../../errors.js";
import { catalogueFile } from "../../places.js";
import { type Question, type SetUpTest, formatQuestion, isEverything, leavesOf, levelOf } from "./ast.js";
import { QueryError } from "./query-error.js";
import { readOwnSetUps } from "./own-set-ups.js";
import { SetUpError } from "./set-up-error.js";
import type { SetUp } from "./set-up.js";
import { type KnownSetUps, type Reading, readingsOf } from "./parse.js";
import { type FactReader, meets } from "../engine/predicate.js";
import { isPlacementFact } from "./vocabulary.js";
import { spoken, withoutKind } from "./tokens.js";

/** A set-up by its name, as a question. */
export interface NamedSetUp {
  readonly name: string;
  readonly side: "attacker" | "defender";
  readonly basic: boolean;
  readonly test: SetUpTest;
}

const materialOf = ({ material = DEFAULT_TARGET }: SetUp): Material => parseMaterial(material);

/** What in a definition a placement by itself cannot answer; undefined if it can answer all of it. */
function foreignPart(question: Question): string | undefined {
  for (const leaf of leavesOf(question)) {
    if (leaf.kind === "set-up") continue;
    if (leaf.kind !== "compare" && leaf.kind !== "range" && leaf.kind !== "facts")
      return formatQuestion(leaf);
    if (!isPlacementFact(leaf.fact)) return leaf.fact.name;
    if (leaf.kind === "facts" && !isPlacementFact(leaf.other)) return leaf.other.name;
  }
  return undefined;
}

/** A definition that cannot be used, and where in it the fault lies. */
class BadDefinition extends Error {
  constructor(
    readonly setUp: SetUp,
    readonly fault: QueryError | undefined,
    message: string,
  ) {
    super(message);
  }
}

/** Set-ups by which set-ups are defined, one behind another, at most. */
const DEEPEST = 8;
/** Conditions of a set-up at most, those of the set-ups in it counted each time. */
const MOST_CONDITIONS = 500;

/** How deep the set-ups in a definition lead, and how many conditions it holds with theirs. */
interface Size {
  readonly depth: number;
  readonly conditions: number;
}

/** The set-ups known by name, each with its definition parsed. */
export class Catalogue {
  /** By every name, as the parser takes them. */
  readonly known: KnownSetUps;
  private readonly meanings: readonly { readonly setUp: SetUp; readonly question: Question }[];

  constructor(readonly setUps: readonly SetUp[]) {
    const known = new Map<string, SetUpTest>();
    const sizes = new Map<Question, Size>();
    this.meanings = setUps.map((setUp) => {
      const question = definitionOf(setUp, known);
      sizes.set(question, sizeWithin(setUp, question, sizes));
      const test: SetUpTest = {
        kind: "set-up",
        name: canonicalName(setUp.name),
        label: setUp.name,
        means: question,
      };
      const names = [setUp.name, ...(setUp.also ?? [])];
      // both spellings of English
      for (const name of names.flatMap((one) => [one, one.replace("defence", "defense")])) {
        known.set(spoken(name), test);
        known.set(withoutKind(spoken(name)), test);
        known.set(spoken(canonicalName(name)), test);
      }
      return { setUp, question };
    });
    this.known = known;
  }

  /** The set-up of a question that names one and asks nothing else. */
  named(question: Question): SetUp | undefined {
    if (question.kind !== "set-up") return undefined;
    return this.setUps.find(({ name }) => canonicalName(name) === question.name);
  }

  /** Each set-up of a material, with its test; the same tests each time. */
  tests(material: Material): NamedSetUp[] {
    return this.setUps
      .filter((setUp) => materialOf(setUp).id === material.id)
      .map(({ name, side = "defender", basic = false }) => ({
        name,
        side,
        basic,
        test: this.known.get(spoken(name))!,
      }));
  }

  /** The names by which a placement is called: of the set-ups that it fits those that no other of them says already. */
  naming(read: FactReader, material: Material): string[] {
    const fitting = this.fitting(read, material);
    const said = new Set(
      this.setUps.filter(({ name }) => fitting.includes(name)).flatMap((one) => one["instead-of"] ?? []),
    );
    return fitting.filter((name) => !said.has(name));
  }

  /** Names of the set-ups of a material that a placement of it fits, in catalogue order. */
  fitting(read: FactReader, material: Material): string[] {
    return this.meanings
      .filter(({ setUp, question }) => materialOf(setUp).id === material.id && meets(question, read))
      .map(({ setUp }) => setUp.name);
  }
}

/** What a question is called in a title. */
export function titleOf(question: Question, catalogue: Catalogue, target: Material): string {
  if (isEverything(question)) return target.name;
  return catalogue.named(question)?.name ?? formatQuestion(question);
}

/** The size of a definition. Throws `BadDefinition` for one beyond the limits. */
function sizeWithin(setUp: SetUp, question: Question, sizes: ReadonlyMap<Question, Size>): Size {
  const parts = leavesOf(question).map((leaf) =>
    leaf.kind === "set-up" ? sizes.get(leaf.means)! : { depth: 0, conditions: 1 },
  );
  const depth = 1 + Math.max(0, ...parts.map((part) => part.depth));
  const conditions = parts.reduce((sum, part) => sum + part.conditions, 0);
  const fail = (cause: string) => new BadDefinition(setUp, undefined, cause);
  if (depth > DEEPEST)
    throw fail(`the set-ups in it are defined by set-ups of others, more than ${DEEPEST} deep`);
  if (conditions > MOST_CONDITIONS)
    throw fail(`with those of the set-ups in it, it holds more than ${MOST_CONDITIONS} conditions`);
  return { depth, conditions };
}

/** A set-up's definition, parsed. Throws `BadDefinition`. */
function definitionOf(setUp: SetUp, known: KnownSetUps): Question {
  let readings: readonly Reading[];
  try {
    readings = readingsOf(setUp.means, known);
  } catch (thrown) {
    if (!(thrown instanceof QueryError)) throw thrown;
    throw new BadDefinition(setUp, thrown, `${thrown.message}; ${thrown.hint}`);
  }
  // of several meanings the one that a placement by itself can answer: ranks are those of the frame
  const meanings = readings.flatMap(({ question, guesses }) => [
    question,
    ...guesses.map(({ other }) => other),
  ]);
  const fitting = meanings.find(
    (question) => foreignPart(question) === undefined && levelOf(question) === "position",
  );
  if (fitting) return fitting;
  const foreign = foreignPart(meanings[0]);
  throw new BadDefinition(
    setUp,
    undefined,
    foreign === undefined
      ? "the definition must be about a position"
      : `"${foreign}" is not known of a placement by itself`,
  );
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

/** The catalogue with the set-ups of a user's own file, which come last and replace those of the same name. */
export function catalogueWith(path: string | null | undefined): Catalogue {
  if (!path) return standardCatalogue();
  const { setUps, placeOf } = readOwnSetUps(path);
  const own = new Set(setUps.map(({ name }) => canonicalName(name)));
  const kept = standardCatalogue().setUps.filter(({ name }) => !own.has(canonicalName(name)));
  try {
    return new Catalogue([...kept, ...setUps]);
  } catch (thrown) {
    if (!(thrown instanceof BadDefinition)) throw thrown;
    const place = placeOf(thrown.setUp);
    if (!place) {
      // a standard definition that leaned on one that has been replaced
      const cause = `${thrown.setUp.name} is defined by a set-up that ${path} replaces: ${thrown.message}`;
      throw new LongsideError("bad-set-up", { path, cause }, { file: path });
    }
    const cause = `${thrown.setUp.name}: ${thrown.message}`;
    throw new SetUpError(
      path,
      cause,
      place.line,
      place.text,
      place.column + (thrown.fault?.at ?? 0),
      thrown.fault?.length ?? 1,
    );
  }
}
