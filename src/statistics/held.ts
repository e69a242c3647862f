// Who held: the share of a study's endings with a result that the defender drew or won.

import type { NamedSetUp } from "../query/language/catalogue.js";
import { type Split, factsOf, keyShown, keysOf } from "../query/engine/splits.js";
import { factNamed } from "../query/language/vocabulary.js";
import { type Group, Tallies } from "./count.js";
import type { Gathering, Study, StudyPart } from "./moves-made.js";
import { ClusteredTally, playersOf } from "./players.js";
import type { Proportion } from "./proportion.js";

const OUTCOME = factNamed("outcome")!;

/** Calls `look` with the place in its part of every ending that has a result, and with 1 where it was held, else 0. */
function eachDecided({ evaluation, endings }: StudyPart, look: (ending: number, held: number) => void): void {
  const outcomes = evaluation.endingValues(OUTCOME);
  for (const n of endings)
    if (outcomes[n] !== null && outcomes[n] !== "open") look(n, outcomes[n] === "held" ? 1 : 0);
}

/** The share held of a study's endings. */
export function heldIn(study: Study): Gathering<Proportion> {
  const shares = new ClusteredTally();
  return {
    facts: [OUTCOME],
    look: (part) => eachDecided(part, (n, held) => shares.add(part.from + n, held)),
    result: () => shares.proportion(playersOf(study.db)),
  };
}

/** The shares held of a study's endings, split by a fact of endings. */
export function heldBy(study: Study, split: Split): Gathering<Group[]> {
  const tallies = new Tallies(true);
  return {
    facts: [OUTCOME, ...factsOf(split)],
    look(part) {
      const tally = tallies.of([keysOf(part.evaluation, split, "ending")]);
      eachDecided(part, (n, held) => tally(n, part.from + n, held));
    },
    result: () =>
      tallies.sorted().map(({ keys, shares }) => ({
        values: [keyShown(split, keys[0])],
        ...shares!.proportion(playersOf(study.db)),
      })),
  };
}

/** For each of some set-ups the share held of the endings in which it was reached while the draw was there. */
export function heldFrom(study: Study, setUps: readonly NamedSetUp[]): Gathering<Proportion[]> {
  const shares = setUps.map(() => new ClusteredTally());
  return {
    facts: [OUTCOME],
    look(part) {
      const { numbers, members } = part.evaluation.setUps(setUps);
      const verdicts = part.column("verdict");
      const { starts } = part.store;
      /** For each set-up the last ending that it was reached in. */
      const reached = new Int32Array(setUps.length).fill(-1);
      eachDecided(part, (n, held) => {
        for (let p = starts[n]; p < starts[n + 1]; ++p) {
          if (verdicts[p] !== 0 || numbers[p] === 0) continue;
          for (const setUp of members[numbers[p]]) {
            if (reached[setUp] === n) continue;
            reached[setUp] = n;
            shares[setUp].add(part.from + n, held);
          }
        }
      });
    },
    result: () => shares.map((tally) => tally.proportion(playersOf(study.db))),
  };
}
