// What is in hand during a run: order, limits, and the ends that a run can come to.

import { setTimeout as later } from "node:timers/promises";

import { describe, expect, it } from "vitest";

import { OrderedQueue } from "../../src/indexing/ordered-queue.js";

const queueOf = (tasks: number, bytes: number, signal?: AbortSignal) =>
  new OrderedQueue(() => tasks, bytes, signal);

describe("what is in hand", () => {
  it("is taken in order, however late it comes", async () => {
    const queue = queueOf(10, 10);
    const taken: number[] = [];
    for (const n of [0, 1, 2, 3]) {
      const result = later(10 * (4 - n), n);
      queue.inOrder(async () => void taken.push(await result));
    }
    await queue.finished();
    expect(taken).toEqual([0, 1, 2, 3]);
  });

  it("stays within its limits of tasks and of bytes", async () => {
    const queue = queueOf(2, 100);
    let most = 0;
    let inHand = 0;
    for (let n = 0; n < 20; ++n) {
      await queue.room();
      queue.take(1, 60);
      most = Math.max(most, ++inHand);
      void later(2).then(() => {
        --inHand;
        queue.giveBack(1, 60);
      });
    }
    expect(most).toBe(2);
    // one more byte than there may be, and nothing begins until some are given back
    queue.take(0, 101);
    expect(queue.isFull).toBe(true);
    let begun = false;
    const waiting = queue.room().then(() => (begun = true));
    await later(20);
    expect(begun).toBe(false);
    queue.giveBack(0, 101);
    await waiting;
    expect(begun).toBe(true);
  });

  it("is over when it is stopped: nothing waits for room, or for a step that waits", async () => {
    const stopping = new AbortController();
    const queue = queueOf(1, 10, stopping.signal);
    queue.take(1, 1000);
    const taken: string[] = [];
    queue.inOrder(() => new Promise<void>(() => {}));
    queue.inOrder(() => void taken.push("behind"));
    const [room, finished] = [queue.room(), queue.finished()];
    stopping.abort();
    await Promise.all([room, finished]);
    expect(queue.isOver).toBe(true);
    expect(taken).toEqual([]);
  });

  it("is over when a step goes wrong: no other is done, and all who wait get the error", async () => {
    const queue = queueOf(1, 10);
    queue.take(1, 0);
    const taken: string[] = [];
    queue.inOrder(() => void taken.push("before"));
    queue.inOrder(async () => {
      await later(5);
      throw new Error("the disk is full");
    });
    queue.inOrder(() => void taken.push("behind"));
    await expect(queue.room()).rejects.toThrow("the disk is full");
    await expect(queue.finished()).rejects.toThrow("the disk is full");
    expect(taken).toEqual(["before"]);
  });
});
