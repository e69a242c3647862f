// The answers to a question: a list of small boards with their story that grows as one scrolls.

import { useEffect, useRef, useState } from "preact/hooks";

import { Link, addressOf } from "../address.js";
import { SmallBoard } from "../board.js";
import { type CallError, callErrorOf } from "../call-error.js";
import { type AnswerTo, type Input, call } from "../calls.js";
import { Collect, Sign, counted, resultText } from "../parts.js";
import { useServerState } from "../server-state.js";

type First = AnswerTo<"ask">;
type Row = First["rows"][number];
type Each = Input<"ask">["each"];
export type Sort = NonNullable<Input<"ask">["sort"]>;

/** Rows that are asked for at a time, and pixels before the end of the list at which more are. */
const SIZE = 24;
const AHEAD = 400;
/** Changes of the verdict that are told of one ending. */
const CHANGES = 5;

export interface Answers {
  readonly rows: readonly Row[];
  /** The first answer, with what is said of all. */
  readonly first: First | undefined;
  readonly error: CallError | undefined;
  readonly busy: boolean;
  readonly isMore: boolean;
  /** Asks for more rows, unless some are on their way. */
  readonly more: () => void;
}

/** What of a question stands in the address beside its words. */
export interface Way {
  readonly each: Each;
  readonly sort: Sort;
  /** Which meaning of the words, from 1. */
  readonly reading: number;
}

/** The answers to a question that have been asked for so far. */
export function useAnswers(question: string, { each, sort, reading }: Way): Answers {
  const [rows, setRows] = useState<readonly Row[]>([]);
  const [first, setFirst] = useState<First>();
  const [error, setError] = useState<CallError>();
  const [busy, setBusy] = useState(false);
  const { refresh } = useServerState();
  const run = useRef(new AbortController());
  const ask = async (from: number, { signal }: AbortController) => {
    setBusy(true);
    try {
      const answer = await call("ask", { question, each, sort, reading, from, size: SIZE }, signal);
      if (signal.aborted) return;
      setRows((before) => (from === 0 ? answer.rows : [...before, ...answer.rows]));
      if (from === 0) setFirst(answer);
      setError(undefined);
    } catch (thrown) {
      if (signal.aborted) return;
      if (from === 0) setFirst(undefined);
      if (from === 0) setRows([]);
      setError(callErrorOf(thrown));
    }
    setBusy(false);
  };
  useEffect(() => {
    run.current = new AbortController();
    void ask(0, run.current);
    return () => run.current.abort();
  }, [question, each, sort, reading, refresh]);
  const all = first ? Math.min(first.answers, first.limit ?? Infinity) : 0;
  const more = () => {
    if (!busy) void ask(rows.length, run.current);
  };
  return { rows, first, error, busy, isMore: rows.length < all, more };
}

/** How the question was understood, and what else its words could mean. */
const Understanding = ({ first, toReading }: { first: First; toReading: (reading: number) => string }) => (
  <>
    <p class="understood">{first.sentence}.</p>
    {first.others.map(({ reading, words, about, sentence }) => (
      <p class="note" key={reading}>
        {words === null ? (
          "It could also mean"
        ) : (
          <>
            “{words}” could also be about {about}
          </>
        )}
        : <Link to={toReading(reading)}>{sentence}</Link>
      </p>
    ))}
  </>
);

/** What to try where nothing answers. */
const Nothing = ({
  nothing,
  toQuestion,
}: {
  nothing: First["nothing"];
  toQuestion: (question: string) => string;
}) => (
  <>
    <p class="note">Nothing answers all of that.</p>
    {nothing?.without.slice(0, 3).map(({ condition, answers }) => (
      <p class="note" key={condition}>
        Without {condition}: {answers.toLocaleString("en")}.
      </p>
    ))}
    {nothing?.instead.map(({ question, answers }) => (
      <p class="note" key={question}>
        No position has both set-ups. One after the other: <Link to={toQuestion(question)}>{question}</Link> (
        {answers.toLocaleString("en")})
      </p>
    ))}
  </>
);

