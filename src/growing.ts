// Numbers that come one after another, as many as there may be: in one array of their type, with no object for any of them.

type Numbers = Int32Array | Uint16Array | Uint8Array;

const FIRST = 4;

export class Growing<A extends Numbers> {
  /** Room for more than there are; another array once that is full. */
  array: A;
  length = 0;

  /** `room` makes an array of a length. */
  constructor(private readonly room: (length: number) => A) {
    this.array = room(FIRST);
  }

  push(value: number): void {
    if (this.length === this.array.length) {
      const { array } = this;
      this.array = this.room(array.length + (array.length >> 1));
      this.array.set(array);
    }
    this.array[this.length++] = value;
  }

  /** What there is; not to be changed, and good until more comes. */
  get values(): A {
    return this.array.subarray(0, this.length) as A;
  }
}

/** Numbers from -2^31 to 2^31 - 1. */
export const growingInts = (): Growing<Int32Array> => new Growing((length) => new Int32Array(length));
