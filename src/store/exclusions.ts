// What numbers may leave out, once: the option, the output and the queries take it from here.

/** Endings that a count may do without. */
export const EXCLUSIONS = [
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
    sql: "g.engine_game = 2",
  },
  {
    name: "doubtful-engine-games",
    of: "in games that programs may have played",
    sql: "g.engine_game = 1",
  },
  {
    name: "time-forfeits",
    of: "in games lost on time",
    sql: "e.ended_by = 'time'",
  },
] as const;
export type Exclusion = (typeof EXCLUSIONS)[number]["name"];

/** Left out where nothing else is said: numbers and examples are about what people did. */
export const EXCLUDED_BY_DEFAULT: readonly Exclusion[] = ["duplicates", "passing", "engine-games"];
