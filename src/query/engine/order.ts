// The order of answers: the best example first, unless another order is asked for.

import { type Stored, factNamed } from "../language/vocabulary.js";
import type { Evaluation } from "./evaluate.js";
import type { Order } from "../language/orders.js";

/** Endings that are to be ranked: their places among all, and how many of its positions the question covers of each. */
export interface Rankable {
  readonly places: Int32Array;
  readonly covered: Int32Array;
}

/** Whether an order asks how much of an ending is covered. */
export const asksForCover = (order: Order): boolean => order === "best";

/** Moves from which on a longer stay makes no better example. */
const LONG = 60;
/** Ratings between which strength counts. */
const WEAKEST = 1800;
const STRONGEST = 2800;

/**
 * The rank of each of some endings under an order, the greatest first; their places rise, and `evaluation` is of all. Best: the
 * share of the ending that is covered (weight 2), how long that is up to sixty moves (1), the players' mean rating
 * between 1800 and 2800 (1); one less where the game has no result or could not be read to its end.
 */
export function ranksOf(order: Order, evaluation: Evaluation, { places, covered }: Rankable): Float64Array {
  const valuesOf = (...names: string[]) =>
    evaluation.endingValuesAt(
      names.map((name) => factNamed(name)!),
      places,
    );
  const ranks = new Float64Array(places.length);
  const rankBy = (rank: (n: number) => number) => ranks.map((_, n) => rank(n));
  const length = (n: number) => evaluation.positionsOf(places[n]);
  switch (order) {
    case "file":
      return ranks;
    case "longest":
      return rankBy(length);
    case "shortest":
      return rankBy((n) => -length(n));
    case "newest": {
      const [years] = valuesOf("year");
      return rankBy((n) => Number(years[n] ?? -1));
    }
    case "oldest": {
      const [years] = valuesOf("year");
      return rankBy((n) => -Number(years[n] ?? Infinity));
    }
    case "mistakes": {
      const [errors] = valuesOf("errors");
      return rankBy((n) => Number(errors[n] ?? 0));
    }
    case "strongest": {
      const [attackers, defenders] = valuesOf("attacker-rating", "defender-rating");
      return rankBy((n) => strengthOf(attackers[n], defenders[n]));
    }
    case "best": {
      const [attackers, defenders, outcomes, unreadable] = valuesOf(
        "attacker-rating",
        "defender-rating",
        "outcome",
        "unreadable",
      );
      return rankBy((n) => {
        const share = covered[n] / Math.max(1, length(n));
        const strength = strengthOf(attackers[n], defenders[n]);
        const rating = Math.min(1, Math.max(0, (strength - WEAKEST) / (STRONGEST - WEAKEST)));
        const fragment = outcomes[n] === "open" || unreadable[n] === 1 ? 1 : 0;
        return 2 * share + Math.min(1, covered[n] / 2 / LONG) + rating - fragment;
      });
    }
  }
}

/** The mean rating of those of two players whose rating is known; 0 where none is. */
function strengthOf(attacker: Stored | null, defender: Stored | null): number {
  const known = [attacker, defender].filter((rating) => typeof rating === "number");
  return known.length === 0 ? 0 : known.reduce((sum, rating) => sum + rating, 0) / known.length;
}
