// What numbers may leave out, once: the option, the output and the queries take it from here.

/** Endings that a count may do without. */
export const LEAVABLE = [
  {
    name: "duplicates",
    of: "in duplicate games",
    sql: "g.duplicate_of IS NOT NULL",
  },
  {
    name: "passing",
    of: "in endings shorter than two half-moves",
    sql: "e.passing",
  },
  {
    name: "engine-games",
    of: "in engine games",
    sql: "g.engine_game",
  },
  {
    name: "time-forfeits",
    of: "in games lost on time",
    sql: "e.ended_by = 'time'",
  },
] as const;
export type Leavable = (typeof LEAVABLE)[number]["name"];

/** Left out where nothing else is said. */
export const USUALLY_LEFT_OUT: readonly Leavable[] = ["duplicates", "passing"];

/** The same where it is about what people do: exercises and lessons. */
export const USUALLY_LEFT_OUT_OF_PEOPLE: readonly Leavable[] = [...USUALLY_LEFT_OUT, "engine-games"];
