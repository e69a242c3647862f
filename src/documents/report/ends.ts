// How long they hold, and how it ends: what share has lost the draw by a move, beside the other ends.

import type { Split } from "../../query/engine/splits.js";
import { ENDS, type EndGroup, type EndStudy, LEAST_CASES } from "../../statistics/ends.js";
import { type IncidenceStep, type LogRank, atRiskAt } from "../../statistics/survival-curves.js";
import { counted } from "../../position/wording.js";
import { MOST_CURVES, incidenceChart } from "../charts.js";
import type { Table } from "../tables.js";
import { type Part, type Section, shareColumn, text, whole } from "./parts.js";

/** Times at which to say how many are still at risk: six or so, round. */
function roundTimes(longest: number): number[] {
  const step = [1, 2, 5, 10, 20, 50].find((one) => longest / one <= 8) ?? 100;
  return Array.from({ length: Math.floor(longest / step) + 1 }, (_, n) => n * step);
}

/** What is known at a time: the last step that is not after it. */
const stepAt = (steps: readonly IncidenceStep[], time: number) => {
  const step = steps.filter((one) => one.time <= time).at(-1);
  const share = step?.incidence ?? 0;
  return {
    share,
    low: step && Number.isFinite(step.low) ? step.low : share,
    high: step && Number.isFinite(step.high) ? step.high : share,
  };
};

/** How many are at risk after so many moves, and what share has come to which end. */
function timesTable(id: string, start: string, { spells, incidences, survival }: EndGroup): Table {
  return {
    id: `${id}-times`,
    caption: `After so many moves of the defender ${start}`,
    columns: [
      whole("moves", "moves"),
      whole("at-risk", "still defending"),
      shareColumn("lost by a move"),
      { name: "resigned", head: ENDS[1], kind: "percent" },
      { name: "held", head: ENDS[2], kind: "percent" },
    ],
    rows: roundTimes(survival.longest).map((time) => ({
      moves: time,
      "at-risk": atRiskAt(spells, time),
      ...stepAt(incidences[0], time),
      resigned: stepAt(incidences[1], time).share,
      held: stepAt(incidences[2], time).share,
    })),
  };
}

/** Every step of the curves, for other programs. */
const stepsTable = (id: string, groups: readonly EndGroup[]): Table => ({
  id: `${id}-steps`,
  caption: "Cumulative incidence, step by step",
  columns: [
    text("group", "group"),
    text("end", "end"),
    whole("time", "moves"),
    whole("at-risk", "at risk"),
    whole("events", "ends"),
    shareColumn("incidence"),
  ],
  rows: groups.flatMap(({ value, incidences }) =>
    incidences.flatMap((steps, end) =>
      steps.map((step) => ({
        group: value,
        end: ENDS[end],
        time: step.time,
        "at-risk": step.atRisk,
        events: step.events,
        share: step.incidence,
        low: Number.isFinite(step.low) ? step.low : null,
        high: Number.isFinite(step.high) ? step.high : null,
        "standard-error": step.standardError,
      })),
    ),
  ),
});

/** Each ending with its time and end, for other programs. */
const spellsTable = (id: string, { spells }: EndGroup): Table => ({
  id: `${id}-cases`,
  caption: "Each ending's time and end",
  columns: [whole("time", "moves"), text("end", "end"), text("how", "how"), whole("cluster", "defender")],
  rows: spells.map(({ time, end, how, cluster }) => ({
    time,
    end: end === null ? "broken off" : ENDS[end],
    how,
    cluster,
  })),
});

function groupTable(id: string, caption: string, groups: readonly EndGroup[]): Table {
  const count = ({ spells }: EndGroup, end: number | null) => spells.filter((one) => one.end === end).length;
  return {
    id: `${id}-groups`,
    caption,
    columns: [
      text("group", "group"),
      whole("cases", "endings"),
      whole("lost", ENDS[0]),
      whole("resigned", ENDS[1]),
      whole("held", ENDS[2]),
      whole("open", "broken off"),
      whole("median", "median, other ends apart"),
      text("interval", "95 % interval"),
      whole("longest", "longest seen"),
    ],
    rows: groups.map((one) => ({
      group: one.value,
      cases: one.spells.length,
      lost: count(one, 0),
      resigned: count(one, 1),
      held: count(one, 2),
      open: count(one, null),
      median: one.survival.median,
      interval:
        one.survival.medianLow === null
          ? "not reached"
          : one.survival.medianHigh === null
            ? `${one.survival.medianLow} or more`
            : `${one.survival.medianLow} to ${one.survival.medianHigh}`,
      longest: one.survival.longest,
    })),
    note: "Median, other ends apart: the moves after which half would have lost the draw if nothing else ended it, by the product-limit estimate (Kaplan & Meier 1958); sound only if the other ends came without regard to how the defence stood. Where the curve stays at one half, the middle of that stretch.",
  };
}

