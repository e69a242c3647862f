// Why a position is no exercise: each reason, and what is said of it.

/** Reasons with their words, as in "3 positions: every move keeps it". */
export const REFUSALS = [
  "no move",
  "already lost",
  "every move keeps it",
  "another number of answers",
  "too many answers",
  "hardly a choice",
  "mate in one",
  "mate by a check",
  "in check",
  "a piece is simply taken",
  "nothing tempts",
  "beyond fifty moves",
  "no such theme",
  "no contrast near by",
  "same picture as another",
  "another ending",
] as const;
export type Refusal = (typeof REFUSALS)[number];

/** How many were refused for each reason. */
export type Refused = Readonly<Partial<Record<Refusal, number>>>;

/** A position that was given and not taken. */
export interface NotTaken {
  readonly fen: string;
  readonly reason: Refusal;
}

/** Counts refusals. */
export class RefusalCount {
  private readonly counts = new Map<Refusal, number>();

  add(reason: Refusal): void {
    this.counts.set(reason, (this.counts.get(reason) ?? 0) + 1);
  }

  /** The most frequent first. */
  all(): Refused {
    return Object.fromEntries([...this.counts].sort((a, b) => b[1] - a[1]));
  }
}
