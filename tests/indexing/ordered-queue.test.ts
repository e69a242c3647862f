// What is in hand during a run: order, limits, and the ends that a run can come to.

import { setTimeout as later } from "node:timers/promises";

import { describe, expect, it } from "vitest";

import { OrderedQueue } from "../../src/indexing/ordered-queue.js";

const flowOf = (tasks: number, bytes: number, signal?: AbortSignal) =>
  new OrderedQueue(() => tasks, bytes, signal);

describe("what is in hand", () => {
  it("is taken in order, however late it comes", async () => {
    const flow = flowOf(10, 10);
    const taken: number[] = [];
    for (const n of [0, 1, 2, 3]) {
      const result = later(10 * (4 - n), n);
      flow.inOrder(async () => void taken.push(await result));
    }
    await flow.finished();
    expect(taken).toEqual([0, 1, 2, 3]);
  });

  it("stays within its limits of tasks and of bytes", async () => {
    const flow = flowOf(2, 100);
    let most = 0;
    let inHand = 0;
    for (let n = 0; n < 20; ++n) {
      await flow.room();
      flow.take(1, 60);
      most = Math.max(most, ++inHand);
      void later(2).then(() => {
        --inHand;
        flow.giveBack(1, 60);
      });
    }
    expect(most).toBe(2);
    // one more byte than there may be, and nobody begins until some are given back
    flow.take(0, 101);
    expect(flow.isFull).toBe(true);
    let begun = false;
    const waiting = flow.room().then(() => (begun = true));
    await later(20);
    expect(begun).toBe(false);
    flow.giveBack(0, 101);
    await waiting;
    expect(begun).toBe(true);
  });

  it("is over when somebody stops it: nobody waits for room, or for a step that waits", async () => {
    const stopping = new AbortController();
    const flow = flowOf(1, 10, stopping.signal);
    flow.take(1, 1000);
    const taken: string[] = [];
    flow.inOrder(() => new Promise<void>(() => {}));
    flow.inOrder(() => void taken.push("behind"));
    const [room, finished] = [flow.room(), flow.finished()];
    stopping.abort();
    await Promise.all([room, finished]);
    expect(flow.isOver).toBe(true);
    expect(taken).toEqual([]);
  });

  it("is over when a step goes wrong: no other is done, and all who wait get the error", async () => {
    const flow = flowOf(1, 10);
    flow.take(1, 0);
    const taken: string[] = [];
    flow.inOrder(() => void taken.push("before"));
    flow.inOrder(async () => {
      await later(5);
      throw new Error("the disk is full");
    });
    flow.inOrder(() => void taken.push("behind"));
    await expect(flow.room()).rejects.toThrow("the disk is full");
    await expect(flow.finished()).rejects.toThrow("the disk is full");
    expect(taken).toEqual(["before"]);
  });
});
