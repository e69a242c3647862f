// Names of set-ups on the command line.

import { expect, it } from "vitest";

import { setUpNames } from "../../src/cli/set-up-names.js";
import { standardCatalogue } from "../../src/query/language/catalogue.js";

const named = (...words: string[]) => setUpNames(words, (name) => standardCatalogue().known.has(name));

it.each([
  [["second-rank defence, Szén"]],
  [["second-rank defence", "Szén"]],
  [["second-rank", "defence", "Szén"]],
  [["second-rank defence Szén"]],
])("are found in %j, with commas or without", (words) => {
  expect(named(...words)).toEqual(["second-rank defence", "Szén"]);
});

it("that are none are left as they were typed", () => {
  expect(named("Szén", "and", "more, rear pin")).toEqual(["Szén and more", "rear pin"]);
  expect(named(" , ")).toEqual([]);
});
