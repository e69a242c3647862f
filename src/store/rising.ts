// Numbers that rise, such as those of endings: finding one among them.

/** Place of the first of some rising numbers that is not less than another. */
export function lowerBound(numbers: Int32Array, least: number): number {
  let low = 0;
  let high = numbers.length;
  while (low < high) {
    const middle = (low + high) >> 1;
    if (numbers[middle] < least) low = middle + 1;
    else high = middle;
  }
  return low;
}

/** 1 for each of some numbers that is among others; both rise. */
export function marked(ids: Int32Array, found: readonly number[]): Uint8Array {
  const marks = new Uint8Array(ids.length);
  let place = 0;
  for (const id of found) {
    while (ids[place] < id) ++place;
    if (ids[place] === id) marks[place] = 1;
  }
  return marks;
}
