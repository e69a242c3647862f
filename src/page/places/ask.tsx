// Asking: a question, how often by any fact (counts.tsx), and its answers (answers.tsx).

import { Link, addressOf, go, useAddress } from "../address.js";
import { useAnswer } from "../call-hooks.js";
import type { AnswerTo } from "../calls.js";
import { Choice, ErrorMessage, Folded, useTitle } from "../parts.js";
import { QuestionLine } from "../question-line.js";
import { AnswerList, type Sort, Summary, useAnswers } from "./answers.js";
import { CountsForm } from "./counts.js";

/** Questions to begin with. */
const EXAMPLES = [
  "defender drew with the rook on the long side",
  "second-rank defence held for ten moves",
  "Philidor, attacker failed",
  "rear pin, defender held",
  "defender missed an only move",
];

const ORDERS: Readonly<Record<Sort, string>> = {
  best: "best",
  longest: "longest",
  strongest: "strongest",
  newest: "newest",
  mistakes: "most mistakes",
  file: "as read",
};

const SORTS = {
  "set-up": "Set-ups",
  phrase: "What people say",
  fact: "Facts, to be compared",
  course: "Which position, and the course of an ending",
} as const;

const Examples = ({ addressFor }: { addressFor: (question: string) => string }) => (
  <>
    <p>For example:</p>
    <ul class="examples">
      {EXAMPLES.map((one) => (
        <li key={one}>
          <Link to={addressFor(one)}>{one}</Link>
        </li>
      ))}
    </ul>
  </>
);

/** The vocabulary, sort by sort. */
const Vocabulary = ({ words }: { words: AnswerTo<"words">["words"] }) => (
  <>
    {(Object.keys(SORTS) as (keyof typeof SORTS)[]).map((sort) => (
      <Folded key={sort} title={SORTS[sort]}>
        {() => (
          <dl class="facts">
            {words
              .filter((one) => one.sort === sort)
              .map(({ say, meaning }) => (
                <div key={say}>
                  <dt>{say}</dt>
                  <dd class="small">{meaning}</dd>
                </div>
              ))}
          </dl>
        )}
      </Folded>
    ))}
    <p class="small">
      Join with a comma or and, or, not and brackets; compare with = != &lt; &lt;= &gt; &gt;=, ranges like
      2200..2500.
    </p>
  </>
);

/** What to do where there is nothing to ask about yet. */
const NoGames = () => (
  <p class="note">
    There are no games here yet. <Link to="/games">Read some</Link>, or look at any position on the{" "}
    <Link to="/board">board</Link>: for that no games are needed.
  </p>
);

export const AskPlace = () => {
  const { query } = useAddress();
  const { q = "", by = "", share = "" } = query;
  const each = query.each === "position" ? "position" : "ending";
  const { answer: vocabulary } = useAnswer("words", {});
  const sort = Object.hasOwn(ORDERS, query.sort ?? "") ? (query.sort as Sort) : "best";
  const reading = Math.max(1, Number(query.reading) || 1);
  const answers = useAnswers(q, { each, sort, reading });
  const { first, error } = answers;
  useTitle(q === "" ? "Ask" : q);
  const to = (change: Record<string, string>) =>
    addressOf("/ask", { q, each: query.each, sort: query.sort, by, share, ...change });
  return (
    <>
      <h1>Ask</h1>
      <QuestionLine
        value={q}
        label="Which endings do you want to see?"
        submit="Ask"
        onAsk={(text) => go(to({ q: text }))}
      />
      {q === "" && <Examples addressFor={(question) => to({ q: question })} />}
      <Folded title="Every word that is understood">
        {() => <Vocabulary words={vocabulary?.words ?? []} />}
      </Folded>
      <Choice
        label="Show"
        value={each}
        options={{ ending: "endings", position: "positions" }}
        onChange={(value) => go(to({ each: value }))}
      />
      <Choice label="First" value={sort} options={ORDERS} onChange={(value) => go(to({ sort: value }))} />
      {error?.code === "no-database" && <NoGames />}
      {/* an error in the question is shown under it */}
      {error?.code !== "no-database" && error?.place.at === undefined && <ErrorMessage error={error} />}
      {first && (
        <>
          <Summary
            first={first}
            each={each}
            toReading={(wanted) => to({ reading: String(wanted) })}
            toQuestion={(question) => to({ q: question })}
          />
          <CountsForm
            question={q}
            by={by}
            share={share}
            splits={vocabulary?.splits ?? []}
            onChange={(change) => go(to(change), "replace")}
          />
          <AnswerList answers={answers} each={each} />
        </>
      )}
    </>
  );
};
