// The estimators of the reports: proportions with their interval, survival with censoring, groups compared. Quantiles
// and tail probabilities come from a statistics library; each estimator is held to R's output in tests.

import jStat from "jstat";

/** One half and the last bits of a product of shares. */
const HALF = 0.5 + 1e-9;
/** Two-sided 95 %. */
const Z = jStat.normal.inv(0.975, 0, 1);

export interface Interval {
  readonly low: number;
  readonly high: number;
}

/** A proportion: `count` of `of`, with its 95 % interval; all NaN of nothing. */
export interface Proportion extends Interval {
  readonly count: number;
  readonly of: number;
  readonly share: number;
}

/** Denominators below this are marked: the interval says more than the share (common practice, no source). */
export const SMALL = 20;

/**
 * The score interval of a proportion (E. B. Wilson, "Probable inference, the law of succession, and statistical
 * inference", JASA 22, 1927), which keeps its promise in small samples and near 0 and 1 (Newcombe, Statistics in
 * Medicine 17, 1998). It takes the cases for independent.
 */
export function proportion(count: number, of: number): Proportion {
  if (of === 0) return { count, of, share: NaN, low: NaN, high: NaN };
  const share = count / of;
  const z2 = (Z * Z) / of;
  const middle = share + z2 / 2;
  const spread = Z * Math.sqrt((share * (1 - share)) / of + z2 / (4 * of));
  return {
    count,
    of,
    share,
    low: count === 0 ? 0 : (middle - spread) / (1 + z2),
    high: count === of ? 1 : (middle + spread) / (1 + z2),
  };
}

/** A proportion for files and programs: no share of nothing, and whether it is of few. */
export const plainProportion = ({ count, of, share, low, high }: Proportion) => ({
  count,
  of,
  share: of === 0 ? null : share,
  low: of === 0 ? null : low,
  high: of === 0 ? null : high,
  small: of < SMALL,
});

/** How long one case was seen: until the event, or until it was lost from sight (censored). */
export interface Spell {
  readonly time: number;
  readonly event: boolean;
}

/** What is known at one time at which events happened. */
export interface SurvivalStep extends Interval {
  readonly time: number;
  readonly atRisk: number;
  readonly events: number;
  /** Share that lasts beyond this time. */
  readonly survival: number;
  /** Of `survival` (Greenwood, 1926). */
  readonly standardError: number;
}

export interface Survival {
  readonly cases: number;
  readonly events: number;
  readonly steps: readonly SurvivalStep[];
  /** The first time by which half have met the event, with its interval; null where that is not reached. */
  readonly median: number | null;
  readonly medianLow: number | null;
  readonly medianHigh: number | null;
  readonly longest: number;
}

/** Times of events in order, with the events and those still in sight just before. */
function eventTable(spells: readonly Spell[]): { time: number; events: number; atRisk: number }[] {
  const sorted = [...spells].sort((a, b) => a.time - b.time);
  const table: { time: number; events: number; atRisk: number }[] = [];
  sorted.forEach(({ time, event }, n) => {
    if (!event) return;
    const last = table.at(-1);
    if (last?.time === time) {
      ++last.events;
    } else {
      // every case whose time is not before this one was still in sight
      let first = n;
      while (first > 0 && sorted[first - 1].time === time) --first;
      table.push({ time, events: 1, atRisk: sorted.length - first });
    }
  });
  return table;
}

/**
 * The product-limit estimate (Kaplan & Meier, JASA 53, 1958) with Greenwood's variance and 95 % limits on the log(−log)
 * scale (Kalbfleisch & Prentice, The Statistical Analysis of Failure Time Data, 1980), which stay between 0 and 1. The
 * median's limits are those of Brookmeyer & Crowley (Biometrics 38, 1982): where the limits of the curve cross one half.
 */
