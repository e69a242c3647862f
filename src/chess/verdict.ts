// Verdicts: what a position is with best play, always for the attacker; as words and as numbers.

export const VERDICTS = ["won", "drawn", "lost"] as const;
export type Verdict = (typeof VERDICTS)[number];

/** A verdict as a number: 1 won, 0 drawn, -1 lost. */
export type Score = 1 | 0 | -1;
export const SCORES: Readonly<Record<Verdict, Score>> = { won: 1, drawn: 0, lost: -1 };

/** The score of a value whose sign is that of its verdict. */
export const scoreOf = (value: number): Score => (value > 0 ? 1 : value < 0 ? -1 : 0);

/** The verdict of a score. Inverse of `SCORES`. */
export const verdictOf = (score: Score): Verdict => (score > 0 ? "won" : score < 0 ? "lost" : "drawn");

/** The same verdict for the other side. */
export const OTHER_SIDE: Readonly<Record<Verdict, Verdict>> = { won: "lost", drawn: "drawn", lost: "won" };

/** How many are won, drawn and lost. */
export type VerdictCounts = Record<Verdict, number>;
export const totalOf = ({ won, drawn, lost }: VerdictCounts): number => won + drawn + lost;
