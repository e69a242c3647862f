// What the whole table says of set-ups, as it is asked for: rules, changes, repertoires; with what people did beside it.

import { join } from "node:path";

import { placementOf, readFen } from "../chess/fen.js";
import { type Material, parseMaterial } from "../chess/material.js";
import { type Placement, placementAt } from "../chess/placement.js";
import { LongsideError } from "../errors.js";
import { type Question, definitionText, formatQuestion, levelOf } from "../query/language/ast.js";
import type { SetUp } from "../query/language/set-up.js";
import { nearest, spoken } from "../query/language/tokens.js";
import { aboutGames } from "../query/engine/placement-conditions.js";
import { type SetUpChange, changeQuestion, changesOf } from "../statistics/changes.js";
import { count } from "../statistics/count.js";
import { Study } from "../statistics/moves-made.js";
import { EXCLUDED_BY_DEFAULT } from "../store/exclusions.js";
import { type Changes, arrowsOf, changesOver } from "../survey/changes.js";
import { keyOf, remembered } from "../survey/remembered.js";
import { type Region, Regions, placeOf } from "../survey/regions.js";
import {
  type Known,
  type Next,
  type Repertoire,
  type Step,
  keptPlane,
  knownAt,
  nextOf,
  orderOf,
  rememberedKept,
  repertoireKey,
  repertoireOf,
} from "../survey/repertoire.js";
import { type Plan, planOf } from "../survey/plan.js";
import { type RulesFor, rulesOf } from "../survey/rule.js";
import { type Survey, survey } from "../survey/survey.js";
import { type Stations, Stages, forcedFrom } from "../survey/stages.js";
import { type Plane, hasBit } from "../tablebase/keep.js";
import type { OnProgress, Workspace } from "./workspace.js";

/** The material that is asked about: that of the settings. */
const materialOf = (workspace: Workspace): Material => parseMaterial(workspace.settings.target);

async function stagesOf(workspace: Workspace, material: Material, onProgress: OnProgress): Promise<Stages> {
  await workspace.prepare([material], "head");
  return Stages.of(material, workspace.catalogue, workspace.settings, onProgress);
}

/** The plan of a position that is won, in stages. Throws `bad-fen`, `bad-usage`. */
export async function planFound(workspace: Workspace, fen: string, onProgress: OnProgress): Promise<Plan> {
  const position = readFen(fen);
  const { material } = placementOf(position);
  const stages = await stagesOf(workspace, material, onProgress);
  return planOf(position, workspace.prober, stages, workspace.catalogue);
}

export interface StationsFound extends Stations {
  readonly material: string;
  /** For each station the won placements from which it can be forced (see `forcedFrom`). */
  readonly forced: readonly number[];
}

/** The stations of a win: how many of their placements are won, and how far they are. */
export async function stationsFound(workspace: Workspace, onProgress: OnProgress): Promise<StationsFound> {
  const material = materialOf(workspace);
  needSetUps(workspace, material, "attacker");
  const { found } = await stagesOf(workspace, material, onProgress);
  const forced = await forcedFrom(material, workspace.catalogue, workspace.settings, onProgress);
  return { material: material.name, ...found, forced };
}

/** Throws `bad-usage` for a question that is about games; the whole table is a question, too. */
export function aboutPlacements(workspace: Workspace, text: string, what: string) {
  const question = workspace.question(text);
  const foreign = aboutGames(question);
  const everything = text.trim() === "" || formatQuestion(question) === "everything";
  if (foreign || (!everything && levelOf(question) !== "position"))
    throw new LongsideError("bad-usage", {
      message: `${what} is about placements, and "${formatQuestion(foreign ?? question)}" is about games`,
      hint: "ask about set-ups, facts of the geometry, the verdict and its moves; see: longside words",
    });
  return question;
}

/**
 * How every placement that fits a question comes out, of the material of its set-up or of the settings; `by` is a fact of the
 * geometry. Throws `QueryError`, `bad-usage`, `bad-option`.
 */
export async function surveyOf(
  workspace: Workspace,
  text: string,
  by: string | null,
  target?: Material,
): Promise<{ readonly question: Question; readonly setUp: SetUp | undefined; readonly found: Survey }> {
  const { settings, catalogue } = workspace;
  const question = aboutPlacements(workspace, text, "a survey");
  const setUp = catalogue.named(question);
  const material = target ?? (setUp?.material ? parseMaterial(setUp.material) : materialOf(workspace));
  await workspace.prepare([material], "head");
  const asked = { question: text, setUps: settings.setUps, by };
  return { question, setUp, found: await survey(material, asked, settings.threads) };
}

