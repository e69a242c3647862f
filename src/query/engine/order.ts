// The order of answers: the best example first, unless another order is asked for.

import { factNamed } from "../language/vocabulary.js";
import type { Evaluation } from "./evaluate.js";
import type { Order } from "../language/orders.js";

/** A value for each ending, by its place in the store; the greater comes first. `covered` says how many of its positions the question covers. */
export type Rank = (place: number, covered: () => number) => number;

/** Moves from which on a longer stay makes no better example. */
const LONG = 60;
/** Ratings between which strength counts. */
const WEAKEST = 1800;
const STRONGEST = 2800;

/**
 * The rank of each ending under an order; `evaluation` is of all endings. Best: the
 * share of the ending that is covered (weight 2), how long that is up to sixty moves (1), the players' mean rating
 * between 1800 and 2800 (1); one less where the game has no result or could not be read to its end.
 */
export function rankBy(order: Order, evaluation: Evaluation): Rank {
  const numbers = (name: string) => evaluation.endingValues(factNamed(name)!) as (number | string | null)[];
  switch (order) {
    case "file":
      return () => 0;
    case "longest":
      return (place) => evaluation.positionsOf(place);
    case "shortest":
      return (place) => -evaluation.positionsOf(place);
    case "newest": {
      const years = numbers("year");
      return (place) => Number(years[place] ?? -1);
    }
    case "oldest": {
      const years = numbers("year");
      return (place) => -Number(years[place] ?? Infinity);
    }
    case "mistakes": {
      const errors = numbers("errors");
      return (place) => Number(errors[place] ?? 0);
    }
    case "strongest": {
      const strength = strengthOf(numbers("attacker-rating"), numbers("defender-rating"));
      return strength;
    }
    case "best": {
      evaluation.readTogether(
        ["attacker-rating", "defender-rating", "outcome", "unreadable"].map((name) => factNamed(name)!),
      );
      const strength = strengthOf(numbers("attacker-rating"), numbers("defender-rating"));
      const outcomes = numbers("outcome");
      const unreadable = numbers("unreadable");
      return (place, covered) => {
        const positions = covered();
        const share = positions / Math.max(1, evaluation.positionsOf(place));
        const rating = Math.min(1, Math.max(0, (strength(place, covered) - WEAKEST) / (STRONGEST - WEAKEST)));
        const fragment = outcomes[place] === "open" || unreadable[place] === 1 ? 1 : 0;
        return 2 * share + Math.min(1, positions / 2 / LONG) + rating - fragment;
      };
    }
  }
}

/** The mean rating of those players whose rating is known; 0 where none is. */
const strengthOf =
  (attackers: readonly (number | string | null)[], defenders: readonly (number | string | null)[]): Rank =>
  (place) => {
    const known = [attackers[place], defenders[place]].filter((rating) => typeof rating === "number");
    return known.length === 0 ? 0 : known.reduce((sum, rating) => sum + rating, 0) / known.length;
  };
