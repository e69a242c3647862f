// Whose move it is, by name: the attacker's or the defender's, position by position.

import { factNamed } from "../language/vocabulary.js";
import type { Evaluation } from "./evaluate.js";

/** Gives the name of the player to move at a position of an ending, both by their places; null where it is not known. */
export function moversOf(evaluation: Evaluation): (position: number, ending: number) => string | null {
  const [attackers, defenders] = ["attacker-name", "defender-name"].map(
    (name) => evaluation.endingValues(factNamed(name)!) as (string | null)[],
  );
  const { values: attackerToMove } = evaluation.store.column("attacker-to-move");
  return (position, ending) => (attackerToMove[position] === 1 ? attackers : defenders)[ending];
}
