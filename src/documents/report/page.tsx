// The report as one page to read and print.

import type { ComponentChildren } from "preact";

import { Figure, renderPage } from "../printed-page.js";
import { TableView } from "../tables.js";
import type { Section } from "./parts.js";
import type { Report } from "./report.js";

const METHOD: readonly (readonly [term: string, meaning: string])[] = [
  ["Attacker, defender", "the side with more material, and the other."],
  [
    "Ending",
    "an unbroken stay in exactly this material, from the first position to the last. Endings shorter than two half-moves are called passing (Müller & Lamprecht, Fundamental Chess Endings, 2001, count from two on).",
  ],
  [
    "Verdict",
    "what a position is with best play, from the exact table that this program solves and checks; the fifty-move rule is left out of it.",
  ],
  [
    "Set-up",
    "where the pieces stand, by the definitions of the catalogue. A position can fit several; it is counted in each. Longer tables of survival take the first.",
  ],
  [
    "Interval",
    "95 %, for proportions by Wilson (JASA 1927). It assumes independent cases; games of one player, and moves of one game, are not quite independent.",
  ],
  [
    "Survival",
    "product-limit estimate (Kaplan & Meier 1958), Greenwood's variance, limits on the log(−log) scale; groups compared by the log-rank test. Endings that were over before the draw was lost are censored. That is sound only if they did not end because the defence was about to fail.",
  ],
  [
    "Duplicates",
    "the same game in several files, or the beginning of one, counts once, unless the report says that duplicates are counted.",
  ],
];

const SectionView = ({ title, paragraphs, parts }: Section) => (
  <section>
    <h2>{title}</h2>
    {paragraphs.map((paragraph) => (
      <p>{paragraph}</p>
    ))}
    {parts.map((part) =>
      "table" in part ? (
        <TableView {...part.table} />
      ) : (
        <Figure svg={part.chart.svg}>{part.chart.caption}</Figure>
      ),
    )}
  </section>
);

const Definitions = ({ of }: { of: readonly (readonly [term: string, meaning: ComponentChildren])[] }) => (
  <dl>
    {of.map(([term, meaning]) => (
      <>
        <dt>{term}</dt>
        <dd>{meaning}</dd>
      </>
    ))}
  </dl>
);

/** The report as one page. */
export function reportPage(
  report: Report,
  made: {
    command: string;
    date: string;
    database: string;
    setUps: readonly { name: string; means: string }[];
  },
): string {
  return renderPage({
    title: report.title,
    command: made.command,
    date: made.date,
    body: (
      <>
        <h1>{report.title}</h1>
        <p>
          Asked: <code>{report.asked}</code> of {made.database}.
        </p>
        {report.summary.map((line) => (
          <p>{line}</p>
        ))}
        {report.sections.map((section) => (
          <SectionView {...section} />
        ))}
        <section>
          <h2>Method and definitions</h2>
          <Definitions of={METHOD} />
          <h3>The set-ups</h3>
          <Definitions of={made.setUps.map(({ name, means }) => [name, <code>{means}</code>] as const)} />
        </section>
      </>
    ),
  });
}
