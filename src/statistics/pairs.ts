// Two numbers of each case as one: what belongs together in two ways at once.

/** More than there are numbers of either way. */
const MORE = 2 ** 26;

/** Numbers from 0 on, equal where both numbers are. */
export function pairsOf(first: Int32Array, second: Int32Array): Int32Array {
  const known = new Map<number, number>();
  const pairs = new Int32Array(first.length);
  for (let n = 0; n < pairs.length; ++n) {
    // cases of one ending come together
    if (n > 0 && first[n] === first[n - 1] && second[n] === second[n - 1]) {
      pairs[n] = pairs[n - 1];
      continue;
    }
    const key = first[n] * MORE + second[n];
    let pair = known.get(key);
    if (pair === undefined) known.set(key, (pair = known.size));
    pairs[n] = pair;
  }
  return pairs;
}
