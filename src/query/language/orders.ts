// The orders that answers can be asked for in; by itself, since the help names them and needs nothing else.

/** Orders that can be asked for. */
export const ORDERS = {
  best: "how much of the ending the question covers and for how long, the players' strength; fragments last",
  longest: "most moves in the ending first",
  shortest: "fewest moves in the ending first",
  strongest: "highest ratings of both players together first; unrated games last",
  newest: "latest year first; games without a date last",
  oldest: "earliest year first; games without a date last",
  mistakes: "most mistakes in the ending first",
  file: "as the games were read",
} as const;
export type Order = keyof typeof ORDERS;
/** The order where none is asked for. */
export const DEFAULT_ORDER: Order = "best";
