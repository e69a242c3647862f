// Shares as text: percentages with one decimal.

const percent = (share: number) => (100 * share).toFixed(1);

/** "62.5 %"; a dash where there is nothing to take a share of. */
export const percentText = (share: number | null): string =>
  share === null || Number.isNaN(share) ? "–" : `${percent(share)} %`;

/** "48.4–74.8": the limits of an interval, in percent. */
export const limitsText = ({ low, high }: { readonly low: number; readonly high: number }): string =>
  `${percent(low)}–${percent(high)}`;
