// Practice in numbers, as it is asked for: the splits, the set-up from which survival is counted, what theory says.

import { reportPage } from "../documents/report/page.js";
import { type Report, makeReport } from "../documents/report/report.js";
import { USUAL_SPLITS } from "../documents/report/outcomes.js";
import { LongsideError } from "../errors.js";
import { isOfPositions, readSplit } from "../query/engine/splits.js";
import type { Question } from "../query/language/ast.js";
import type { NamedSetUp } from "../query/language/catalogue.js";
import { leftOutInWords, usualExclusions } from "../statistics/exclusions.js";
import { type Count, count } from "../statistics/count.js";
import type { Rule } from "../statistics/moves-made.js";
import type { Exclusion } from "../store/exclusions.js";
import { theoryOfSetUps } from "../survey/theory.js";
import type { Manifest } from "../statistics/manifest.js";
import { manifestOf } from "./manifest.js";
import type { OnProgress, Workspace } from "./workspace.js";

export interface ReportWanted {
  readonly question: Question;
  /** Facts of endings, with bands; the usual ones where they are left out. */
  readonly by?: readonly string[];
  /** A set-up, in words, from which survival is counted. */
  readonly from?: string;
  readonly leaveOut?: readonly Exclusion[];
  /** What positions are worth by: under the fifty-move rule, where it is left out. */
  readonly rule?: Rule;
}

export interface ReportMade {
  /** Undefined where no ending answers the question. */
  readonly report: Report | undefined;
  /** How many endings it counts. */
  readonly found: Count;
  /** What was left out, in words. */
  readonly leftOut: string;
  /** The set-ups of the database's material. */
  readonly setUps: readonly NamedSetUp[];
}

const fail = (option: string, cause: string) =>
  new LongsideError("bad-option", { option, cause, command: "report" });

function splitsOf(texts: readonly string[], setUps: readonly NamedSetUp[]) {
  const by = texts.map((text) => readSplit(text, setUps, "report"));
  const stray = by.find(isOfPositions);
  if (stray) throw fail("--by", `outcomes are of endings, and ${stray.name} is a fact of positions`);
  const twice = by.find(({ name }, n) => by.findIndex((other) => other.name === name) !== n);
  if (twice) throw fail("--by", `${twice.name} is named twice`);
  return by;
}

/** Makes the report of a question. Throws `no-database`, `bad-option`, `QueryError`. */
export async function reportOn(
  workspace: Workspace,
  {
    question,
    by: texts = USUAL_SPLITS,
    from: text,
    leaveOut = usualExclusions(question),
    rule = "fifty",
  }: ReportWanted,
  onProgress: OnProgress,
  /** Told what went wrong and does not stop the work. */
  warn: (message: string) => void,
): Promise<ReportMade> {
  const db = workspace.db();
  const target = workspace.target();
  const setUps = workspace.catalogue.tests(target);
  const by = splitsOf(texts, setUps);
  const named = text === undefined ? undefined : workspace.catalogue.named(workspace.question(text));
  const from = setUps.find(({ name }) => name === named?.name);
  if (text !== undefined && !from)
    throw fail("--from", `"${text}" is no set-up of ${target.name}; see: longside words`);
  const found = count(db, question, { by: [], unit: "ending", leaveOut });
  const leftOut = leftOutInWords(found.leftOut);
  if (found.matching === 0) return { report: undefined, found, leftOut, setUps };
  await workspace.prepare([target]);
  const theory = await theoryOfSetUps(
    target,
    setUps,
    workspace.settings.threads,
    (missing) => onProgress(`counting ${missing} set-ups over the whole table (once; about half a minute)`),
    (cause) => warn(`These counts could not be stored for the next time: ${cause}`),
  );
  return {
    report: makeReport(db, { question, leaveOut, by, setUps, from, theory, rule }),
    found,
    leftOut,
    setUps,
  };
}

/** What a report was made from, by `command`. Looks at the whole database. */
export const reportManifest = (
  workspace: Workspace,
  { found }: ReportMade,
  report: Report,
  command: string,
): Manifest =>
  manifestOf(workspace, {
    command,
    question: report.asked,
    counted: found.matching,
    unit: "ending",
    leftOut: found.leftOut,
  });

/** A report as one page. */
export const reportAsPage = (
  { catalogue }: Workspace,
  { setUps }: ReportMade,
  report: Report,
  manifest: Manifest,
): string =>
  reportPage(report, {
    manifest,
    setUps: catalogue.setUps.filter(({ name }) => setUps.some((one) => one.name === name)),
  });
