// Turns: whose work is done next. Askers take turns, so that one who asks much holds up nobody but itself.

import { LongsideError } from "../errors.js";

export class Turns {
  /** What begins each work that waits, by asker; the asker whose turn it is stands first. */
  private readonly waiting = new Map<string, (() => void)[]>();
  private readonly working = new Set<string>();
  private count = 0;

  /** `places` are done at once, of one asker one; so many may wait in all, and of one asker. */
  constructor(
    private readonly places: number,
    private readonly most: number,
    private readonly mostOfOne: number,
  ) {}

  /** Does some work when its turn has come. Throws `too-busy`, and what the work throws. */
  async take<T>(asker: string, work: () => Promise<T>): Promise<T> {
    const own = this.waiting.get(asker) ?? [];
    if (this.count >= this.most || own.length >= this.mostOfOne)
      throw new LongsideError("too-busy", {
        waiting: own.length >= this.mostOfOne ? own.length : this.count,
      });
    ++this.count;
    this.waiting.set(asker, own);
    const begun = new Promise<void>((begin) => own.push(begin));
    this.next();
    await begun;
    try {
      return await work();
    } finally {
      this.working.delete(asker);
      // whoever came while this one was at work goes first
      const more = this.waiting.get(asker);
      if (more) {
        this.waiting.delete(asker);
        this.waiting.set(asker, more);
      }
      this.next();
    }
  }

  private next(): void {
    for (const [asker, own] of this.waiting) {
      if (this.working.size >= this.places) return;
      if (this.working.has(asker)) continue;
      const begin = own.shift()!;
      // to the end of the line
      this.waiting.delete(asker);
      if (own.length > 0) this.waiting.set(asker, own);
      this.working.add(asker);
      --this.count;
      begin();
    }
  }
}
