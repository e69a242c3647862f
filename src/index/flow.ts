// What is in hand during a run: work may run ahead, within limits, and what comes of it is taken in order.

export class Flow {
  private tasks = 0;
  private bytes = 0;
  private chain: Promise<void> = Promise.resolve();
  private fault: { readonly thrown: unknown } | undefined;
  private wake = () => {};

  /** At most so many tasks at a time, and so many bytes kept in memory for them or for what came of them. */
  constructor(
    private readonly maxTasks: () => number,
    private readonly maxBytes: number,
  ) {}

  /** Waits until there is room for another task. Throws what a step threw. */
  async room(): Promise<void> {
    while (!this.fault && (this.tasks >= this.maxTasks() || this.isFull))
      await new Promise<void>((resolve) => (this.wake = resolve));
    this.check();
  }

  /** No task is begun until something of what came of others has been taken. */
  get isFull(): boolean {
    return this.bytes > this.maxBytes;
  }

  take(tasks: number, bytes: number): void {
    this.tasks += tasks;
    this.bytes += bytes;
  }

  giveBack(tasks: number, bytes: number): void {
    this.take(-tasks, -bytes);
    this.wake();
  }

  /** Does a step when all before it have been done; none after one that throws. */
  inOrder(step: () => void | Promise<void>): void {
    this.chain = this.chain
      .then(() => (this.fault ? undefined : step()))
      .catch((thrown: unknown) => {
        this.fault = { thrown };
        this.wake();
      });
  }

  /** Waits for all steps. Throws what one of them threw. */
  async finished(): Promise<void> {
    await this.chain;
    this.check();
  }

  private check(): void {
    if (this.fault) throw this.fault.thrown;
  }
}
