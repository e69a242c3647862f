// Names as games give them, on pages and on paper, whichever way they are written.

/** Stretches of letters that are written from right to left, with what stands between them. */
const FROM_THE_RIGHT =
  /([\u0590-\u08ff\ufb1d-\ufdff\ufe70-\ufefc]+(?:[^\p{L}\p{N}()]+[\u0590-\u08ff\ufb1d-\ufdff\ufe70-\ufefc]+)*)/u;

/** Names as games give them: one that is written from right to left does not turn round the figures beside it. */
export const Names = ({ text }: { text: string }) => (
  <>{text.split(FROM_THE_RIGHT).map((part, n) => (n % 2 === 1 ? <bdi key={n}>{part}</bdi> : part))}</>
);
