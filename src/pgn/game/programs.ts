// Whether people played a game: by its tags, the players' names, its comments and its ratings. Where the signs are weak it
// is called doubtful, and counted apart.

import { PROGRAM_NAMES } from "./program-names.js";
import type { Tags } from "./tags.js";

/** No program on either side, as far as the file tells; one perhaps; one for certain. */
export const PROGRAM_CLASSES = ["no", "doubtful", "yes"] as const;
export type ProgramClass = (typeof PROGRAM_CLASSES)[number];

/** Words in the name of an event that only programs play in (common practice, no source). */
const PROGRAM_EVENT = /\b(?:computers?|engines?|bots?|tcec|ccrl|cegt)\b/i;

/** Beyond the highest rating a person has had at a board (2882, M. Carlsen, FIDE list of May 2014; from memory). */
const BEYOND_PEOPLE = 2900;

/** Programs comment each move of theirs; a person who lets one look at a game has fewer, and without times. */
const LEAST_COMMENTED = 0.4;

const known = new Set(PROGRAM_NAMES);
const VERSION = /\s[vr]?\d+\.\d|\s\d{6,}\b|\s(?=[0-9a-f]*\d)[0-9a-f]{7,}\b/i;

/**
 * Whether a player's name is a program's: "Comp" before it, a version behind it, or a known name alone or with a number
 * behind it. A known name with other words is doubtful: it may be a person's ("Fritz", "Junior"). A name with a comma has a
 * first name.
 */
function isProgramName(name: string): ProgramClass {
  if (/^comp(?:uter)?\b/i.test(name)) return "yes";
  if (name.includes(",")) return "no";
  if (VERSION.test(name)) return "yes";
  const words = name.toLowerCase().split(/[\s_-]+/);
  for (const count of [3, 2, 1]) {
    if (!known.has(words.slice(0, count).join(" "))) continue;
    const rest = words.slice(count);
    return rest.length === 0 || /\d/.test(rest[0]) ? "yes" : "doubtful";
  }
  return "no";
}

/**
 * Whether a program plays on one side at least: by the tags WhiteType and BlackType (PGN standard 9.6.2), the title BOT,
 * the tags WhiteIsComp and BlackIsComp, the event's name, the players' names, and comments of evaluation, depth and time on
 * `commented` (0 to 1) of the moves. Ratings no person has had make it doubtful.
 */
export function programClass(tags: Tags, commented: number): ProgramClass {
  let doubtful = false;
  for (const side of ["White", "Black"]) {
    if (tags.get(`${side}Type`)?.toLowerCase() === "program") return "yes";
    if (tags.get(`${side}Title`)?.toUpperCase() === "BOT") return "yes";
    if (/^(?:yes|true|1)$/i.test(tags.get(`${side}IsComp`) ?? "")) return "yes";
    const named = isProgramName(tags.get(side) ?? "");
    if (named === "yes") return "yes";
    doubtful ||= named === "doubtful" || Number.parseInt(tags.get(`${side}Elo`) ?? "", 10) >= BEYOND_PEOPLE;
  }
  if (PROGRAM_EVENT.test(tags.get("Event") ?? "") || commented >= LEAST_COMMENTED) return "yes";
  return doubtful ? "doubtful" : "no";
}
