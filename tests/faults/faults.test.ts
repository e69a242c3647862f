// A short run of the campaign; `npm run faults` is the long one.

import { expect, it } from "vitest";

import { campaign } from "./run.js";

it("a few seconds of sabotage find no fault", async () => {
  const { tries, faults } = await campaign(8, 1);
  expect(faults).toEqual([]);
  expect(tries["kill index"]).toBeGreaterThan(0);
}, 120_000);
