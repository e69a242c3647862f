// Proportions against published values, and against R 4.2.2 with survey and sandwich.

import fc from "fast-check";
import { describe, expect, it } from "vitest";

import { clusterVariance, clusteredProportion, proportion } from "../../src/statistics/proportion.js";

describe("a proportion's interval", () => {
  it.each([
    // Newcombe, Statistics in Medicine 17, 1998, table I, method 3 (from memory; R's prop.test agrees)
    [81, 263, 0.2553, 0.3662],
    [15, 148, 0.0624, 0.1605],
    [0, 20, 0, 0.1611],
    [1, 29, 0.0061, 0.1718],
  ])("%i of %i", (count, of, low, high) => {
    const found = proportion(count, of);
    expect(found.low).toBeCloseTo(low, 4);
    expect(found.high).toBeCloseTo(high, 4);
  });

  it("lies between 0 and 1 and holds the share", () => {
    fc.assert(
      fc.property(
        fc.integer({ min: 1, max: 5000 }),
        fc.double({ min: 0, max: 1, noNaN: true }),
        (of, part) => {
          const { share, low, high } = proportion(Math.round(of * part), of);
          expect(low).toBeGreaterThanOrEqual(0);
          expect(high).toBeLessThanOrEqual(1);
          expect(low).toBeLessThanOrEqual(share);
          expect(high).toBeGreaterThanOrEqual(share);
        },
      ),
    );
    expect(proportion(0, 0).share).toBeNaN();
  });
});

describe("cases that belong together", () => {
  /** Cars with a manual gearbox, by number of carburettors and of gears (R's mtcars; Henderson & Velleman, Biometrics 37, 1981). */
  const AM = "1 1 1 0 0 0 0 0 0 0 0 0 0 0 0 0 0 1 1 1 0 0 0 0 0 1 1 1 1 1 1 1".split(" ").map(Number);
  const CARB = "4 4 1 1 2 1 4 2 2 4 4 3 3 3 4 4 4 1 2 1 1 2 2 4 2 1 2 2 4 6 8 2".split(" ");
  const GEAR = "4 4 4 3 3 3 3 4 4 4 4 3 3 3 3 3 3 4 4 4 3 3 3 3 3 4 5 5 5 5 5 4".split(" ");
  const by = (keys: readonly string[]) => {
    const clusters = [...new Set(keys)].map((key) => AM.filter((_, n) => keys[n] === key));
    return {
      counts: clusters.map((of) => of.reduce((sum, one) => sum + one, 0)),
      of: clusters.map(({ length }) => length),
    };
  };
  const BOTH = CARB.map((key, n) => `${key} ${GEAR[n]}`);

  it("have the variance of R's survey package: svymean with clusters, standard error 0.073899395", () => {
    expect(Math.sqrt(clusterVariance(by(CARB), 13 / 32, 32))).toBeCloseTo(0.073899395, 8);
  });

  it("in two ways that of R's sandwich package: vcovCL, HC0, standard error 0.25999901", () => {
    const ways = [by(CARB), by(GEAR), by(BOTH)] as const;
    const [first, second, both] = ways.map((clusters) => clusterVariance(clusters, 13 / 32, 32));
    expect(Math.sqrt(first + second - both)).toBeCloseTo(0.25999901, 7);
    const found = clusteredProportion(13, 32, ways);
    expect(found.effect).toBeCloseTo(0.25999901 ** 2 / (((13 / 32) * (19 / 32)) / 32), 4);
    const plain = proportion(13, 32);
    expect(found.low).toBeLessThan(plain.low);
    expect(found.high).toBeGreaterThan(plain.high);
  });

  it("that are each alone are worth what they are, but for Student's quantile", () => {
    const alone = { counts: AM, of: AM.map(() => 1) };
    const found = clusteredProportion(13, 32, [alone, alone, alone]);
    expect(found.effect).toBeCloseTo(32 / 31, 9);
    expect(found.low).toBeCloseTo(proportion(13, 32).low, 1);
  });

  it("of which all count are worth as many as there are clusters", () => {
    const full = { counts: [10, 10], of: [10, 10] };
    expect(clusteredProportion(20, 20, [full, full, full]).low).toBeCloseTo(proportion(2, 2).low, 9);
  });
});
