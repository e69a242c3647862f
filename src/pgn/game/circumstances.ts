// What the tags say of how a game was played: how fast, and at what kind of event.

import { type Tags, tagValue } from "./tags.js";

export const PACES = ["bullet", "blitz", "rapid", "standard", "correspondence"] as const;
export type Pace = (typeof PACES)[number];

/** Moves for which a player's time is counted (FIDE Laws of Chess 2023, Appendices A.1 and B.1). */
const COUNTED_MOVES = 60;
const MINUTE = 60;
const DAY = 24 * 60 * MINUTE;
/** In seconds. Less means that a time control counts minutes, as "40/120" of computer games does. */
const LEAST_A_MOVE = 5;
const LEAST_IN_ALL = 10;

/** One period: so many seconds for so many moves, or for the rest of the game, and an increment. */
const PERIOD = /^(?:(\d+)\/)?(\d+(?:\.\d+)?)(?:\+(\d+(?:\.\d+)?))?$/;

/**
 * The pace that a TimeControl tag stands for (PGN standard 9.6.1). By the time each player has for sixty moves: blitz
 * up to ten minutes, rapid under sixty, standard from there (FIDE Laws of Chess 2023, Appendices A.1, B.1); bullet,
 * under three minutes, is common practice, no source. Undefined where the tag does not say.
 */
export function paceOf(timeControl: string | undefined): Pace | undefined {
  if (timeControl === undefined) return undefined;
  let left = COUNTED_MOVES;
  let seconds = 0;
  for (const field of timeControl.replace(/\s/g, "").split(":")) {
    const period = PERIOD.exec(field);
    if (!period) return undefined;
    const [moves, time, increment] = [Number(period[1] ?? left), Number(period[2]), Number(period[3] ?? 0)];
    if (period[1] !== undefined && (moves === 0 || time / moves < LEAST_A_MOVE)) return undefined;
    if (left > 0) seconds += increment * Math.min(moves, left);
    seconds += time;
    if (moves === 1 && time >= DAY) return "correspondence";
    left -= moves;
  }
  // a last period of so many moves begins anew until the moves are made
  if (left > 0) seconds *= COUNTED_MOVES / (COUNTED_MOVES - left);
  // too little for sixty moves: it does not count seconds
  if (seconds < LEAST_IN_ALL) return undefined;
  if (seconds < 3 * MINUTE) return "bullet";
  if (seconds <= 10 * MINUTE) return "blitz";
  return seconds < 60 * MINUTE ? "rapid" : "standard";
}

/**
 * Seconds added for each move, where a TimeControl tag has one period for the whole game; undefined where it does not say,
 * or has more.
 */
export function incrementOf(timeControl: string | undefined): number | undefined {
  const period = PERIOD.exec(timeControl?.replace(/\s/g, "") ?? "");
  if (!period || period[1] !== undefined) return undefined;
  return Number(period[3] ?? 0);
}

/** The kind of event as the EventType tag has it, in small letters. */
export const eventTypeOf = (tags: Tags): string | undefined => tagValue(tags, "EventType")?.toLowerCase();
