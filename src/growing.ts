// An array of whole numbers that grows: what is gathered of millions of positions takes four bytes each, not an object.

/** Numbers from -2^31 to 2^31 - 1, in the order in which they were added. */
export class GrowingInts {
  private room = new Int32Array(1024);
  private count = 0;

  get length(): number {
    return this.count;
  }

  add(value: number): void {
    if (this.count === this.room.length) {
      const larger = new Int32Array(2 * this.count);
      larger.set(this.room);
      this.room = larger;
    }
    this.room[this.count++] = value;
  }

  /** What has been added; good until the next number is. */
  values(): Int32Array {
    return this.room.subarray(0, this.count);
  }
}
