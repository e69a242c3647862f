// Regression models as tables: odds ratios with their intervals, and what was left out.

import type { Model } from "../../statistics/models.js";
import { counted } from "../../position/wording.js";
import { type Part, text } from "./parts.js";

const pText = (p: number): string => (p < 0.0001 ? "< 0.0001" : p.toFixed(4));

/** Adjusted p below which a term is told in a sentence. */
const TOLD = 0.05;

/** What a model finds, in a sentence; `of` is whose odds. */
export function modelInWords(of: string, { fit, terms }: Model): string[] {
  if (!fit) return [];
  const found = terms.filter(({ adjusted }) => adjusted < TOLD);
  const said = found.map(
    ({ term, oddsRatio, low, high, adjusted }) =>
      `${term} multiplies them by ${oddsRatio.toPrecision(2)} (${low.toPrecision(2)} to ${high.toPrecision(2)}, p ${adjusted < 0.0001 ? "< 0.0001" : `= ${adjusted.toPrecision(1)}`})`,
  );
  const looks = `Of ${counted(terms.length, "term")} in a logistic model of ${of}`;
  return said.length === 0
    ? [`${looks}, none tells anything once p is adjusted for that number (see the appendix).`]
    : [
        `${looks}, with p adjusted for that number, these tell something about the odds: ${said.join("; ")}. The others stand in the appendix.`,
      ];
}

/** A model as a table with its note, for the appendix. */
export function modelParts(id: string, caption: string, { fit, terms, leftOut, incomplete }: Model): Part[] {
  const missing = leftOut.length > 0 ? ` Left out: ${leftOut.join("; ")}.` : "";
  const table = {
    id: `model-of-${id}`,
    caption,
    columns: [
      text("term", "each step of"),
      { name: "odds", head: "multiplies the odds by", kind: "factor" } as const,
      text("interval", "95 % interval"),
      text("p", "p"),
      text("adjusted", "p, adjusted"),
    ],
    rows: terms.map((one) => ({
      term: one.term,
      odds: one.oddsRatio,
      interval: `${one.low.toPrecision(3)} to ${one.high.toPrecision(3)}`,
      p: pText(one.p),
      adjusted: pText(one.adjusted),
      estimate: one.estimate,
      error: one.clusteredError,
      "simple-error": one.standardError,
    })),
    note: fit
      ? `Logistic regression on ${counted(fit.cases, "case")}, ${fit.events} of which happened; errors clustered by ${counted(fit.clusters[0], "attacker")} and ${counted(fit.clusters[1], "defender")}; p adjusted for ${counted(terms.length, "look")} by Holm. ${counted(incomplete, "case")} left out for want of a value.${missing}`
      : `There are too few cases for a model.${missing}`,
  };
  return [{ table, appendix: true }];
}
