// What the bundled games give when they are indexed is what it was. If this changes, say in the commit why; if what a
// database holds has got another form or meaning, the schema's version changes too, so that old databases are refused.

import { expect, it } from "vitest";

import { bundledSignature } from "../scripts/signature.js";

it("the signature of the bundled games is the one known (`npm run signature` prints it)", async () => {
  expect(await bundledSignature()).toBe("schema 9, content 8f57ea790de0a89f");
});
