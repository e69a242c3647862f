// Everything that people say, in the order in which it is shown.

import { CIRCUMSTANCES } from "./circumstances.js";
import { ENDS } from "./ends.js";
import { IDIOMS } from "./idioms.js";
import { MISTAKES } from "./mistakes.js";
import { MOVES, TWO_KINDS } from "./moves.js";
import { OFTEN } from "./often.js";
import { ONLY_MOVES } from "./only-moves.js";
import type { Phrase } from "./phrase.js";
import { PLACES } from "./places.js";
import { PLAYERS } from "./players.js";
import { RESULTS } from "./results.js";
import { SENTENCES } from "./sentences.js";
import { SET_UPS } from "./set-ups.js";
import { SORTS } from "./sorts.js";
import { TURNS } from "./turns.js";
import { VERDICTS } from "./verdicts.js";

export const PHRASES: readonly Phrase[] = [
  ...SET_UPS,
  ...RESULTS,
  ...ENDS,
  ...VERDICTS,
  ...MISTAKES,
  ...ONLY_MOVES,
  ...OFTEN,
  ...SORTS,
  ...TWO_KINDS,
  ...MOVES,
  ...TURNS,
  ...PLACES,
  ...PLAYERS,
  ...CIRCUMSTANCES,
  ...IDIOMS,
  ...SENTENCES,
];
