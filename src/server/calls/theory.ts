// Calls about the whole table: rules, what set-ups turn into, in what order they are best learnt, a win in stages,
// how placements come out.

import { changesFound, orderFound, planFound, rulesFor, surveyOf } from "../../app/theory.js";
import type { OnProgress, Workspace } from "../../app/workspace.js";
import { TURNS } from "../../documents/drawings.js";
import { ruleInWords, toKeep, treeLeaves } from "../../documents/rule-text.js";
import { stageInWords, stageLine } from "../../survey/plan.js";
import type { Input } from "../api.js";

/** The sample that rules are searched on is the same for everybody. */
const SEED = 1;

/** Rules for the placements that fit a question, for each side to move. */
export async function rules(workspace: Workspace, { question }: Input<"rules">, onProgress: OnProgress) {
  const found = await rulesFor(workspace, question, SEED, onProgress);
  return {
    rules: found
      .filter((one) => one.rules.length > 0 && one.rules[0].of > 0)
      .map((one) => ({
        attackerToMove: one.attackerToMove,
        of: one.rules[0].of,
        /** Whether a rule with conditions is worth keeping in mind. */
        isWorthIt: (toKeep(one.rules)?.unless.length ?? 0) > 0,
        rules: one.rules.map(({ leaves, ...rule }) => ({
          ...rule,
          says: ruleInWords(rule),
          tree: treeLeaves(leaves),
        })),
      })),
  };
}

/** What each set-up turns into when the attacker tests it, in the table and in games; the page draws it. */
export const changes = (workspace: Workspace, _input: Input<"changes">, onProgress: OnProgress) =>
  changesFound(workspace, [], onProgress);

/** The order in which set-ups are best learnt. */
export async function learning(workspace: Workspace, _input: Input<"learning">, onProgress: OnProgress) {
  const { basic, wanted, start, order } = await orderFound(workspace, onProgress);
  return { basic, wanted, start, order };
}

/** How a position is won, in stages that can be forced one after another. */
export async function plan(workspace: Workspace, { fen }: Input<"plan">, onProgress: OnProgress) {
  const { stages, dtm, dtc } = await planFound(workspace, fen, onProgress);
  const begins = [fen, ...stages.map((stage) => stage.fen)];
  return {
    dtm,
    dtc,
    stages: stages.map((stage, n) => ({
      says: stageInWords(stage),
      line: stageLine(begins[n], stage.line),
      fen: stage.fen,
    })),
  };
}

/** How every placement that fits a question comes out, for each side to move, by a fact if one is named. */
export async function survey(workspace: Workspace, { question, by }: Input<"survey">) {
  const { groups, all, examples } = (await surveyOf(workspace, question, by || null)).found;
  return {
    rows: (groups.length > 0 ? groups : [all]).flatMap((group) =>
      TURNS.map(({ turn, side }) => ({
        value: group.value === null ? null : String(group.value),
        side,
        ...group[turn].counts,
        longestWin: group[turn].longest.won,
      })).filter(({ won, drawn, lost }) => won + drawn + lost > 0),
    ),
    examples: examples
      .filter(({ fens }) => fens.length > 0)
      .map(({ verdict, attackerToMove, fens }) => ({
        verdict,
        side: attackerToMove ? "attacker" : "defender",
        fens: fens.slice(0, 3),
      })),
  };
}
