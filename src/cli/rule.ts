// `rule`: when a set-up holds, as a rule that a person can remember, with every exception counted.

import { rulesFor } from "../app/theory.js";
import { ruleInWords, toKeep, treeLeaves } from "../documents/rule-text.js";
import { NO_RULE, ruleTreesSvg } from "../documents/rule-tree.js";
import type { Rule } from "../survey/rule.js";
import type { Command } from "./command.js";
import { note, noteProgress, print, printJson } from "./messages.js";
import { writeDrawing } from "./output.js";
import { bold, dim, paragraph } from "./terminal.js";

/** FENs shown of each kind of exception, unless told otherwise. */
const SHOWN = 1;

const percent = (part: number, whole: number): string => {
  const text = ((100 * part) / whole).toFixed(2);
  return `${part < whole && text === "100.00" ? "99.99" : text} %`;
};

function printRule(rule: Rule, limit: number): void {
  print(`\n${paragraph(`${bold(percent(rule.right, rule.of))}  ${ruleInWords(rule)}`)}`);
  if (rule.unless.length > 0)
    print(dim(paragraph(rule.unless.map((term) => term.join(" and ")).join(" or "))));
  const said = (count: number, what: string, fens: readonly string[]) => {
    if (count === 0) return;
    print(paragraph(`  ${count.toLocaleString("en")} ${what}${fens.length > 0 ? "; the shortest:" : ""}`));
    for (const fen of fens.slice(0, limit)) print(`    ${fen}`);
  };
  said(rule.wonThough, "won, though the rule says drawn", rule.examples.wonThough);
  said(rule.notWonThough, "not won, though the rule says won", rule.examples.notWonThough);
}

export const run: Command = async (words, options, workspace) => {
  const text = words.join(" ");
  const found = await rulesFor(workspace, text, options.seed ?? 1, noteProgress);
  const fitting = found.filter(({ rules }) => rules.length > 0 && rules[0].of > 0);
  if (options.json) {
    for (const { attackerToMove, rules } of fitting)
      for (const rule of rules) printJson({ toMove: attackerToMove ? "attacker" : "defender", ...rule });
    return fitting.length > 0 ? 0 : 1;
  }
  if (fitting.length === 0) {
    note("No placement fits that.");
    return 1;
  }
  // of the rules for each side to move the finest: it has the parts of the others; one leaf is no tree
  const trees = fitting
    .map(({ attackerToMove, rules }) => ({
      title: `The ${attackerToMove ? "attacker" : "defender"} to move`,
      leaves: rules[rules.length - 1].leaves,
    }))
    .filter(({ leaves }) => leaves.length > 1);
  if (trees.length > 0)
    writeDrawing(options, () =>
      ruleTreesSvg(trees.map(({ title, leaves }) => ({ title, leaves: treeLeaves(leaves) }))),
    );
  else if (options.svg !== undefined || options.png !== undefined)
    note(`${NO_RULE}: there is no tree to draw.`);
  const limit = options.limit === 0 ? Infinity : (options.limit ?? SHOWN);
  for (const { attackerToMove, rules } of fitting) {
    const side = attackerToMove ? "attacker" : "defender";
    print(`\n${bold(`The ${side} to move`)}, ${rules[0].of.toLocaleString("en")} placements`);
    if (toKeep(rules)?.unless.length === 0)
      print(`\n${paragraph(`${NO_RULE}${rules.length > 1 ? "; what conditions would add" : ""}:`)}`);
    for (const rule of rules) printRule(rule, limit);
  }
  print(
    `\n${dim(paragraph("per cent of the placements of the whole table, each with all its twins, that the rule is right about; from coarse to fine"))}`,
  );
  return 0;
};
