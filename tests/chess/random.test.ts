// Repeatable random numbers.

import { expect, it } from "vitest";

import { randomNumbers } from "../../src/chess/random.js";

const numbers = (seed: number) => {
  const random = randomNumbers(seed);
  return Array.from({ length: 8 }, () => random());
};

it("every seed has numbers of its own, the same each time", () => {
  const seeds = Array.from({ length: 200 }, (_, n) => n + 1);
  expect(new Set(seeds.map((seed) => numbers(seed).join())).size).toBe(seeds.length);
  expect(numbers(42)).toEqual(numbers(42));
  expect(numbers(0).every((number) => number > 0 && number < 1)).toBe(true);
});
