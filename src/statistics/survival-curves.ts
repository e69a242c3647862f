// Curves over time: survival where cases may be lost from sight, the incidence of one end beside others, groups compared.
// Tail probabilities come from a statistics library; each estimator is held to R's output in tests.

import jStat from "jstat";

import { type Interval, Z } from "./proportion.js";

const HALF = 0.5;
/** The last bits of a product of shares. */
const CLOSE = 1e-9;

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
  return {
    cases: spells.length,
    events: spells.filter(({ event }) => event).length,
    steps,
    median: crossing(steps, ({ survival }) => survival),
    medianLow: crossing(steps, ({ low, survival }) => (survival === 0 ? 0 : low)),
    medianHigh: crossing(steps, ({ high }) => high),
    longest: spells.reduce((most, { time }) => Math.max(most, time), 0),
  };
}

/**
 * Where a falling curve crosses one half; null where it does not. If it stays at one half from one time on, the middle
 * between that time and the next fall, as R's survival package (3.5-3) has it.
 */
function crossing(steps: readonly SurvivalStep[], at: (step: SurvivalStep) => number): number | null {
  const first = steps.findIndex((step) => at(step) <= HALF + CLOSE);
  if (first < 0) return null;
  const { time } = steps[first];
  if (at(steps[first]) < HALF - CLOSE) return time;
  const next = steps.slice(first + 1).find((step) => at(step) < HALF - CLOSE);
  return next ? (time + next.time) / 2 : time;
}

/** Cases still in sight at a time: those whose own time is not before it. */
export const atRiskAt = (spells: readonly Pick<Spell, "time">[], time: number): number =>
  spells.filter((spell) => spell.time >= time).length;

/** The same at each of some rising times, with the events that come then. */
function tableAt(spells: readonly Spell[], times: readonly number[]): { atRisk: number; events: number }[] {
  const all = Float64Array.from(spells, ({ time }) => time).sort();
  const met = Float64Array.from(
    spells.filter(({ event }) => event),
    ({ time }) => time,
  ).sort();
  let [gone, before] = [0, 0];
  return times.map((time) => {
    while (gone < all.length && all[gone] < time) ++gone;
    while (before < met.length && met[before] < time) ++before;
    let events = 0;
    while (before + events < met.length && met[before + events] === time) ++events;
    return { atRisk: all.length - gone, events };
  });
}

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
  const tables = groups.map((group) => tableAt(group, times));
  for (const [step] of times.entries()) {
    const atRisk = tables.map((table) => table[step].atRisk);
    const all = atRisk.reduce((sum, n) => sum + n, 0);
    const events = tables.reduce((sum, table) => sum + table[step].events, 0);
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

/** A case with its end: the place of one among `ends`, or null where it was lost from sight. */
export interface EndedSpell {
  readonly time: number;
  readonly end: number | null;
  /** Cases with one number belong together. */
  readonly cluster: number;
}

/** What share has come to an end by a time. */
export interface IncidenceStep extends Interval {
  readonly time: number;
  readonly atRisk: number;
  /** Ends of this kind at this time. */
  readonly events: number;
  readonly incidence: number;
  readonly standardError: number;
}

/**
 * The cumulative incidence of each of `ends` beside the others (Aalen & Johansen, Scandinavian Journal of Statistics 5,
 * 1978): the share of cases that have met it by a time, where the others are ends and not losses from sight. Variances are
 * those of the infinitesimal jackknife, as in R's survival package, summed over clusters; 95 % limits on the log(−log) scale
 * (Kalbfleisch & Prentice 1980). One list of steps for each end, each with a step at every time at which any end came.
 */
export function incidences(spells: readonly EndedSpell[], ends: number): IncidenceStep[][] {
  const sorted = [...spells].sort((a, b) => a.time - b.time);
  const clusters = new Map<number, number>();
  const clusterOf = Int32Array.from(sorted, ({ cluster }) => {
    if (!clusters.has(cluster)) clusters.set(cluster, clusters.size);
    return clusters.get(cluster)!;
  });
  // cases of one time and one end have the same influence
  const kinds: { readonly time: number; readonly end: number | null }[] = [];
  let ofTime: (number | undefined)[] = [];
  const kindOf = Int32Array.from(sorted, ({ time, end }, n) => {
    if (n > 0 && sorted[n - 1].time !== time) ofTime = [];
    return (ofTime[end ?? ends] ??= kinds.push({ time, end }) - 1);
  });
  const times = [...new Set(sorted.filter(({ end }) => end !== null).map(({ time }) => time))];
  const steps: IncidenceStep[][] = Array.from({ length: ends }, () => []);
  const incidence = new Float64Array(ends);
  let survival = 1;
  // influence of each kind of case on survival and on each incidence
  const onSurvival = new Float64Array(kinds.length);
  const onEnd = Array.from({ length: ends }, () => new Float64Array(kinds.length));
  const sums = new Float64Array(clusters.size);
  let first = 0;
  for (const time of times) {
    while (sorted[first].time < time) ++first;
    const atRisk = sorted.length - first;
    const events = new Float64Array(ends);
    for (let n = first; n < sorted.length && sorted[n].time === time; ++n)
      if (sorted[n].end !== null) ++events[sorted[n].end!];
    const hazards = Array.from(events, (count) => count / atRisk);
    const hazard = hazards.reduce((sum, one) => sum + one, 0);
    for (let n = 0; n < kinds.length; ++n) {
      const seen = kinds[n].time >= time;
      const here = kinds[n].time === time ? kinds[n].end : null;
      for (let end = 0; end < ends; ++end) {
        const own = seen ? ((here === end ? 1 : 0) - hazards[end]) / atRisk : 0;
        onEnd[end][n] += onSurvival[n] * hazards[end] + survival * own;
      }
      const own = seen ? ((here === null ? 0 : 1) - hazard) / atRisk : 0;
      onSurvival[n] = onSurvival[n] * (1 - hazard) - survival * own;
    }
    for (let end = 0; end < ends; ++end) {
      incidence[end] += survival * hazards[end];
      sums.fill(0);
      const influence = onEnd[end];
      for (let n = 0; n < kindOf.length; ++n) sums[clusterOf[n]] += influence[kindOf[n]];
      let squares = 0;
      for (let n = 0; n < sums.length; ++n) squares += sums[n] * sums[n];
      const standardError = Math.sqrt(squares);
      steps[end].push({
        time,
        atRisk,
        events: events[end],
        incidence: incidence[end],
        standardError,
        ...limitsOf(incidence[end], standardError),
      });
    }
    survival *= 1 - hazard;
  }
  return steps;
}

/** 95 % limits of a probability on the log(−log) scale; NaN at 0 and 1. */
function limitsOf(share: number, standardError: number): Interval {
  if (share <= 0 || share >= 1) return { low: NaN, high: NaN };
  const spread = (Z * standardError) / (share * Math.log(share));
  return { low: share ** Math.exp(-spread), high: share ** Math.exp(spread) };
}