/** How it ended, as the files have it. */
function howTable(id: string, { spells }: EndGroup): Table {
  const kinds = new Map<string, { end: string; how: string; count: number }>();
  for (const { end, how } of spells) {
    const name = end === null ? "broken off" : ENDS[end];
    const row = kinds.get(`${name} ${how}`);
    if (row) ++row.count;
    else kinds.set(`${name} ${how}`, { end: name, how, count: 1 });
  }
  return {
    id: `${id}-ends`,
    caption: "How it ended",
    columns: [text("end", "end"), text("how", "by"), whole("count", "endings")],
    rows: [...kinds.values()].sort((a, b) => b.count - a.count || (a.end + a.how < b.end + b.how ? -1 : 1)),
  };
}

const logRankTable = (id: string, split: Split, { chiSquare, degrees, p }: LogRank): Table => ({
  id: `${id}-log-rank`,
  caption: `Log-rank test by ${split.name}`,
  columns: [
    { name: "chi-square", head: "χ²", kind: "decimal" },
    whole("degrees", "degrees of freedom"),
    { name: "p", head: "p", kind: "text" },
  ],
  rows: [{ "chi-square": chiSquare, degrees, p: p.toPrecision(3) }],
});

const logRankInWords = (split: Split, { chiSquare, degrees, p }: LogRank): string =>
  `Do the groups of ${LEAST_CASES} or more by ${split.name} differ in how fast a move loses the draw? Log-rank χ² = ${chiSquare.toFixed(2)} on ${counted(degrees, "degree")} of freedom, p ${p < 0.0001 ? "< 0.0001" : `= ${p.toFixed(4)}`}.`;

/** `start` says from where time is counted: "from the entry". */
export function endSection(
  id: string,
  title: string,
  start: string,
  { all, groups, without, logRank }: EndStudy,
  split: Split,
): Section {
  if (all.spells.length === 0) return { title, paragraphs: [`No ending is drawn ${start}.`], parts: [] };
  const axis = `moves of the defender ${start}`;
  const curves = ENDS.map((label, end) => ({ label, steps: all.incidences[end] })).filter(
    ({ steps }) => (steps.at(-1)?.incidence ?? 0) > 0,
  );
  const parts: Part[] = [
    {
      chart: {
        id,
        caption: "What share of the endings has ended in which way, while ten or more are still going on.",
        svg: incidenceChart(curves.length > 0 ? curves : [{ label: ENDS[0], steps: [] }], title, axis),
      },
    },
    { table: timesTable(id, start, all) },
    { table: howTable(id, all), appendix: true },
    { table: groupTable(id, `How it ended, by ${split.name}`, [all, ...groups]), appendix: true },
  ];
  const compared = groups.filter(({ spells }) => spells.length >= LEAST_CASES);
  if (compared.length >= 2)
    parts.push({
      appendix: true,
      chart: {
        id: `${id}-groups`,
        caption: `Lost by a move, by ${split.name}, groups of ${LEAST_CASES} endings or more${compared.length > MOST_CURVES ? `, the ${MOST_CURVES} largest` : ""}; the band is of the first.`,
        svg: incidenceChart(
          [...compared]
            .sort((a, b) => b.spells.length - a.spells.length)
            .map(({ value, incidences }) => ({ label: value, steps: incidences[0] })),
          `${title}, by ${split.name}`,
          axis,
        ),
      },
    });
  const lost = all.spells.filter(({ end }) => end === 0).length;
  const paragraphs = [
    `Time is counted ${start} in the ${counted(all.spells.length, "ending")} not won for the attacker there; in ${lost} of them a move of the defender lost the draw (or a win). ${counted(without, "ending")} ${without === 1 ? "has" : "have"} no such start.`,
  ];
  if (logRank) {
    parts.push({ table: logRankTable(id, split, logRank), appendix: true });
    paragraphs.push(logRankInWords(split, logRank));
  }
  return { title, paragraphs, parts, files: [stepsTable(id, [all, ...groups]), spellsTable(id, all)] };
}
