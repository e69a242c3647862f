// The estimators against published values and against R 4.2.2 with survival 3.5-3, run for these data sets (values
// below are its output; the data sets are published, with their source beside them).

import fc from "fast-check";
import { describe, expect, it } from "vitest";

import { type Spell, incidences, logRank, survivalOf } from "../../src/statistics/survival-curves.js";

/** "6 7+": times, those with a plus censored. */
const spells = (text: string): Spell[] =>
  text.split(" ").map((time) => ({ time: Number.parseInt(time, 10), event: !time.endsWith("+") }));

/** Freireich et al., Blood 21, 1963: weeks of remission in leukaemia, with 6-MP and with placebo. */
const DRUG = spells("6 6 6 7 10 13 16 22 23 6+ 9+ 10+ 11+ 17+ 19+ 20+ 25+ 32+ 32+ 34+ 35+");
const PLACEBO = spells("1 1 2 2 3 4 4 5 5 8 8 8 8 11 11 12 12 15 17 22 23");

/** Miller, Survival Analysis, 1981, table 1 (R's data set aml): leukaemia, chemotherapy maintained or not. */
const MAINTAINED = spells("9 13 13+ 18 23 28+ 31 34 45+ 48 161+");
const NOT_MAINTAINED = spells("5 5 8 8 12 16+ 23 27 30 33 43 45");

/** Kalbfleisch & Prentice 1980 (R's data set veteran): lung cancer, by type of cell. */
const CELLS = [
  "72 411 228 126 118 10 82 110 314 100+ 42 8 144 25+ 11 999 112 87+ 231+ 242 991 111 1 587 389 33 25 357 467 201 1 30 44 283 15",
  "30 384 4 54 13 123+ 97+ 153 59 117 16 151 22 56 21 18 139 20 31 52 287 18 51 122 27 54 7 63 392 10 25 103+ 21 13 87 2 20 7 24 99 8 99 61 25 95 80 51 29",
  "8 92 35 117 132 12 162 3 95 24 18 83+ 31 51 90 52 73 8 36 48 7 140 186 84 19 45 80",
  "177 162 216 553 278 12 260 200 156 182+ 143 105 103 250 100 52 164 19 53 15 43 340 133 111 231 378 49",
].map(spells);

describe("survival", () => {
  const rows = (of: readonly Spell[]) =>
    survivalOf(of).steps.map(({ time, atRisk, events, survival, standardError, low, high }) => [
      time,
      atRisk,
      events,
      survival,
      standardError,
      low,
      high,
    ]);
  const close = (found: number[][], wanted: number[][]) => {
    expect(found.length).toBe(wanted.length);
    wanted.forEach((row, n) =>
      row.forEach((value, m) => {
        if (Number.isNaN(value)) expect(found[n][m]).toBeNaN();
        else expect(Math.abs(found[n][m] - value), `row ${n}, value ${m}`).toBeLessThan(0.00051);
      }),
    );
  };

  it("of 6-MP is that of R's survfit with log-log limits", () => {
    close(rows(DRUG), [
      [6, 21, 3, 0.857, 0.0764, 0.62, 0.952],
      [7, 17, 1, 0.807, 0.0869, 0.563, 0.923],
      [10, 15, 1, 0.753, 0.0963, 0.503, 0.889],
      [13, 12, 1, 0.69, 0.1068, 0.432, 0.849],
      [16, 11, 1, 0.627, 0.1141, 0.368, 0.805],
      [22, 7, 1, 0.538, 0.1282, 0.268, 0.747],
      [23, 6, 1, 0.448, 0.1346, 0.188, 0.68],
    ]);
    expect(survivalOf(DRUG)).toMatchObject({
      cases: 21,
      events: 9,
      median: 23,
      medianLow: 13,
      medianHigh: null,
    });
  });

  it("of aml as well, to the last event of all", () => {
    close(rows(NOT_MAINTAINED), [
      [5, 12, 2, 0.8333, 0.1076, 0.48171, 0.956],
      [8, 10, 2, 0.6667, 0.1361, 0.33702, 0.86],
      [12, 8, 1, 0.5833, 0.1423, 0.27014, 0.801],
      [23, 6, 1, 0.4861, 0.1481, 0.19188, 0.73],
      [27, 5, 1, 0.3889, 0.147, 0.12627, 0.65],
      [30, 4, 1, 0.2917, 0.1387, 0.0724, 0.561],
      [33, 3, 1, 0.1944, 0.1219, 0.0312, 0.461],
      [43, 2, 1, 0.0972, 0.0919, 0.00575, 0.349],
      [45, 1, 1, 0, NaN, NaN, NaN],
    ]);
    expect(survivalOf(MAINTAINED)).toMatchObject({ median: 31, medianLow: 13, medianHigh: null });
    expect(survivalOf(NOT_MAINTAINED)).toMatchObject({ median: 23, medianLow: 5, medianHigh: 33 });
  });

  it("medians of four groups are R's", () => {
    const medians = CELLS.map(survivalOf).map(({ median, medianLow, medianHigh }) => [
      median,
      medianLow,
      medianHigh,
    ]);
    expect(medians).toEqual([
      [118, 44, 242],
      [51, 24, 61],
      [51, 24, 90],
      [156, 100, 216],
    ]);
  });

  it("has its median where half are left, in the middle of a stretch at one half, as R has it", () => {
    for (let n = 2; n <= 60; n += 2) {
      const all = Array.from({ length: n }, (_, time) => ({ time: time + 1, event: true }));
      expect(survivalOf(all).median, `of ${n}`).toBe(n / 2 + 0.5);
    }
    expect(survivalOf(spells("1 2 3+ 4+")).median).toBe(2);
    expect(survivalOf(spells("1 2+ 3 4 5+ 6"))).toMatchObject({ median: 4, medianLow: 1, medianHigh: null });
    expect(survivalOf(spells("1 2 3 4 5 6 7 8 9 10"))).toMatchObject({
      median: 5.5,
      medianLow: 1,
      medianHigh: 8,
    });
    expect(survivalOf(Array.from({ length: 200_000 }, () => ({ time: 3, event: false }))).longest).toBe(3);
  });

  it("never rises, and without censoring is the share that is left", () => {
    const times = fc.array(fc.integer({ min: 0, max: 30 }), { minLength: 1, maxLength: 60 });
    fc.assert(
      fc.property(times, (all) => {
        const { steps } = survivalOf(all.map((time) => ({ time, event: true })));
        steps.forEach(({ time, survival }) =>
          expect(survival).toBeCloseTo(all.filter((other) => other > time).length / all.length, 9),
        );
      }),
    );
  });
});

