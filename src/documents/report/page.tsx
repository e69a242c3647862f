// The report as one page to read and print.

import type { ComponentChildren } from "preact";

import { Figure, renderPage } from "../printed-page.js";
import { TableView } from "../tables.js";
import type { Manifest } from "../../statistics/manifest.js";
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
    "what a position is with best play, from the exact table that this program solves and checks; under the fifty-move rule (FIDE Laws 9.3) a win that comes too late is a draw. It is exact, since after a conversion the count begins anew and no smaller ending takes fifty moves. Today's count is taken for every game; from 1984 to 1991 the Laws allowed more moves for this ending (Haworth 2000). In a game the arbiter decides on a claim.",
  ],
  [
    "Claimed draws",
    "a draw whose score ends 99 half-moves or more after the last capture or move of a pawn counts as claimed: a claim may be written with the move that completes the count.",
  ],
  [
    "Set-up",
    "where the pieces stand, by the definitions of the catalogue. A position can fit several; it is counted in each. Where each ending counts once, it takes the first.",
  ],
  [
    "Interval",
    "95 %, for proportions by Wilson (JASA 1927), with so many cases as they are worth: games of one attacker, and of one defender, belong together, and the variance is that of clusters in two ways (Cameron, Gelbach & Miller 2011). The design effect says how many times greater it is than with independent cases (Kish 1965).",
  ],
  [
    "Ends",
    "cumulative incidence by Aalen & Johansen (1978): a draw, a capture or a resignation is an end of its own and no loss from sight; only scores that break off are. Errors by the infinitesimal jackknife, games of one defender together; limits on the log(−log) scale. Groups are compared by the log-rank test of the hazard of losing by a move; endings whose group is not known are in none.",
  ],
  [
    "Models",
    "logistic regression with errors clustered in the same two ways, and p adjusted by Holm (1979) for the number of terms. Terms known of less than half of the cases, met by fewer than ten, or too many for the events (ten for each term: Peduzzi et al. 1996), are left out. The models are on complete cases, chosen by rules and not by their results.",
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
    <PartsView parts={parts.filter(({ appendix }) => !appendix)} />
  </section>
);

/** What is behind a section. */
const AppendixView = ({ title, paragraphs, parts }: Section) => {
  const onlyHere = parts.every(({ appendix }) => appendix);
  const behind = parts.filter(({ appendix }) => appendix);
  if (behind.length === 0) return null;
  return (
    <>
      <h3>{title}</h3>
      {onlyHere && paragraphs.map((paragraph) => <p>{paragraph}</p>)}
      <PartsView parts={behind} />
    </>
  );
};

const PartsView = ({ parts }: Pick<Section, "parts">) => (
  <>
    {parts.map((part) =>
      "table" in part ? (
        <TableView {...part.table} />
      ) : (
        <Figure svg={part.chart.svg} scrolls>
          {part.chart.caption}
        </Figure>
      ),
    )}
  </>
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
    manifest: Manifest;
    setUps: readonly { name: string; means: string }[];
  },
): string {
  return renderPage({
    title: report.title,
    command: made.manifest.command,
    body: (
      <div class="report">
        <h1>{report.title}</h1>
        <p>
          Asked: <code>{report.asked}</code> of {made.manifest.database.file}.
        </p>
        {report.summary.map((line) => (
          <p>{line}</p>
        ))}
        {report.sections
          .filter(({ parts }) => parts.length === 0 || parts.some(({ appendix }) => !appendix))
          .map((section) => (
            <SectionView {...section} />
          ))}
        <section class="appendix">
          <h2>Appendix: method and tables</h2>
          <h3>Method and definitions</h3>
          <Definitions of={METHOD} />
          {report.sections.map((section) => (
            <AppendixView {...section} />
          ))}
          <h3>Made from</h3>
          <p class="note">
            longside {made.manifest.version}, database {made.manifest.database.file} (schema{" "}
            {made.manifest.database.schema}, signature <code>{made.manifest.database.signature}</code>), from{" "}
            {made.manifest.sources.length} files; tables{" "}
            {Object.entries(made.manifest.tables)
              .map(([name, digest]) => `${name} ${digest.slice(0, 12)}`)
              .join(", ")}
            . To cite: {made.manifest.cite}
          </p>
          <h3>The set-ups</h3>
          <Definitions of={made.setUps.map(({ name, means }) => [name, <code>{means}</code>] as const)} />
        </section>
      </div>
    ),
  });
}
