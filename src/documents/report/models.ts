// Regression models as tables: odds ratios with their intervals, and what was left out.

import type { Model } from "../../statistics/models.js";
import { counted } from "../../position/wording.js";
import { type Part, text } from "./parts.js";

const pText = (p: number): string => (p < 0.0001 ? "< 0.0001" : p.toFixed(4));

/** A model as a table with its note. */
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
  return [{ table }];
}
