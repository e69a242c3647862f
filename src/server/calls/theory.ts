// Calls about the whole table: rules, what set-ups turn into, in what order they are best learnt.

import { changesFound, orderFound, rulesFor } from "../../app/theory.js";
import type { OnProgress, Workspace } from "../../app/workspace.js";
import { changeMapSvg, orderSvg } from "../../documents/change-map.js";
import { ruleInWords } from "../../documents/rule-text.js";
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
        rules: one.rules.map((rule) => ({ ...rule, says: ruleInWords(rule) })),
      })),
  };
}

/** What each set-up turns into when the attacker tests it, as a drawing and in numbers. */
export async function changes(workspace: Workspace, _input: Input<"changes">, onProgress: OnProgress) {
  const { table, games } = await changesFound(workspace, [], onProgress);
  return { table, drawing: changeMapSvg(table, games) };
}

/** The order in which set-ups are best learnt. */
export async function learning(workspace: Workspace, _input: Input<"learning">, onProgress: OnProgress) {
  const { basic, wanted, start, order } = await orderFound(workspace, onProgress);
  const drawing = orderSvg({ says: "what everybody holds", kept: start }, order, wanted);
  return { basic, wanted, start, order, drawing };
}
