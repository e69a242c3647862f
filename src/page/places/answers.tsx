// The answers to a question: a list of boards, each with why it is there and the verdict over time, that grows as one
// scrolls.

import { useEffect, useRef } from "preact/hooks";

import { Link, addressOf } from "../address.js";
import { SmallBoard } from "../board.js";
import { Collect, counted, resultText } from "../parts.js";
import { Names } from "../../documents/names.js";
import type { Answers, Each, First, Row } from "../answer-lists.js";
import { VerdictStrip } from "./strip.js";

/** Pixels before the end of the list at which more rows are asked for. */
const AHEAD = 600;
/** Places of answers that are held free while the first are on their way. */
const PLACES_HELD = 8;

/** How the question was understood, and what else its words could mean. */
const Understanding = ({ first, toReading }: { first: First; toReading: (reading: number) => string }) => (
  <>
    <Names text={first.sentence} />.{" "}
    {first.passed.length > 0 && <>Passed over: {first.passed.map((word) => `“${word}”`).join(", ")}. </>}
    {first.mended.map(({ words, as }) => (
      <span key={words}>
        “{words}” was read as “{as}”.{" "}
      </span>
    ))}
    {first.others.map(({ reading, words, about, sentence }) => (
      <span key={reading}>
        {words === null ? (
          "Or: "
        ) : (
          <>
            “<b>{words}</b>” could also be about {about}:{" "}
          </>
        )}
        <Link to={toReading(reading)}>
          <Names text={sentence} />
        </Link>
        .{" "}
      </span>
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
  <div class="nothing">
    <p>Nothing answers all of that.</p>
    {nothing?.without.slice(0, 3).map(({ condition, said, answers }) => (
      <p key={condition}>
        Without the condition that <Names text={said} />: {answers.toLocaleString("en")}.
      </p>
    ))}
    {nothing !== null && nothing.instead.length > 0 && (
      <p>No position has both set-ups. One after the other:</p>
    )}
    {nothing?.instead.map(({ question, said, answers }) => (
      <p key={question}>
        <Link to={toQuestion(question)}>{said}</Link>: {answers.toLocaleString("en")}.
      </p>
    ))}
  </div>
);

/** How many answers there are, how the question was understood, and what is to be said of all of them. */
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
  <div class="summary">
    <p role="status">
      <b class="count">{first.answers.toLocaleString("en")}</b> {first.answers === 1 ? each : `${each}s`}
      {first.leftOut !== "" && `; left out: ${first.leftOut}`}.{" "}
      {first.limit !== null &&
        `Only the first ${first.limit.toLocaleString("en")} can be shown; ask for something narrower to see the others. `}
    </p>
    <p class="understood">
      <Understanding first={first} toReading={toReading} />
    </p>
    {first.answers === 0 && <Nothing nothing={first.nothing} toQuestion={toQuestion} />}
    {first.idle.map(({ said, met, of }) => (
      <p class="understood" key={said}>
        {met} of the {of} endings that answer the rest have a position with {said} at some moment, so that it
        leaves almost none out: <Link to={toQuestion(`mostly (${said})`)}>mostly</Link>,{" "}
        <Link to={toQuestion(`end (${said})`)}>at the end</Link>?
      </p>
    ))}
  </div>
);

/** Why an answer is in the list: how much of it the condition covers, and what the move to look at did. */
const Why = ({ row, each }: { row: Row; each: Each }) => (
  <p class="why">
    {row.covers.length > 0 && (
      <>
        It holds for <b>{row.covers.join(", ")}</b>.{" "}
      </>
    )}
    {each === "position" ? (
      <>
        {row.move ? <b>{row.move}</b> : "The last position"}: {row.value}
        {row.endedBy && `; ${row.endedBy}`}.{" "}
      </>
    ) : (
      row.changed && (
        <>
          <b>{row.move}</b> {row.value}.{" "}
        </>
      )
    )}
    {row.differs && <>Differs in {row.differs.join(", ") || "nothing"}. </>}
    {each === "ending"
      ? `The defender ${row.outcome}${row.endedBy ? ` (${row.endedBy})` : ""}.`
      : row.outcome !== "" && `The move ${row.outcome}.`}
  </p>
);

const Answer = ({ row, each }: { row: Row; each: Each }) => {
  const { id, ply, fen, players } = row;
  const to = addressOf(`/ending/${id}`, { ply });
  return (
    <li class="answer">
      <Link to={to} aria-label={`Look at ${players}, ending ${id}`}>
        <SmallBoard fen={fen} />
      </Link>
      <div>
        <h2>
          <Link to={to}>
            <Names text={players} />
          </Link>
        </h2>
        {/* a long event is cut short, never the result */}
        <p class="when">
          {row.where && (
            <span>
              <Names text={row.where} />
            </span>
          )}
          <span>
            {[resultText(row.result), row.copies > 1 && `in ${row.copies} files`]
              .filter((part) => part)
              .join(" · ")}
          </span>
        </p>
        <Why row={row} each={each} />
        <div class="over-time">
          <VerdictStrip story={row.story} from={row.from} to={row.to} />
          <Collect
            quiet
            item={{
              title: players,
              shown: fen,
              ending: id,
              ply,
              fen: each === "position" ? fen : undefined,
            }}
          />
        </div>
      </div>
    </li>
  );
};

/** The places of answers that are on their way. */
export const AnswersToCome = () => (
  <ol class="answers to-come" aria-hidden="true">
    {Array.from({ length: PLACES_HELD }, (_, n) => (
      <li class="answer" key={n}>
        <span class="blank-board" />
        <span class="blank-lines" />
      </li>
    ))}
  </ol>
);

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
      <div ref={end} class="list-end">
        {isMore ? (
          <button type="button" class="plain" onClick={more} disabled={busy}>
            {busy
              ? "More are on their way …"
              : `More (${rows.length} of ${first!.answers.toLocaleString("en")})`}
          </button>
        ) : (
          rows.length > PLACES_HELD && <p class="small">That was all: {counted(rows.length, each)}.</p>
        )}
      </div>
    </>
  );
};
