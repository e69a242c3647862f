// Where it goes wrong: errors per hundred moves, by set-up, difficulty, clock and kind of move.

import type { NamedSetUp } from "../../query/language/catalogue.js";
import { keyOfNone, readSplit } from "../../query/engine/splits.js";
import { type ErrorGroup, errorsBy } from "../../statistics/errors.js";
import { SMALL, plainProportion } from "../../statistics/estimators.js";
import type { Study } from "../../statistics/moves-made.js";
import { sharesChart } from "../charts.js";
import type { Table } from "../tables.js";
import { SMALL_NOTE, type Section, shareColumn, text, whole } from "./parts.js";

/** A table of errors; `none` names the rows without a value. */
export function errorTable(id: string, head: string, groups: readonly ErrorGroup[], none: string): Table {
  return {
    id,
    caption: `Errors by ${head}`,
    columns: [
      text("side", "side"),
      text("group", head),
      whole("of", "moves"),
      whole("half", "half-point errors"),
      whole("full", "full-point errors"),
      shareColumn("in a hundred moves"),
      { name: "expected", head: "at random", kind: "decimal" },
      { name: "ratio", head: "made / at random, %", kind: "decimal" },
    ],
    rows: groups.map((group) => ({
      side: group.side,
      group: group.value ?? none,
      half: group.half,
      full: group.full,
      ...plainProportion(group),
      expected: group.expected,
      ratio: group.expected === 0 ? null : (100 * group.count) / group.expected,
    })),
    note: groups.some(({ of }) => of < SMALL) ? SMALL_NOTE : undefined,
  };
}

export function errorSection(study: Study, setUps: readonly NamedSetUp[]): Section {
  const table = (id: string, name: string, only?: "defender") => {
    const split = readSplit(name, setUps);
    const groups = errorsBy(study, split).filter(({ side }) => !only || side === only);
    return { groups, part: { table: errorTable(id, split.name, groups, keyOfNone(split)) } };
  };
  const bySetUp = table("errors-by-set-up", "set-up");
  const hazard = bySetUp.groups.filter(({ side }) => side === "defender");
  return {
    title: "Where it goes wrong",
    paragraphs: [
      "Counted are moves that could give something away: those in positions that are not lost for the side to move. A half-point error turns a win into a draw or a draw into a loss, a full-point error a win into a loss.",
      "“At random” is what random legal moves would have given away on average in the same positions (the sum of their blunder potentials: Anderson, Kleinberg & Mullainathan, KDD 2016).",
      "A set-up's errors in a hundred moves are the hazard of its defender at each move there. Moves of one game are not independent, so that intervals are narrower than they should be.",
    ],
    parts: [
      { table: errorTable("errors", "all moves", errorsBy(study), "all") },
      bySetUp.part,
      {
        chart: {
          id: "errors-by-set-up",
          caption: "The defender's errors in a hundred moves, by set-up.",
          svg: sharesChart(
            hazard.map((group) => ({ label: String(group.value ?? "none"), ...group })),
            "The defender's errors in a hundred moves, by set-up",
            "errors in a hundred moves",
          ),
        },
      },
      table("errors-by-blunder-potential", "blunder-potential:0.1").part,
      table("errors-by-clock", "clock:10/30/60/300").part,
      table("errors-by-kind", "kind", "defender").part,
    ],
  };
}
