// Logistic regression: maximum likelihood by Newton's method, with errors that know that cases belong together. Own code,
// since no kept library has it; held to R's glm and sandwich in tests.

import jStat from "jstat";

import { Z } from "./proportion.js";

/** A model's data: for each case the values of its terms (the constant among them) and whether it happened. */
export interface Cases {
  readonly terms: readonly string[];
  readonly rows: readonly (readonly number[])[];
  readonly happened: readonly boolean[];
  /** Numbers of what each case belongs to, in two ways, such as its two players. */
  readonly clusters: readonly (readonly [number, number])[];
}

export interface Coefficient {
  readonly term: string;
  readonly estimate: number;
  /** From the information matrix, and from the clusters. */
  readonly standardError: number;
  readonly clusteredError: number;
  readonly oddsRatio: number;
  readonly low: number;
  readonly high: number;
  /** Two-sided, of the clustered error (Wald). */
  readonly p: number;
}

export interface LogisticFit {
  readonly coefficients: readonly Coefficient[];
  readonly cases: number;
  readonly events: number;
  readonly logLikelihood: number;
  /** Clusters in each way. */
  readonly clusters: readonly [number, number];
}

const STEPS = 50;
const CLOSE = 1e-10;
/** From this size on an estimate runs off to infinity: its term tells the two kinds of cases apart without fail. */
const RUNAWAY = 15;

/** Σ over cases of a weight times the outer product of their rows. */
function outer(rows: readonly (readonly number[])[], weights: ArrayLike<number>): number[][] {
  const terms = rows[0].length;
  const sum = Array.from({ length: terms }, () => new Array<number>(terms).fill(0));
  rows.forEach((row, n) => {
    for (let a = 0; a < terms; ++a) {
      const weighted = weights[n] * row[a];
      for (let b = 0; b <= a; ++b) sum[a][b] += weighted * row[b];
    }
  });
  for (let a = 0; a < terms; ++a) for (let b = 0; b < a; ++b) sum[b][a] = sum[a][b];
  return sum;
}

const times = (matrix: readonly (readonly number[])[], vector: readonly number[]): number[] =>
  matrix.map((row) => row.reduce((sum, value, n) => sum + value * vector[n], 0));

/** The inverse of a positive definite matrix, by Cholesky's decomposition; undefined where it is not one. */
function inverse(matrix: readonly (readonly number[])[]): number[][] | undefined {
  const size = matrix.length;
  const lower = Array.from({ length: size }, () => new Array<number>(size).fill(0));
  for (let a = 0; a < size; ++a)
    for (let b = 0; b <= a; ++b) {
      let sum = matrix[a][b];
      for (let k = 0; k < b; ++k) sum -= lower[a][k] * lower[b][k];
      if (a === b) {
        // a term that follows from others leaves nothing
        if (!(sum > 1e-9 * Math.abs(matrix[a][a]))) return undefined;
        lower[a][a] = Math.sqrt(sum);
      } else lower[a][b] = sum / lower[b][b];
    }
  const columns = Array.from({ length: size }, (_, column) => {
    const forward = new Array<number>(size).fill(0);
    for (let a = 0; a < size; ++a) {
      let sum = a === column ? 1 : 0;
      for (let k = 0; k < a; ++k) sum -= lower[a][k] * forward[k];
      forward[a] = sum / lower[a][a];
    }
    const back = new Array<number>(size).fill(0);
    for (let a = size - 1; a >= 0; --a) {
      let sum = forward[a];
      for (let k = a + 1; k < size; ++k) sum -= lower[k][a] * back[k];
      back[a] = sum / lower[a][a];
    }
    return back;
  });
  return columns;
}

/** Σ of the outer products of the clusters' scores, times G / (G − 1). */
function meat(scores: readonly (readonly number[])[], keys: readonly (number | string)[]): number[][] {
  const sums = new Map<number | string, number[]>();
  scores.forEach((score, n) => {
    const sum = sums.get(keys[n]);
    if (sum) score.forEach((value, term) => (sum[term] += value));
    else sums.set(keys[n], [...score]);
  });
  const groups = sums.size;
  return outer([...sums.values()], new Float64Array(groups).fill(groups / (groups - 1)));
}