/** Rules for the placements that fit a question. Throws `QueryError`, `bad-usage`. */
export async function rulesFor(
  workspace: Workspace,
  text: string,
  seed: number,
  onProgress: OnProgress,
): Promise<readonly RulesFor[]> {
  aboutPlacements(workspace, text, "a rule");
  const { settings } = workspace;
  const material = materialOf(workspace);
  await workspace.prepare([material], "head");
  onProgress("searching for rules on a sample of the table");
  const asked = { question: text, setUps: settings.setUps, seed };
  return rulesOf(material, asked, settings.threads, () => onProgress("counting them over the whole table"));
}

/** The set-ups with these names, or all of the defender's. Throws `bad-usage` for a name that is none. */
function chosen(regions: Regions, names: readonly string[], workspace: Workspace): readonly Region[] {
  const own = regions.regions;
  if (names.length === 0) return own;
  return names.map((name) => {
    const found = workspace.catalogue.known.get(spoken(name));
    const region = found && own.find((one) => one.name === found.label);
    if (region) return region;
    const near = nearest(
      name,
      own.map((one) => one.name),
    );
    throw new LongsideError("bad-usage", {
      message: `"${name}" is no set-up that the defender holds in ${regions.material.name}`,
      hint: near ? `did you mean ${near}?` : "see: longside help set-ups",
    });
  });
}

/** Throws `bad-usage` where the catalogue has no set-up of a side for a material: there is nothing to tell then. */
function needSetUps(workspace: Workspace, material: Material, side: "attacker" | "defender"): void {
  if (workspace.catalogue.tests(material).some((one) => one.side === side)) return;
  throw new LongsideError("bad-usage", {
    message: `the catalogue has no set-up of the ${side}'s for ${material.name}`,
    hint: "add your own with --set-ups; how they are written: longside help set-ups",
  });
}

/** Where what is worked out of a material is remembered; `what` names what it was worked out from. */
const pathOf = (workspace: Workspace, material: Material, kind: string, what: string): string =>
  join(workspace.settings.folder, `${material.id}.${kind}.${keyOf(what)}.json`);

async function regionsOf(workspace: Workspace, onProgress: OnProgress): Promise<Regions> {
  const material = materialOf(workspace);
  needSetUps(workspace, material, "defender");
  await workspace.prepare([material], "head");
  return Regions.ofCatalogue(material, workspace.catalogue, workspace.settings.threads, (missing) =>
    onProgress(`looking at the whole table for ${missing} set-ups (once; they are remembered)`),
  );
}

/** Endings that show one set-up become another from one look to the next (see `changeQuestion`). */
export interface ChangeShown {
  readonly from: string;
  readonly to: string;
  /** In canonical form. */
  readonly question: string;
  readonly endings: number;
}

export interface ChangesFound {
  readonly material: string;
  /** Over the whole table. */
  readonly table: readonly Changes[];
  /** For each set-up, asked about or not, its placements that are not won. */
  readonly sizes: Readonly<Record<string, number>>;
  /** In the games of the database, if there is one; those of people. */
  readonly games: readonly SetUpChange[] | undefined;
  /** Where the games of each arrow of the map are found, if there is a database. */
  readonly shown: readonly ChangeShown[] | undefined;
}

/** What set-ups turn into: by name, or every one of the defender's. */
export async function changesFound(
  workspace: Workspace,
  names: readonly string[],
  onProgress: OnProgress,
): Promise<ChangesFound> {
  const regions = await regionsOf(workspace, onProgress);
  const wanted = new Set(chosen(regions, names, workspace).map(({ name }) => name));
  const all = regions.regions;
  const whole = changesOver(regions, all);
  const table = whole.filter(({ setUp }) => wanted.has(setUp));
  const db = workspace.dbIfAny();
  const { material } = regions;
  const found = {
    material: material.name,
    table,
    sizes: Object.fromEntries(whole.map(({ setUp, held }) => [setUp, held])),
  };
  if (db === undefined || workspace.target().id !== material.id)
    return { ...found, games: undefined, shown: undefined };
  const setUps = workspace.catalogue.tests(material).filter(({ side }) => side === "defender");
  const everything = new Study(db, workspace.question(""), EXCLUDED_BY_DEFAULT);
  const one = (name: string) => setUps.find((setUp) => setUp.name === name)!;
  return {
    ...found,
    games: everything
      .ask(changesOf(everything, setUps))()
      .filter(({ from }) => wanted.has(from)),
    shown: arrowsOf(table).map(({ from, to }) => {
      const question = changeQuestion(one(from), one(to));
      const { matching } = count(db, question, { by: [], unit: "ending", leaveOut: EXCLUDED_BY_DEFAULT });
      return { from, to, question: formatQuestion(question), endings: matching };
    }),
  };
}

