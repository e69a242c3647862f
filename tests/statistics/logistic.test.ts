// Logistic regression against R 4.2.2: glm, and sandwich's vcovCL (HC0, with the factor for few clusters), on mtcars
// (Henderson & Velleman, Biometrics 37, 1981).

import { describe, expect, it } from "vitest";

import { type Cases, fitLogistic, holm, rowsIn } from "../../src/statistics/logistic.js";

const numbers = (text: string) => text.split(" ").map(Number);
const AM = numbers("1 1 1 0 0 0 0 0 0 0 0 0 0 0 0 0 0 1 1 1 0 0 0 0 0 1 1 1 1 1 1 1");
const WT = numbers(
  "2.62 2.875 2.32 3.215 3.44 3.46 3.57 3.19 3.15 3.44 3.44 4.07 3.73 3.78 5.25 5.424 5.345 2.2 1.615 1.835 2.465 3.52 3.435 3.84 3.845 1.935 2.14 1.513 3.17 2.77 3.57 2.78",
);
const HP = numbers(
  "110 110 93 110 175 105 245 62 95 123 123 180 180 180 205 215 230 66 52 65 97 150 150 245 175 66 91 113 264 175 335 109",
);
const CYL = numbers("6 6 4 6 8 6 8 4 4 6 6 8 8 8 8 8 8 4 4 4 4 8 8 8 8 4 4 4 8 6 8 4");
const GEAR = numbers("4 4 4 3 3 3 3 4 4 4 4 3 3 3 3 3 3 4 4 4 3 3 3 3 3 4 5 5 5 5 5 4");
const CARB = numbers("4 4 1 1 2 1 4 2 2 4 4 3 3 3 4 4 4 1 2 1 1 2 2 4 2 1 2 2 4 6 8 2");

const rows = (all: readonly (readonly number[])[]) => rowsIn(Float64Array.from(all.flat()), 3);
const cases = (first: readonly number[], second: readonly number[]): Cases => ({
  terms: ["constant", "wt", "hp"],
  rows: rows(WT.map((wt, n) => [1, wt, HP[n]])),
  happened: Uint8Array.from(AM),
  clusters: [Int32Array.from(first), Int32Array.from(second)],
});

describe("a logistic model", () => {
  it("has R's estimates and errors", () => {
    const { coefficients, logLikelihood, events } = fitLogistic(cases(CYL, GEAR))!;
    const found = coefficients.map(({ estimate, standardError }) => [estimate, standardError]);
    const wanted = [
      [18.866298717, 7.443558],
      [-8.083475182, 3.068675],
      [0.036255596, 0.017734154],
    ];
    found.forEach((row, n) => row.forEach((value, m) => expect(value).toBeCloseTo(wanted[n][m], 4)));
    expect(logLikelihood).toBeCloseTo(-5.0295552, 6);
    expect(events).toBe(13);
  });

  it.each([
    ["cylinders and gears", CYL, GEAR, [6.616221154, 2.049868824, 0.010044849]],
    ["carburettors and gears", CARB, GEAR, [8.16217263, 2.231082157, 0.0087655094]],
    ["cylinders alone", CYL, CYL, [8.3803926197, 3.0292058498, 0.0094164142]],
  ])("clustered by %s has those of its sandwich", (_, first, second, wanted) => {
    fitLogistic(cases(first, second))!.coefficients.forEach(({ clusteredError, estimate, p, low }, n) => {
      expect(clusteredError).toBeCloseTo(wanted[n], 4);
      expect(low).toBeCloseTo(Math.exp(estimate - 1.959964 * wanted[n]), 4);
      expect(p).toBeGreaterThanOrEqual(0);
    });
  });

  // of more than 200,000 rows a part is looked at first
  it.each([200, 7_000])("is the same where %s cases share each row, and where they do not", (times) => {
    const one = cases(CYL, GEAR);
    const often = Array.from({ length: times }, () => [...AM.keys()]).flat();
    const repeated = {
      ...one,
      happened: Uint8Array.from(often, (n) => AM[n]),
      clusters: [Int32Array.from(often, (n) => CYL[n]), Int32Array.from(often, (n) => GEAR[n])],
    } as const;
    const shared = fitLogistic({ ...repeated, rowOf: Uint16Array.from(often) })!;
    const apart = fitLogistic({ ...repeated, rows: rows(often.map((n) => [1, WT[n], HP[n]])) })!;
    expect(shared.cases).toBe(32 * times);
    const single = fitLogistic(one)!;
    shared.coefficients.forEach(({ estimate, standardError, clusteredError }, n) => {
      expect(estimate).toBeCloseTo(apart.coefficients[n].estimate, 9);
      expect(estimate).toBeCloseTo(single.coefficients[n].estimate, 9);
      expect(standardError).toBeCloseTo(single.coefficients[n].standardError / Math.sqrt(times), 9);
      expect(clusteredError).toBeCloseTo(apart.coefficients[n].clusteredError, 9);
      expect(clusteredError).toBeCloseTo(single.coefficients[n].clusteredError, 9);
    });
    expect(shared.logLikelihood).toBeCloseTo(apart.logLikelihood, 6);
    expect(shared.logLikelihood / times).toBeCloseTo(single.logLikelihood, 9);
  });

  it("is none where a term tells the cases apart without fail, or follows from others", () => {
    const one = cases(CYL, GEAR);
    expect(fitLogistic({ ...one, rows: rows(AM.map((am, n) => [1, am, HP[n]])) })).toBeUndefined();
    expect(fitLogistic({ ...one, rows: rows(WT.map((wt) => [1, wt, 2 * wt])) })).toBeUndefined();
    const none = new Int32Array();
    const nothing = { rows: rows([]), happened: new Uint8Array(), clusters: [none, none] } as const;
    expect(fitLogistic({ ...one, ...nothing })).toBeUndefined();
  });
});

it("probabilities are adjusted for the number of looks as R's p.adjust does (Holm)", () => {
  // p.adjust(c(0.01, 0.02, 0.03, 0.005), "holm")
  expect(holm([0.01, 0.02, 0.03, 0.005]).map((p) => Number(p.toFixed(6)))).toEqual([0.03, 0.04, 0.04, 0.02]);
  expect(holm([0.6, 0.7])).toEqual([1, 1]);
});