/** How many answers there are, and what is to be said of all of them. */
export const Summary = ({
  first,
  each,
  toReading,
  toQuestion,
}: {
  first: First;
  each: Each;
  toReading: (reading: number) => string;
  toQuestion: (question: string) => string;
}) => (
  <>
    <Understanding first={first} toReading={toReading} />
    <p role="status">
      <b class="figures">{first.answers.toLocaleString("en")}</b> {each}
      {first.answers === 1 ? "" : "s"}
      <span class="small">
        {" "}
        in {Math.max(1, Math.round(first.milliseconds))} ms
        {first.leftOut !== "" && `; left out: ${first.leftOut}`}
      </span>
      {first.limit !== null &&
        ` – only the first ${first.limit} can be shown; ask for something narrower to see the others`}
    </p>
    {first.answers === 0 && <Nothing nothing={first.nothing} toQuestion={toQuestion} />}
    {first.idle.map(({ said, met, of }) => (
      <p class="note" key={said}>
        {met} of the {of} endings that answer the rest have a position with {said} at some moment, so that it
        leaves almost none out: <Link to={toQuestion(`mostly (${said})`)}>mostly</Link>,{" "}
        <Link to={toQuestion(`end (${said})`)}>at the end</Link>?
      </p>
    ))}
  </>
);

/** Stretches of one verdict, each from the move it begins with. */
const Story = ({ story }: Pick<Row, "story">) =>
  story.length > 1 ? (
    <p class="story">
      {story.slice(0, CHANGES).map((part, n) => (
        <span key={n}>
          <Sign verdict={part.verdict} /> from move {part.move}
        </span>
      ))}
      {story.length > CHANGES && <span>and {counted(story.length - CHANGES, "more change")}</span>}
    </p>
  ) : null;

const Answer = ({ row, each }: { row: Row; each: Each }) => {
  const { id, ply, fen, players } = row;
  const to = addressOf(`/ending/${id}`, { ply });
  const outcome = each === "ending" ? `the defender ${row.outcome}` : row.outcome;
  return (
    <li class="answer">
      <Link to={to} aria-label={`Look at ${players}, ending ${id}`}>
        <SmallBoard fen={fen} />
      </Link>
      <div>
        <h2>
          <Link to={to}>{players}</Link>
        </h2>
        <p>
          {row.where && <>{row.where}, </>}
          <span class="figures">{resultText(row.result)}</span>
          {row.copies > 1 && <> (in {row.copies} files)</>}
        </p>
        <p>
          {row.move ? `${row.move}: ` : "the last position: "}
          <Sign verdict={row.verdict}>{row.value}</Sign>
        </p>
        <Story story={row.story} />
        {row.covers.length > 0 && <p class="small">met in {row.covers.join(", ")}</p>}
        {row.differs && <p>differs: {row.differs.join(", ") || "in nothing"}</p>}
        <p class="small">{[outcome, row.endedBy].filter((part) => part).join("; ")}</p>
        <Collect
          item={{
            title: players,
            shown: fen,
            ending: id,
            ply,
            fen: each === "position" ? fen : undefined,
          }}
        />
      </div>
    </li>
  );
};

export const AnswerList = ({ answers, each }: { answers: Answers; each: Each }) => {
  const { rows, first, error, busy, isMore, more } = answers;
  const end = useRef<HTMLDivElement>(null);
  useEffect(() => {
    // after an error only the button asks again
    if (!isMore || busy || error) return;
    const observer = new IntersectionObserver(
      // several entries may come at once, the last is how it is now
      (entries) => entries.at(-1)!.isIntersecting && more(),
      { rootMargin: `${AHEAD}px` },
    );
    observer.observe(end.current!);
    return () => observer.disconnect();
  }, [isMore, busy, error, rows.length]);
  return (
    <>
      <ol class="answers" aria-label="Answers" aria-busy={busy}>
        {rows.map((row) => (
          <Answer key={`${row.id} ${row.ply}`} row={row} each={each} />
        ))}
      </ol>
      <div ref={end}>
        {isMore && (
          <button type="button" onClick={more} disabled={busy}>
            More ({rows.length} of {first!.answers.toLocaleString("en")})
          </button>
        )}
      </div>
    </>
  );
};
