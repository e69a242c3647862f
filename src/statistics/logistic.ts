// Logistic regression: maximum likelihood by Newton's method, with errors that know that cases belong together. Own code,
// since no kept library has it; held to R's glm and sandwich in tests.

import jStat from "jstat";

import { pairsOf } from "./pairs.js";
import { Z } from "./proportion.js";

/** Rows of numbers, one for each term of a model. */
export interface Rows {
  readonly count: number;
  /**
   * Writes the rows from one up to and without another, term by term: the values of the first term at the beginning of
   * `into`, those of each other term `stride` behind those of the one before.
   */
  readonly read: (from: number, to: number, into: Float64Array, stride: number) => void;
}

/** Rows that stand one behind the other in an array. */
export const rowsIn = (values: Float64Array, terms: number): Rows => ({
  count: values.length / terms,
  read(from, to, into, stride) {
    for (let row = from; row < to; ++row)
      for (let term = 0; term < terms; ++term) into[term * stride + row - from] = values[row * terms + term];
  },
});

/** A model's data: the values of its terms (the constant among them) in each case, and whether it happened. */
export interface Cases {
  readonly terms: readonly string[];
  readonly rows: Rows;
  /** The number of each case's row, where cases share rows; where it is left out, each case has its own, in order. */
  readonly rowOf?: Uint16Array;
  /** Of each case: 0 or 1. */
  readonly happened: Uint8Array;
  /** Numbers of what each case belongs to, in two ways, such as its two players; whole, from 0 on. */
  readonly clusters: readonly [Int32Array, Int32Array];
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

/** Rows that are looked at together: so many fit into a processor's cache. */
const BLOCK = 1024;
/** So many rows are many; then one in so many blocks of them is looked at first. */
const MANY = 200 * BLOCK;
const PART = 16;

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

/** A square of zeros. */
const square = (size: number): number[][] =>
  Array.from({ length: size }, () => new Array<number>(size).fill(0));

/** Fills what lies above the diagonal of a matrix with what lies below it. */
function mirror(matrix: number[][]): number[][] {
  for (let a = 0; a < matrix.length; ++a) for (let b = 0; b < a; ++b) matrix[b][a] = matrix[a][b];
  return matrix;
}

/** What there is to be fitted: rows, how many cases each has, and how many of these happened. */
interface Counts {
  readonly terms: number;
  readonly rows: Rows;
  readonly of: ArrayLike<number>;
  readonly happened: ArrayLike<number>;
}

/** The sums of the products of `weighted` with four terms that stand one behind the other in a block. */
function fourProducts(weighted: Float64Array, block: Float64Array, first: number, size: number): number[] {
  const [b, c, d] = [first + BLOCK, first + 2 * BLOCK, first + 3 * BLOCK];
  // each of the four sums waits for its own last addition only
  let [p, q, r, s] = [0, 0, 0, 0];
  for (let n = 0; n < size; ++n) {
    const weight = weighted[n];
    p += weight * block[first + n];
    q += weight * block[b + n];
    r += weight * block[c + n];
    s += weight * block[d + n];
  }
  return [p, q, r, s];
}

/**
 * The chance of each row by some estimates, into `chances`; the score, and the information of all cases. `every`: only one
 * in so many blocks of rows is looked at.
 */
function pass(
  { terms, rows, of, happened }: Counts,
  estimates: readonly number[],
  chances: Float64Array,
  every: number,
) {
  const score = new Array<number>(terms).fill(0);
  const information = square(terms);
  // room for as many terms as four go into, the last of them 0
  const fours = Math.ceil(terms / 4) * 4;
  const block = new Float64Array(fours * BLOCK);
  const weights = new Float64Array(BLOCK);
  const weighted = new Float64Array(BLOCK);
  const residuals = new Float64Array(BLOCK);
  for (let from = 0; from < rows.count; from += BLOCK * every) {
    const size = Math.min(BLOCK, rows.count - from);
    rows.read(from, from + size, block, BLOCK);
    const sums = weights.fill(0);
    for (let term = 0; term < terms; ++term) {
      const estimate = estimates[term];
      for (let n = 0, at = term * BLOCK; n < size; ++n, ++at) sums[n] += estimate * block[at];
    }
    for (let n = 0; n < size; ++n) {
      const chance = 1 / (1 + Math.exp(-sums[n]));
      chances[from + n] = chance;
      residuals[n] = happened[from + n] - of[from + n] * chance;
      weights[n] = of[from + n] * chance * (1 - chance);
    }
    for (let b = 0; b < terms; b += 4) {
      const sums = fourProducts(residuals, block, b * BLOCK, size);
      for (let n = b; n < Math.min(b + 4, terms); ++n) score[n] += sums[n - b];
    }
    for (let a = 0; a < terms; ++a) {
      for (let n = 0, at = a * BLOCK; n < size; ++n, ++at) weighted[n] = weights[n] * block[at];
      for (let b = 0; b <= a; b += 4) {
        const products = fourProducts(weighted, block, b * BLOCK, size);
        for (let n = b; n < Math.min(b + 4, a + 1); ++n) information[a][n] += products[n - b];
      }
    }
  }
  return { score, information: mirror(information) };
}

/**
 * The estimates of the greatest likelihood by Newton's method from some others, of one in `every` blocks of rows, and the
 * inverse of their information; undefined where there is no maximum.
 */
function maximum(counts: Counts, begin: readonly number[], chances: Float64Array, every: number) {
  let estimates = begin;
  for (let step = 0; ; ++step) {
    const { score, information } = pass(counts, estimates, chances, every);
    const bread = inverse(information);
    if (!bread) return undefined;
    const change = times(bread, score);
    if (change.every((one) => Math.abs(one) < CLOSE)) return { estimates, bread };
    if (step === STEPS) return undefined;
    estimates = estimates.map((one, n) => one + change[n]);
    if (estimates.some((one) => !Number.isFinite(one))) return undefined;
  }
}

/** Σ of the outer products of the clusters' scores, times G / (G − 1); and how many clusters there are. */
function meat({ terms, rows, rowOf, happened }: Cases, chances: Float64Array, clusters: Int32Array) {
  const size = terms.length;
  const most = clusters.reduce((greatest, one) => Math.max(greatest, one), -1);
  const sums = new Float64Array((most + 1) * size);
  const seen = new Uint8Array(most + 1);
  // rows that are shared are few: they are all at hand
  const stride = rowOf ? rows.count : BLOCK;
  const block = new Float64Array(size * stride);
  if (rowOf) rows.read(0, stride, block, stride);
  for (let n = 0; n < clusters.length; ++n) {
    if (!rowOf && n % BLOCK === 0) rows.read(n, Math.min(n + BLOCK, clusters.length), block, BLOCK);
    const row = rowOf ? rowOf[n] : n;
    const residual = happened[n] - chances[row];
    const cluster = clusters[n];
    seen[cluster] = 1;
    for (let term = 0, at = rowOf ? row : n % BLOCK, to = cluster * size; term < size; ++term, at += stride)
      sums[to + term] += residual * block[at];
  }
  const groups = seen.reduce((sum, one) => sum + one, 0);
  const matrix = square(size);
  for (let cluster = 0; cluster <= most; ++cluster)
    for (let a = 0, at = cluster * size; a < size; ++a)
      for (let b = 0; b <= a; ++b) matrix[a][b] += sums[at + a] * sums[at + b];
  return { groups, matrix: mirror(matrix).map((row) => row.map((sum) => (sum * groups) / (groups - 1))) };
}

/** How many cases each row has, and how many of these happened. */
function countsOf({ terms, rows, rowOf, happened }: Cases): Counts {
  if (!rowOf) return { terms: terms.length, rows, of: new Uint8Array(happened.length).fill(1), happened };
  const of = new Float64Array(rows.count);
  const met = new Float64Array(rows.count);
  for (let n = 0; n < rowOf.length; ++n) {
    ++of[rowOf[n]];
    met[rowOf[n]] += happened[n];
  }
  return { terms: terms.length, rows, of, happened: met };
}

/**
 * Fits a logistic model. The clustered variance is the sandwich of the two ways in which cases belong together: the first's
 * and the second's less that of both (Cameron, Gelbach & Miller, Journal of Business & Economic Statistics 29, 2011), each with
 * the factor G / (G − 1), as R's sandwich package has it (vcovCL, HC0). Undefined where there is no maximum: a term tells
 * the cases apart without fail, or follows from others.
 */
export function fitLogistic(cases: Cases): LogisticFit | undefined {
  const { terms, rows, happened, clusters } = cases;
  if (happened.length <= terms.length) return undefined;
  const counts = countsOf(cases);
  const chances = new Float64Array(rows.count);
  const nothing = terms.map(() => 0);
  // a part of many rows tells nearly the same, so that few passes over all are left
  const near = rows.count >= MANY ? maximum(counts, nothing, chances, PART)?.estimates : undefined;
  const found =
    maximum(counts, near ?? nothing, chances, 1) ?? (near && maximum(counts, nothing, chances, 1));
  if (!found) return undefined;
  const { estimates, bread: variance } = found;
  const [first, second] = clusters;
  const ways = [first, second, pairsOf(first, second)].map((way) => meat(cases, chances, way));
  const [one, other, both] = ways.map(({ matrix }) => matrix);
  const filling = terms.map((_, a) => terms.map((__, b) => one[a][b] + other[a][b] - both[a][b]));
  /** The variance of a term by the sandwich with some filling. */
  const sandwich = (of: number[][], term: number): number =>
    variance[term].reduce((sum, value, n) => sum + value * times(of, variance[term])[n], 0);
  const clustered = (term: number): number => {
    const together = sandwich(filling, term);
    // with few clusters the difference may be negative: then the larger of the two
    return Math.sqrt(together > 0 ? together : Math.max(sandwich(one, term), sandwich(other, term)));
  };
  const deviations = terms.map((_, term) => Math.sqrt(variance[term][term]));
  if (estimates.some((value, n) => Math.abs(value) > RUNAWAY && deviations[n] > Math.abs(value)))
    return undefined;
  let [events, logLikelihood] = [0, 0];
  for (let row = 0; row < rows.count; ++row) {
    const met = counts.happened[row];
    const missed = counts.of[row] - met;
    events += met;
    if (met > 0) logLikelihood += met * Math.log(chances[row]);
    if (missed > 0) logLikelihood += missed * Math.log(1 - chances[row]);
  }
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
    cases: happened.length,
    events,
    logLikelihood,
    clusters: [ways[0].groups, ways[1].groups],
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
