// Which of some conditions each position meets, as sets: numbered as they come up, so that what is to be said of a set is
// said once and not for every position.

import { type Mask, words } from "./masks.js";

export interface Sets {
  /** The number of each position's set, by place; that of the empty one is 0. */
  readonly numbers: Int32Array;
  /** The conditions of each set, by their places in the list, rising. */
  readonly members: readonly (readonly number[])[];
}

/** The sets of the conditions whose masks over so many positions are given. */
export function setsOf(masks: readonly Mask[], positions: number): Sets {
  const numbers = new Int32Array(positions);
  const members: (readonly number[])[] = [[]];
  masks.forEach((mask, condition) => {
    /** What the sets so far are called with this condition added. */
    const joined = new Map<number, number>();
    const four = words(mask);
    for (let word = 0; word < four.length; ++word) {
      if (four[word] === 0) continue;
      const end = Math.min(positions, 4 * word + 4);
      for (let p = 4 * word; p < end; ++p) {
        if (!mask[p]) continue;
        let number = joined.get(numbers[p]);
        if (number === undefined) {
          number = members.push([...members[numbers[p]], condition]) - 1;
          joined.set(numbers[p], number);
        }
        numbers[p] = number;
      }
    }
  });
  return { numbers, members };
}
