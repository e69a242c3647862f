// Asking: a question, and below it its answers (answers.tsx) with order and filters in the margin (margin.tsx), or how
// often by any fact (counts.tsx); while nothing is asked, what there is to ask (first-screen.tsx).

import { type Address, addressOf, go, useAddress } from "../address.js";
import { useAnswer } from "../call-hooks.js";
import { useTitle } from "../parts.js";
import { FaultMessage, QuestionLine } from "../question-line.js";
import { AnswerList, AnswersToCome, Summary } from "./answers.js";
import { type Sort, type Way, askEarly, useAnswers } from "../answer-lists.js";
import { CountsForm, useCounts } from "./counts.js";
import { EveryWord, FirstScreen, NoGames } from "./first-screen.js";
import { Margin, isOrder } from "./margin.js";

/** How the answers of an address are to be had. */
const wayOf = (query: Address["query"]): Way => ({
  each: query.each === "position" ? "position" : "ending",
  // none: the order that the question asks for, or the best example first
  sort: isOrder(query.sort ?? "") ? (query.sort as Sort) : undefined,
  reading: Math.max(1, Number(query.reading) || 1),
});

/** Whether an address of the place asks for answers. */
const asks = ({ q = "", each, by = "" }: Address["query"]): boolean =>
  q !== "" || each !== undefined || by !== "";

/** Has what an address of this place shows on its way before anything is drawn. */
export function beginAsking({ path, query }: Address): void {
  if ((path === "/ask" || path === "/") && asks(query)) askEarly(query.q ?? "", wayOf(query));
}

const AnswersPlace = () => {
  const { query } = useAddress();
  const { q = "", by = "", share = "" } = query;
  const { each, sort, reading } = wayOf(query);
  const { answer: vocabulary, error: noWords } = useAnswer("words", by === "" ? undefined : {});
  const answers = useAnswers(q, { each, sort, reading });
  const { first, error } = answers;
  const counts = useCounts(q, by, share);
  // the form stands when all of it is known, and nothing below what is still to come
  const isFormKnown = first !== undefined && (vocabulary ?? noWords) !== undefined;
  const isCounting = by !== "" && !error && !(isFormKnown && (counts.answer ?? counts.error));
  const to = (change: Record<string, string>) =>
    addressOf("/ask", { q, each, sort: query.sort, reading: query.reading, by, share, ...change });
  if (error?.code === "no-database") return <NoGames />;
  return (
    <div class={isCounting ? "with-margin counting" : "with-margin"}>
      <div class="head">
        {first ? (
          <>
            <Summary
              first={first}
              each={each}
              toReading={(wanted) => to({ reading: String(wanted) })}
              toQuestion={(question) => to({ q: question, reading: "" })}
            />
            {by !== "" && isFormKnown && (
              <CountsForm
                counts={counts}
                by={by}
                share={share}
                splits={vocabulary?.splits ?? []}
                onChange={(change) => go(to(change), "replace")}
              />
            )}
          </>
        ) : (
          <div class="summary">
            {error ? (
              <FaultMessage error={error} onTake={(question) => go(to({ q: question, reading: "" }))} />
            ) : (
              <p role="status">Looking …</p>
            )}
          </div>
        )}
      </div>
      {/* before the list, which grows as one goes through it: behind it neither a key nor a finger would come to it */}
      <Margin question={q} each={each} sort={sort} reading={reading} answers={answers} to={to} />
      <div class="list">
        {!isCounting && first && <AnswerList answers={answers} each={each} />}
        {!first && !error && by === "" && <AnswersToCome />}
        {!isCounting && (first ?? error) && (
          <EveryWord question={q} onAsk={(question) => go(to({ q: question, reading: "" }))} />
        )}
      </div>
    </div>
  );
};

export const AskPlace = () => {
  const { query } = useAddress();
  const { q = "" } = query;
  const { answer } = useAnswer("holds", {});
  const isAsking = asks(query);
  useTitle(q === "" ? "Ask" : q);
  return (
    <>
      <h1 class="hidden">Ask</h1>
      <QuestionLine
        value={q}
        label="What happened, in your own words"
        submit="Ask"
        quiet={answer?.held === null}
        onAsk={(text) =>
          go(addressOf("/ask", { q: text, each: text === "" ? "ending" : query.each, sort: query.sort }))
        }
      />
      {isAsking ? (
        <AnswersPlace />
      ) : answer && answer.held === null ? (
        <NoGames />
      ) : (
        <FirstScreen held={answer?.held ?? null} />
      )}
    </>
  );
};
