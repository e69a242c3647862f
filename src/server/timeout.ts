// Waiting, but not for ever.

/** Waits for some work, at most so many milliseconds; what becomes of it later is nobody's business. */
export async function withTimeout(milliseconds: number, work: Promise<unknown> | undefined): Promise<void> {
  let timer: NodeJS.Timeout | undefined;
  const enough = new Promise((resolve) => (timer = setTimeout(resolve, milliseconds)));
  await Promise.race([work?.catch(() => {}), enough]);
  clearTimeout(timer);
}
