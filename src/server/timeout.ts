// Waiting with a limit.

/** Waits for some work, at most so many milliseconds; how it ends after that is ignored. */
export async function withTimeout(milliseconds: number, work: Promise<unknown> | undefined): Promise<void> {
  let timer: NodeJS.Timeout | undefined;
  const enough = new Promise((resolve) => (timer = setTimeout(resolve, milliseconds)));
  await Promise.race([work?.catch(() => {}), enough]);
  clearTimeout(timer);
}
