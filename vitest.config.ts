// Two kinds of tests. The unit tests need nothing but the sources: no compiled kernel, no tables, no threads and no
// other process. All others need what `npm run build` makes.

import { defineConfig } from "vitest/config";

/** The unit tests; `.ci/run` runs them before there is a build, which keeps this list honest. */
const UNIT = [
  "tests/house.test.ts",
  "tests/chess/*.test.ts",
  "tests/cli/{output,terminal}.test.ts",
  "tests/indexing/ordered-queue.test.ts",
  "tests/pgn/{circumstances,replay}.test.ts",
  "tests/position/wording.test.ts",
  "tests/query/{completion,parse}.test.ts",
  "tests/statistics/{survival-curves,proportion,logistic,percent}.test.ts",
];

export default defineConfig({
  test: {
    // what is said is compared as text, also where colours would be written (a terminal, CI)
    env: { NO_COLOR: "1" },
    testTimeout: 300_000,
    hookTimeout: 300_000,
    pool: "forks",
    maxWorkers: 2,
    projects: [
      { extends: true, test: { name: "unit", include: UNIT } },
      {
        extends: true,
        test: {
          name: "built",
          include: ["tests/**/*.test.ts"],
          exclude: UNIT,
          globalSetup: ["tests/setup.ts"],
        },
      },
    ],
  },
});