/**
 * Fits a logistic model. The clustered variance is the sandwich of the two ways in which cases belong together: the first's
 * and the second's less that of both (Cameron, Gelbach & Miller, Journal of Business & Economic Statistics 29, 2011), each with
 * the factor G / (G − 1), as R's sandwich package has it (vcovCL, HC0). Undefined where there is no maximum: a term tells
 * the cases apart without fail, or follows from others.
 */
export function fitLogistic({ terms, rows, happened, clusters }: Cases): LogisticFit | undefined {
  if (rows.length <= terms.length) return undefined;
  const y = happened.map(Number);
  let estimates = terms.map(() => 0);
  let chances: number[] = [];
  let variance: number[][] | undefined;
  for (let step = 0; ; ++step) {
    chances = rows.map(
      (row) => 1 / (1 + Math.exp(-row.reduce((sum, value, n) => sum + value * estimates[n], 0))),
    );
    variance = inverse(
      outer(
        rows,
        chances.map((chance) => chance * (1 - chance)),
      ),
    );
    if (!variance) return undefined;
    const score = terms.map((_, term) =>
      rows.reduce((sum, row, n) => sum + row[term] * (y[n] - chances[n]), 0),
    );
    const change = times(variance, score);
    if (change.every((one) => Math.abs(one) < CLOSE)) break;
    if (step === STEPS) return undefined;
    estimates = estimates.map((one, n) => one + change[n]);
    if (estimates.some((one) => !Number.isFinite(one))) return undefined;
  }
  const scores = rows.map((row, n) => row.map((value) => value * (y[n] - chances[n])));
  const ways: (number | string)[][] = [
    clusters.map(([first]) => first),
    clusters.map(([, second]) => second),
    clusters.map(([first, second]) => `${first} ${second}`),
  ];
  const meats = ways.map((keys) => meat(scores, keys));
  const filling = terms.map((_, a) => terms.map((__, b) => meats[0][a][b] + meats[1][a][b] - meats[2][a][b]));
  const bread = variance;
  const clustered = (term: number): number => {
    const half = times(filling, bread[term]);
    const together = bread[term].reduce((sum, value, n) => sum + value * half[n], 0);
    if (together > 0) return Math.sqrt(together);
    // with few clusters the difference may be negative: then the larger of the two
    const one = (of: number[][]) =>
      bread[term].reduce((sum, value, n) => sum + value * times(of, bread[term])[n], 0);
    return Math.sqrt(Math.max(one(meats[0]), one(meats[1])));
  };
  const deviations = terms.map((_, term) => Math.sqrt(bread[term][term]));
  if (estimates.some((one, n) => Math.abs(one) > RUNAWAY && deviations[n] > Math.abs(one))) return undefined;
  return {
    coefficients: terms.map((term, n) => {
      const error = clustered(n);
      return {
        term,
        estimate: estimates[n],
        standardError: deviations[n],
        clusteredError: error,
        oddsRatio: Math.exp(estimates[n]),
        low: Math.exp(estimates[n] - Z * error),
        high: Math.exp(estimates[n] + Z * error),
        p: 2 * (1 - jStat.normal.cdf(Math.abs(estimates[n]) / error, 0, 1)),
      };
    }),
    cases: rows.length,
    events: y.reduce((sum, one) => sum + one, 0),
    logLikelihood: y.reduce((sum, one, n) => sum + Math.log(one === 1 ? chances[n] : 1 - chances[n]), 0),
    clusters: [new Set(ways[0]).size, new Set(ways[1]).size],
  };
}

/**
 * Probabilities adjusted for how often one looked (Holm, Scandinavian Journal of Statistics 6, 1979), in the order given.
 */
export function holm(given: readonly number[]): number[] {
  const order = given.map((p, n) => ({ p, n })).sort((a, b) => a.p - b.p);
  const adjusted = new Array<number>(given.length);
  let least = 0;
  order.forEach(({ p, n }, place) => {
    least = Math.max(least, Math.min(1, p * (given.length - place)));
    adjusted[n] = least;
  });
  return adjusted;
}
