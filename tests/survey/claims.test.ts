// What the catalogue says in words of how often a set-up holds, counted over the whole table.

import { describe, expect, it } from "vitest";

import { parseMaterial } from "../../src/chess/material.js";
import { standardCatalogue } from "../../src/query/language/catalogue.js";
import { type Outcomes, survey } from "../../src/survey/survey.js";

/** Words that claim a share, with the least and the greatest share that they may stand for. */
const WORDS = {
  "nearly always": [0.9, 1],
  "as a rule": [0.75, 1],
  mostly: [0.6, 1],
  "more often": [0.5, 1],
  seldom: [0, 0.25],
} as const;
type Word = keyof typeof WORDS;
type Turn = "attackerToMove" | "defenderToMove";

/** Each claim: the set-up, the word, what it is said of, for whose move, and what is claimed. */
const CLAIMS: readonly (readonly [string, Word, string, readonly Turn[], "won" | "not won"])[] = [
  ["second-rank defence", "as a rule", "", ["attackerToMove", "defenderToMove"], "not won"],
  ["free on the second rank", "as a rule", "", ["attackerToMove", "defenderToMove"], "not won"],
  ["cut off on the second rank", "as a rule", "", ["attackerToMove", "defenderToMove"], "not won"],
  ["king in the open", "as a rule", "", ["attackerToMove", "defenderToMove"], "not won"],
  ["Philidor", "as a rule", "", ["attackerToMove"], "won"],
  ["Philidor", "more often", "", ["defenderToMove"], "not won"],
  ["Szén", "nearly always", "foot-room >= 3", ["defenderToMove"], "not won"],
  ["Szén", "mostly", "foot-room = 2", ["defenderToMove"], "won"],
  ["Szén", "mostly", "kings-files-apart = 0", ["attackerToMove"], "won"],
  // "one file off and away from the foot": the attacker's king on the side that the foot is not on
  [
    "Szén",
    "seldom",
    "kings-files-apart = 1 and ((foot-side = short and attacker-king-side = long) or (foot-side = long and attacker-king-side = short))",
    ["attackerToMove"],
    "won",
  ],
  ["double threat", "more often", "", ["defenderToMove"], "not won"],
];

const { setUps } = standardCatalogue();

describe("words that claim a share", () => {
  it("are each counted below, and no others are there", () => {
    const said = setUps.flatMap(({ name, known }) =>
      (Object.keys(WORDS) as Word[]).flatMap((word) =>
        known
          .split(word)
          .slice(1)
          .map(() => `${name}: ${word}`),
      ),
    );
    expect(said.sort()).toEqual(CLAIMS.map(([name, word]) => `${name}: ${word}`).sort());
    for (const { name, known } of setUps)
      expect(known, name).not.toMatch(/\b(usually|often(?<!more often)|rarely|almost|hardly ever|most)\b/);
  });

  it.skipIf(process.env.CI).each(CLAIMS)("%s: %s %s", async (name, word, more, turns, claimed) => {
    const question = more === "" ? name : `${name} and ${more}`;
    const { all } = await survey(parseMaterial("R+B v R"), { question, setUps: null, by: null }, 2);
    const wonOf = ({ counts: { won, drawn, lost } }: Outcomes) => won / (won + drawn + lost);
    const [least, greatest] = WORDS[word];
    for (const turn of turns) {
      const won = wonOf(all[turn]);
      const share = claimed === "won" ? won : 1 - won;
      expect(share).toBeGreaterThanOrEqual(least);
      expect(share).toBeLessThanOrEqual(greatest);
    }
  });
});
