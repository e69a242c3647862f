// Shares as text.

import { expect, it } from "vitest";

import { proportion } from "../../src/statistics/proportion.js";
import { limitsText, percentText } from "../../src/statistics/percent.js";

it("a share has one decimal, and a dash stands for none", () => {
  expect([0, 0.625, 1, null, NaN].map(percentText)).toEqual(["0.0 %", "62.5 %", "100.0 %", "–", "–"]);
});

it("an interval has its two limits", () => {
  // 5 of 8 by Wilson: 0.3057 to 0.8632
  expect(limitsText(proportion(5, 8))).toBe("30.6–86.3");
});
