// Set-ups as they stand in the middle of a sentence.

/** Set-ups whose names are no nouns, or want another article. */
const PHRASES: Readonly<Record<string, string>> = {
  Szén: "the Szén set-up",
  Philidor: "Philidor's position",
  "next to Philidor": "the position next to Philidor's",
  "rear pin": "the rear pin",
  "side checks": "checks from the side",
  "rook on the bishop": "an attack on the bishop by the rook",
  "active rook behind the king": "an active rook behind the king",
  "pin with the king aside": "a pin with the king aside",
  "free on the second rank": "a king free on the second rank",
  "cut off on the second rank": "a king cut off on the second rank",
  "king in the open": "a king in the open",
  "attacker's king far off": "a position with the attacker's king far off",
  "attacker's king on the third rank": "a position with the attacker's king on the third rank",
  "kings face to face": "kings face to face",
};

const phraseOf = (name: string): string | undefined =>
  PHRASES[name] ?? (/ defence$/.test(name) ? `the ${name}` : undefined);

/** A set-up in the middle of a sentence: "the second-rank defence", "a king in the open". */
export const setUpInWords = (name: string): string => phraseOf(name) ?? `the set-up "${name}"`;

/** The same behind words that say that it is a set-up: "the set-up is Szén", "the set-up is a king in the open". */
export const setUpAfterIs = (name: string): string => {
  const phrase = phraseOf(name);
  return phrase === undefined || phrase.includes("set-up") ? name : phrase;
};