/** Drawn positions that people met with the attacker to move, and how many of them a repertoire keeps. */
export interface Met {
  readonly positions: number;
  readonly kept: number;
  /** Of those with the defender's king on the edge. */
  readonly onEdge: number;
  readonly keptOnEdge: number;
  /** Of these, those that are kept against checks too. */
  readonly alwaysOnEdge: number;
}

export interface RepertoireFound extends Repertoire {
  readonly material: string;
  /** Set-ups that everybody holds, counted as known. */
  readonly basic: readonly string[];
  readonly next: readonly Next[];
  readonly met: Met | undefined;
  readonly position: Known | undefined;
}

/** What a list of set-ups keeps, what would add most, and how a position stands with it. */
export async function repertoireFound(
  workspace: Workspace,
  names: readonly string[],
  placement: Placement | undefined,
  onProgress: OnProgress,
): Promise<RepertoireFound> {
  const regions = await regionsOf(workspace, onProgress);
  const basic = chosen(regions, [], workspace).filter((one) => one.basic);
  const asked = names.length === 0 ? [] : chosen(regions, names, workspace);
  const known = [...basic, ...asked.filter((one) => !one.basic)];
  const others = chosen(regions, [], workspace).filter((one) => !known.includes(one));
  onProgress("working out what can be kept");
  // files of lists with set-ups of one's own would pile up while one writes their definitions
  const remembering = workspace.settings.setUps === null;
  const keeps = remembering ? rememberedKept : keptPlane;
  const kept = keeps(regions, known, "quiet moves");
  const always = keeps(regions, known, "checks too");
  const next = () => nextOf(regions, known, others);
  const path = pathOf(workspace, regions.material, "next", repertoireKey(known, others));
  return {
    material: regions.material.name,
    basic: basic.map(({ name }) => name),
    ...repertoireOf(regions, known, kept, always),
    next: remembering ? await remembered(path, next) : next(),
    met: metIn(workspace, regions, kept, always),
    position: placement && knownAt(regions, known, kept, placement),
  };
}

function metIn(workspace: Workspace, regions: Regions, kept: Plane, always: Plane): Met | undefined {
  const db = workspace.dbIfAny();
  if (!db || workspace.target().id !== regions.material.id) return undefined;
  const study = new Study(db, workspace.question(""), EXCLUDED_BY_DEFAULT);
  const met = { positions: 0, kept: 0, onEdge: 0, keptOnEdge: 0, alwaysOnEdge: 0 };
  for (const part of study.parts()) {
    const [verdict, turn, rank, placements] = [
      part.column("verdict"),
      part.column("attacker-to-move"),
      part.column("king-rank"),
      part.column("placement"),
    ];
    part.eachPosition((p) => {
      if (verdict[p] !== 0 || turn[p] !== 1) return;
      const place = placeOf(placementAt(placements[p], regions.material.men));
      const holds = hasBit(kept, place);
      ++met.positions;
      if (holds) ++met.kept;
      if (rank[p] !== 1) return;
      ++met.onEdge;
      if (holds) ++met.keptOnEdge;
      if (hasBit(always, place)) ++met.alwaysOnEdge;
    });
  }
  return met;
}

export interface OrderFound {
  readonly material: string;
  readonly basic: readonly string[];
  /** Placements that set-ups are learnt for, and those of them kept with what everybody holds. */
  readonly wanted: number;
  readonly start: number;
  readonly startAgainstChecks: number;
  readonly order: readonly Step[];
}

/** The order in which set-ups are best learnt, remembered by their definitions. */
export async function orderFound(workspace: Workspace, onProgress: OnProgress): Promise<OrderFound> {
  const material = materialOf(workspace);
  needSetUps(workspace, material, "defender");
  const tests = workspace.catalogue.tests(material).filter(({ side }) => side === "defender");
  const definitions = tests.map(({ basic, test }) => `${basic} ${definitionText(test.means)}`);
  return remembered(pathOf(workspace, material, "learning", definitions.join("; ")), () =>
    workOutOrder(workspace, onProgress),
  );
}

async function workOutOrder(workspace: Workspace, onProgress: OnProgress): Promise<OrderFound> {
  const regions = await regionsOf(workspace, onProgress);
  const all = chosen(regions, [], workspace);
  const basic = all.filter((one) => one.basic);
  const rest = all.filter((one) => !one.basic);
  const order = orderOf(regions, basic, rest, (done, of) => {
    if (done % 10 === 1)
      onProgress(`working out the order of learning: ${done} of ${of} (once; it is remembered)`);
  });
  const begin = repertoireOf(regions, basic);
  return {
    material: regions.material.name,
    basic: basic.map(({ name }) => name),
    wanted: begin.wanted,
    start: begin.keptOfWanted,
    startAgainstChecks: begin.againstChecks.keptOfWanted,
    order,
  };
}
