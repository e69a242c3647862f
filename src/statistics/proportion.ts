// Proportions with their intervals, also where cases belong together. Held to R's output in tests.

import jStat from "jstat";

/** Two-sided 95 %. */
export const Z = jStat.normal.inv(0.975, 0, 1);

export interface Interval {
  readonly low: number;
  readonly high: number;
}

/** A proportion: `count` of `of`, with its 95 % interval; all NaN of nothing. */
export interface Proportion extends Interval {
  readonly count: number;
  readonly of: number;
  readonly share: number;
  /** How many times greater the variance is than with independent cases (Kish, Survey Sampling, 1965); 1 where they are. */
  readonly effect: number;
}

/** Denominators below this are marked: the interval says more than the share (common practice, no source). */
export const SMALL = 20;

/**
 * The score interval of a proportion (E. B. Wilson, "Probable inference, the law of succession, and statistical
 * inference", JASA 22, 1927), which keeps its promise in small samples and near 0 and 1 (Newcombe, Statistics in
 * Medicine 17, 1998). It takes the cases for independent.
 */
export const proportion = (count: number, of: number): Proportion => scoreInterval(count, of, of, 1);

/** Wilson's interval of `count` of `of` that say as much as `worth` independent cases. */
function scoreInterval(count: number, of: number, worth: number, effect: number): Proportion {
  if (of === 0) return { count, of, share: NaN, low: NaN, high: NaN, effect };
  const share = count / of;
  const z2 = (Z * Z) / worth;
  const middle = share + z2 / 2;
  const spread = Z * Math.sqrt((share * (1 - share)) / worth + z2 / (4 * worth));
  return {
    count,
    of,
    share,
    low: count === 0 ? 0 : (middle - spread) / (1 + z2),
    high: count === of ? 1 : (middle + spread) / (1 + z2),
    effect,
  };
}

/** Cases that belong together: of each cluster how many there are, and how many of them count. */
export interface Clusters {
  readonly counts: ArrayLike<number>;
  readonly of: ArrayLike<number>;
}

/** A ratio's variance between clusters, with the correction for few of them: Σ (count − share × of)² × G / (G − 1) / of². */
export function clusterVariance(clusters: Clusters, share: number, of: number): number {
  const groups = clusters.of.length;
  if (groups < 2) return NaN;
  let sum = 0;
  for (let n = 0; n < groups; ++n) sum += (clusters.counts[n] - share * clusters.of[n]) ** 2;
  return (sum * groups) / (groups - 1) / of ** 2;
}

/**
 * A proportion of cases that belong together in two ways at once, as games do by their two players: `ways` has the
 * clusters of the first, of the second, and of both together. The variance is the first's and the second's less that of
 * both (Cameron, Gelbach & Miller, Journal of Business & Economic Statistics 29, 2011); the interval is Wilson's with so
 * many cases as that variance is worth, and Student's quantile for so many clusters (after Korn & Graubard, Survey
 * Methodology 24, 1998). Cases are never taken for worth more than independent ones. Where all count or none does, there
 * is no variance to see: they are worth as many cases as there are clusters.
 */
export function clusteredProportion(
  count: number,
  of: number,
  ways: readonly [Clusters, Clusters, Clusters],
): Proportion {
  if (of === 0) return proportion(count, of);
  const share = count / of;
  const groups = Math.max(1, Math.min(...ways.map((clusters) => clusters.of.length)));
  if (share === 0 || share === 1) return scoreInterval(count, of, groups, of / groups);
  const [first, second, both] = ways.map((clusters) => clusterVariance(clusters, share, of));
  const together = first + second - both;
  const variance = together > 0 ? together : Math.max(first, second);
  const simple = (share * (1 - share)) / of;
  // a single cluster says nothing of how much clusters differ
  const effect = Number.isFinite(variance) ? Math.max(1, variance / simple) : of;
  const student = groups < 2 ? 1 : (jStat.studentt.inv(0.975, groups - 1) / Z) ** 2;
  return scoreInterval(count, of, Math.max(1, of / effect / student), effect);
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