describe("the log-rank test", () => {
  it("of 6-MP against placebo", () => {
    // survdiff: 19.3 and 10.7 expected; chi-square 16.79 in Kleinbaum & Klein, Survival Analysis, from memory
    const found = logRank([DRUG, PLACEBO])!;
    expect(found.chiSquare).toBeCloseTo(16.793, 2);
    expect(found.groups.map(({ observed }) => observed)).toEqual([9, 21]);
    expect(found.groups.map(({ expected }) => Number(expected.toFixed(1)))).toEqual([19.3, 10.7]);
    expect(found.p).toBeCloseTo(4.17e-5, 6);
  });

  it("of aml", () => {
    const found = logRank([MAINTAINED, NOT_MAINTAINED])!;
    expect(found.groups.map(({ expected }) => Number(expected.toFixed(2)))).toEqual([10.69, 7.31]);
    expect(found.chiSquare).toBeCloseTo(3.4, 1);
  });

  it("of four groups", () => {
    const found = logRank(CELLS)!;
    expect(found.chiSquare).toBeCloseTo(25.40370035, 6);
    expect(found.degrees).toBe(3);
    expect(found.p).toBeCloseTo(1.27e-5, 6);
  });

  it("is not asked of one group, or of groups without events", () => {
    expect(logRank([DRUG])).toBeUndefined();
    expect(logRank([spells("3+ 4+"), spells("5+")])).toBeUndefined();
    // a group out of sight before the first event changes nothing
    expect(logRank([DRUG, PLACEBO, spells("0+ 0+")])!.chiSquare).toBeCloseTo(16.793, 2);
  });
});

describe("the incidence of one end beside others", () => {
  // made-up times; R 4.2.2, survival 3.5-3: survfit(Surv(time, factor(end)) ~ 1), pstate and std.err
  const TIMES = [6, 6, 6, 7, 10, 13, 16, 22, 23, 6, 9, 10, 11, 17, 19, 20, 25, 32, 32, 34, 35];
  const KINDS = [1, 1, 2, 1, 2, 1, 1, 2, 1, 0, 2, 0, 1, 2, 0, 1, 0, 2, 0, 1, 0];
  const CASES = TIMES.map((time, n) => ({ time, end: KINDS[n] === 0 ? null : KINDS[n] - 1, cluster: n }));

  it("is R's, with its error", () => {
    const [lost, held] = incidences(CASES, 2);
    const row = (time: number) => lost.findIndex((step) => step.time === time);
    for (const [time, one, oneError, other, otherError] of [
      [6, 0.095238095, 0.064056448, 0.047619048, 0.046471432],
      [11, 0.199956906, 0.089831541, 0.148459384, 0.079178257],
      [20, 0.369640164, 0.112133624, 0.202758026, 0.090817352],
      [34, 0.545262336, 0.131097145, 0.340201465, 0.115392034],
    ]) {
      const n = row(time);
      expect(lost[n].incidence).toBeCloseTo(one, 8);
      expect(lost[n].standardError).toBeCloseTo(oneError, 8);
      expect(held[n].incidence).toBeCloseTo(other, 8);
      expect(held[n].standardError).toBeCloseTo(otherError, 8);
      expect(lost[n].low).toBeLessThan(one);
      expect(lost[n].high).toBeGreaterThan(one);
    }
    expect(lost.map(({ time }) => time)).toEqual([6, 7, 9, 10, 11, 13, 16, 17, 20, 22, 23, 32, 34]);
  });

  it("of a single end is one less survival", () => {
    const [only] = incidences(
      DRUG.map(({ time, event }, cluster) => ({ time, end: event ? 0 : null, cluster })),
      1,
    );
    expect(only.map(({ incidence }) => 1 - incidence)).toEqual(
      survivalOf(DRUG).steps.map(({ survival }) => expect.closeTo(survival, 9) as number),
    );
  });

  it("of cases that each stand there twice, the two belonging together, has the error of the single ones", () => {
    const twice = [...CASES, ...CASES];
    incidences(twice, 2).forEach((steps, end) =>
      steps.forEach(({ standardError }, n) =>
        expect(standardError).toBeCloseTo(incidences(CASES, 2)[end][n].standardError, 9),
      ),
    );
    const apart = incidences(
      twice.map((one, cluster) => ({ ...one, cluster })),
      2,
    );
    expect(apart[0].at(-1)!.standardError).toBeLessThan(incidences(CASES, 2)[0].at(-1)!.standardError);
  });
});
