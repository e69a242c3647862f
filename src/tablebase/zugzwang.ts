// Zugzwang, told from the verdicts of one placement with either side to move.

/**
 * Whether having to move costs something, from the verdicts (for the attacker) with the side at hand and with the other
 * side to move. Reciprocal: the attacker to move does not win, the defender to move loses.
 */
export function isZugzwang(
  which: "zugzwang" | "reciprocal-zugzwang",
  verdict: number,
  other: number,
  attackerToMove: boolean,
): boolean {
  const [attacker, defender] = attackerToMove ? [verdict, other] : [other, verdict];
  if (which === "reciprocal-zugzwang") return attacker <= 0 && defender > 0;
  return attackerToMove ? other > verdict : other < verdict;
}
