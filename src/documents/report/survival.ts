// How long they hold: curves of survival, the numbers at risk, and groups compared.

import type { Split } from "../../query/engine/splits.js";
import { type LogRank, atRiskAt } from "../../statistics/estimators.js";
import { LEAST_CASES, type SurvivalGroup, type SurvivalStudy } from "../../statistics/survival.js";
import { counted } from "../../position/wording.js";
import { MOST_CURVES, survivalChart } from "../charts.js";
import type { Table } from "../tables.js";
import { type Chart, type Part, type Section, shareColumn, text, whole } from "./parts.js";

/** Times at which to say how many are still at risk: six or so, round. */
function roundTimes(longest: number): number[] {
  const step = [1, 2, 5, 10, 20, 50].find((one) => longest / one <= 8) ?? 100;
  return Array.from({ length: Math.floor(longest / step) + 1 }, (_, n) => n * step);
}

function groupTable(id: string, caption: string, groups: readonly SurvivalGroup[]): Table {
  return {
    id,
    caption,
    columns: [
      text("group", "group"),
      whole("cases", "endings"),
      whole("events", "lost the draw"),
      whole("median", "median, moves"),
      text("interval", "95 % interval"),
      whole("longest", "longest seen"),
    ],
    rows: groups.map(({ value, survival }) => ({
      group: value,
      cases: survival.cases,
      events: survival.events,
      median: survival.median,
      interval:
        survival.medianLow === null ? "not reached" : `${survival.medianLow}–${survival.medianHigh ?? "…"}`,
      longest: survival.longest,
    })),
  };
}

/** How many still hold after so many moves. */
function atRiskTable(id: string, start: string, { spells, survival }: SurvivalGroup): Table {
  const at = (time: number) =>
    survival.steps.filter((one) => one.time <= time).at(-1) ?? { survival: 1, low: 1, high: 1 };
  return {
    id: `${id}-at-risk`,
    caption: `Still holding ${start}`,
    columns: [
      whole("moves", "moves"),
      whole("at-risk", "at risk"),
      shareColumn("still holding after that many moves"),
    ],
    rows: roundTimes(survival.longest).map((time) => {
      const { survival: share, low, high } = at(time);
      // where none is left there is no interval, but no doubt about the share either
      const limits = Number.isFinite(low) ? { low, high } : { low: share, high: share };
      return { moves: time, "at-risk": atRiskAt(spells, time), share, ...limits };
    }),
  };
}

function logRankTable(id: string, split: Split, { chiSquare, degrees, p }: LogRank): Table {
  return {
    id: `${id}-log-rank`,
    caption: `Log-rank test by ${split.name}`,
    columns: [
      { name: "chi-square", head: "χ²", kind: "decimal" },
      whole("degrees", "degrees of freedom"),
      { name: "p", head: "p", kind: "text" },
    ],
    rows: [{ "chi-square": chiSquare, degrees, p: p.toPrecision(3) }],
  };
}

const logRankInWords = (split: Split, { chiSquare, degrees, p }: LogRank): string =>
  `Do the groups of ${LEAST_CASES} or more by ${split.name} differ? Log-rank χ² = ${chiSquare.toFixed(2)} on ${counted(degrees, "degree")} of freedom, p ${p < 0.0001 ? "< 0.0001" : `= ${p.toFixed(4)}`}.`;

/** The groups that are large enough to compare, in one chart. */
function groupsChart(
  id: string,
  title: string,
  axis: string,
  split: Split,
  compared: readonly SurvivalGroup[],
): Chart {
  return {
    id: `${id}-groups`,
    caption: `By ${split.name}, groups of ${LEAST_CASES} endings or more${compared.length > MOST_CURVES ? `, the ${MOST_CURVES} largest` : ""}.`,
    svg: survivalChart(
      [...compared].sort((a, b) => b.spells.length - a.spells.length),
      `${title}, by ${split.name}`,
      axis,
    ),
  };
}

/** `start` says from where time is counted: "from the entry". */
export function survivalSection(
  id: string,
  title: string,
  start: string,
  { all, groups, without, logRank }: SurvivalStudy,
  split: Split,
): Section {
  if (all.spells.length === 0) return { title, paragraphs: [`No ending is drawn ${start}.`], parts: [] };
  const axis = `moves of the defender ${start}`;
  const chart = {
    id,
    caption: "Share still holding, with the 95 % band.",
    svg: survivalChart([all], title, axis),
  };
  const parts: Part[] = [
    { chart },
    { table: atRiskTable(id, start, all) },
    { table: groupTable(`${id}-groups`, `How long they held, by ${split.name}`, [all, ...groups]) },
  ];
  const compared = groups.filter(({ spells }) => spells.length >= LEAST_CASES);
  if (compared.length >= 2) parts.push({ chart: groupsChart(id, title, axis, split, compared) });
  const { cases, events } = all.survival;
  const paragraphs = [
    `Time is counted ${start} in the ${counted(cases, "ending")} not won for the attacker there; in ${events} of them the defender lost the draw (or a win) by a move. The others ended first and are censored: how long the defender would have held is unknown. ${counted(without, "ending")} ${without === 1 ? "has" : "have"} no such start.`,
  ];
  if (logRank) {
    parts.push({ table: logRankTable(id, split, logRank) });
    paragraphs.push(logRankInWords(split, logRank));
  }
  return { title, paragraphs, parts };
}
