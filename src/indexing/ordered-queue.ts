// The ordered queue of a run: work may run ahead, within limits, and its results are taken in order.

import { setImmediate } from "node:timers/promises";

export class OrderedQueue {
  private tasks = 0;
  private bytes = 0;
  private chain: Promise<void> = Promise.resolve();
  private fault: { readonly thrown: unknown } | undefined;
  private wake = () => {};
  private readonly over: Promise<void>;
  private end = () => {};

  /**
   * At most so many tasks at a time, and so many bytes held in memory for them or for their results. After `signal`
   * nothing more is begun.
   */
  constructor(
    private readonly maxTasks: () => number,
    private readonly maxBytes: number,
    private readonly signal: AbortSignal | undefined,
  ) {
    this.over = new Promise((resolve) => (this.end = resolve));
    const stop = () => {
      this.end();
      this.wake();
    };
    if (signal?.aborted) stop();
    else signal?.addEventListener("abort", stop);
  }

  /** Nothing more is to be begun, or taken: it has been stopped, or something has gone wrong. */
  get isOver(): boolean {
    return this.fault !== undefined || (this.signal?.aborted ?? false);
  }

  /** No task is begun until results of others have been taken. */
  get isFull(): boolean {
    return this.bytes > this.maxBytes;
  }

  /** Waits until there is room for another task, or it is over. Throws what has gone wrong. */
  async room(): Promise<void> {
    while (!this.isOver && (this.tasks >= this.maxTasks() || this.isFull))
      await new Promise<void>((resolve) => (this.wake = resolve));
    this.check();
  }

  take(tasks: number, bytes: number): void {
    this.tasks += tasks;
    this.bytes += bytes;
  }

  giveBack(tasks: number, bytes: number): void {
    this.take(-tasks, -bytes);
    this.wake();
  }

  /**
   * Does a step when all before it have been done; none when it is over. Between two steps whatever else the thread has to do
   * gets its turn, such as a message that says to stop.
   */
  inOrder(step: () => void | Promise<void>): void {
    this.chain = this.chain
      .then(() => setImmediate())
      .then(() => (this.isOver ? undefined : step()))
      .catch((thrown: unknown) => this.fail(thrown));
  }

  /** Something has gone wrong: no other step is done. */
  fail(thrown: unknown): void {
    this.fault ??= { thrown };
    this.end();
    this.wake();
  }

  /** Waits for all steps, or until it is over: a step that waits for something then finds that. Throws what has gone wrong. */
  async finished(): Promise<void> {
    await Promise.race([this.chain, this.over]);
    this.check();
  }

  private check(): void {
    if (this.fault) throw this.fault.thrown;
  }
}