export function survivalOf(spells: readonly Spell[]): Survival {
  let survival = 1;
  let sum = 0;
  const steps = eventTable(spells).map(({ time, events, atRisk }): SurvivalStep => {
    survival *= 1 - events / atRisk;
    sum += events / (atRisk * (atRisk - events));
    if (survival === 0) return { time, atRisk, events, survival, standardError: NaN, low: NaN, high: NaN };
    const spread = (Z * Math.sqrt(sum)) / Math.log(survival);
    return {
      time,
      atRisk,
      events,
      survival,
      standardError: survival * Math.sqrt(sum),
      low: survival ** Math.exp(-spread),
      high: survival ** Math.exp(spread),
    };
  });
  const first = (below: (step: SurvivalStep) => boolean) => steps.find(below)?.time ?? null;
  return {
    cases: spells.length,
    events: spells.filter(({ event }) => event).length,
    steps,
    median: first((step) => step.survival <= HALF),
    medianLow: first((step) => step.low <= HALF || step.survival === 0),
    medianHigh: first((step) => step.high <= HALF),
    longest: spells.reduce((most, { time }) => Math.max(most, time), 0),
  };
}

/** Cases still in sight at a time: those whose own time is not before it. */
export const atRiskAt = (spells: readonly Spell[], time: number): number =>
  spells.filter((spell) => spell.time >= time).length;

export interface LogRank {
  readonly chiSquare: number;
  readonly degrees: number;
  /** Probability of so great a difference where there is none. */
  readonly p: number;
  /** Events in each group, and how many there would be if all groups were alike. */
  readonly groups: readonly { readonly observed: number; readonly expected: number }[];
}

/**
 * The log-rank test of equal survival in two or more groups (Mantel, Cancer Chemotherapy Reports 50, 1966; Peto & Peto,
 * JRSS A 135, 1972). Undefined with fewer than two groups or no events.
 */
export function logRank(given: readonly (readonly Spell[])[]): LogRank | undefined {
  const first = given
    .flat()
    .reduce((least, { time, event }) => (event ? Math.min(least, time) : least), Infinity);
  // a case censored before the first event says nothing about any
  const groups = given.filter((group) => group.some(({ time }) => time >= first));
  const times = [
    ...new Set(groups.flatMap((group) => group.filter(({ event }) => event).map(({ time }) => time))),
  ].sort((a, b) => a - b);
  if (groups.length < 2 || times.length === 0) return undefined;
  const observed = groups.map((group) => group.filter(({ event }) => event).length);
  const expected = groups.map(() => 0);
  // the last group follows from the others
  const free = groups.length - 1;
  const variance = Array.from({ length: free }, () => new Array<number>(free).fill(0));
  for (const time of times) {
    const atRisk = groups.map((group) => atRiskAt(group, time));
    const all = atRisk.reduce((sum, n) => sum + n, 0);
    const events = groups.reduce(
      (sum, group) => sum + group.filter((spell) => spell.event && spell.time === time).length,
      0,
    );
    atRisk.forEach((n, g) => (expected[g] += (events * n) / all));
    if (all < 2) continue;
    const scale = (events * (all - events)) / (all - 1);
    for (let g = 0; g < free; ++g)
      for (let h = 0; h < free; ++h)
        variance[g][h] += scale * ((g === h ? atRisk[g] / all : 0) - (atRisk[g] * atRisk[h]) / (all * all));
  }
  const differences = observed.slice(0, free).map((n, g) => n - expected[g]);
  const inverse = jStat.inv(variance);
  const chiSquare = differences.reduce(
    (sum, one, g) => sum + differences.reduce((inner, other, h) => inner + one * inverse[g][h] * other, 0),
    0,
  );
  // groups that were never in sight at the same time cannot be compared
  if (!Number.isFinite(chiSquare)) return undefined;
  return {
    chiSquare,
    degrees: free,
    p: 1 - jStat.chisquare.cdf(chiSquare, free),
    groups: groups.map((_, g) => ({ observed: observed[g], expected: expected[g] })),
  };
}
