// The margin of the answers: their order, filters that count at once and write the question, and what can be done with
// all answers.

import type { ComponentChildren } from "preact";
import { useState } from "preact/hooks";

import { addressOf, Link } from "../address.js";
import { collect } from "../browser-storage.js";
import { type Task, useAnswer, useTask } from "../call-hooks.js";
import { type AnswerTo, call } from "../calls.js";
import { type Made, MadeLinks } from "../made-links.js";
import { ErrorMessage, Working, resultText, save } from "../parts.js";
import { useServerState } from "../server-state.js";
import { type Answers, type Each, type Sort, upTo } from "../answer-lists.js";

const ORDERS: Readonly<Record<Sort, string>> = {
  best: "best",
  longest: "longest",
  shortest: "shortest",
  strongest: "strongest",
  newest: "newest",
  oldest: "oldest",
  mistakes: "most mistakes",
  file: "as read",
};
export const isOrder = (name: string): name is Sort => Object.hasOwn(ORDERS, name);

/** What answers are narrowed by: the title, the fact with its bands, and how a group is said in a question. */
const FILTERS = [
  ["How it went", "outcome", (label: string) => `outcome = ${label}`],
  ["Defender’s rating", "defender-rating:200", (label: string) => `defender-rating ${range(label)}`],
  ["Pace", "pace", (label: string) => `pace = ${label}`],
  ["Years", "year:10", (label: string) => `year ${range(label)}`],
  ["Result", "result", (label: string) => `result = ${label}`],
  [
    "Engine games",
    "engine-game",
    (label: string) => (label === "yes" || label === "true" ? "engine-game" : "not engine-game"),
  ],
] as const;
/** A band of numbers as a question has it: "2200 to 2399" is "2200..2399". */
const range = (label: string) => label.replace(" to ", "..");
/** Groups that are shown of one fact. */
const MOST_GROUPS = 8;
/** Answers that can be put into the tray or into one file of games at once. */
const MOST_AT_ONCE = 200;

const Filter = ({
  title,
  groups,
  said,
  shown,
  toQuestion,
}: {
  title: string;
  groups: AnswerTo<"facets">["facets"][number];
  said: (label: string) => string;
  shown: (label: string) => string;
  toQuestion: (more: string) => string;
}) => {
  const known = groups.flatMap(({ label, count }) =>
    label === null || count === 0 ? [] : [{ label, count }],
  );
  if (known.length < 2) return null;
  const most = Math.max(...known.map(({ count }) => count));
  return (
    <section class="filter">
      <h2>{title}</h2>
      <ul>
        {known.slice(0, MOST_GROUPS).map(({ label, count }) => (
          <li key={label}>
            <Link to={toQuestion(said(label))}>
              <span>{shown(label)}</span>
              <svg viewBox="0 0 100 8" preserveAspectRatio="none" aria-hidden="true">
                <rect width={Math.max(1, (100 * count) / most)} height="8" />
              </svg>
              <span class="number">{count.toLocaleString("en")}</span>
            </Link>
          </li>
        ))}
      </ul>
    </section>
  );
};

const Filters = ({
  question,
  toQuestion,
}: {
  question: string;
  toQuestion: (question: string) => string;
}) => {
  const { answer } = useAnswer("facets", { question, by: FILTERS.map(([, by]) => by) });
  const narrowed = (more: string) => toQuestion(question.trim() === "" ? more : `${question}, ${more}`);
  return (
    <>
      {FILTERS.map(([title, by, said], n) => (
        <Filter
          key={by}
          title={title}
          groups={answer?.facets[n] ?? []}
          said={said}
          shown={
            by === "result"
              ? (label) => (label === "*" ? "not finished" : resultText(label))
              : (label) => label
          }
          toQuestion={narrowed}
        />
      ))}
    </>
  );
};

/** One of the things that can be done with all answers. */
const AllButton = ({
  task,
  what,
  children,
}: {
  task: Task;
  what: () => Promise<unknown>;
  children: ComponentChildren;
}) => (
  <li>
    <button type="button" class="plain" disabled={task.busy} onClick={() => task.run(what)}>
      {children}
    </button>
  </li>
);

/** What can be done with all answers at once. */
const WithAll = ({
  answers,
  asked,
}: {
  answers: Answers;
  asked: { question: string; each: Each; sort: Sort | undefined; reading: number };
}) => {
  const task = useTask();
  const progress = useServerState((server) => server.progress);
  const { question } = asked;
  const [report, setReport] = useState<{ question: string; made: Made | null }>();
  const count = Math.min(MOST_AT_ONCE, answers.first?.answers ?? 0);
  const all = () =>
    upTo(answers.rows.slice(0, count), count, (from, size) => call("ask", { ...asked, from, size }));
  const items = async () =>
    (await all()).map(({ id, ply, fen }) => ({
      ending: id,
      ply,
      fen: asked.each === "position" ? fen : undefined,
    }));
  const name = count < (answers.first?.answers ?? 0) ? `The first ${count}` : "All";
  return (
    <section class="with-all">
      <h2>{name}</h2>
      <ul>
        <AllButton
          task={task}
          what={async () =>
            collect(
              (await all()).map(({ id, ply, fen, players }) => ({
                title: players,
                shown: fen,
                ending: id,
                ply,
                fen: asked.each === "position" ? fen : undefined,
              })),
            )
          }
        >
          into the tray
        </AllButton>
        <AllButton
          task={task}
          what={async () =>
            save((await call("pgn", { title: asked.question.slice(0, 200), items: await items() })).made)
          }
        >
          as PGN
        </AllButton>
        <AllButton task={task} what={async () => save((await call("table", asked)).made)}>
          as CSV, for a spreadsheet
        </AllButton>
        <AllButton
          task={task}
          what={async () =>
            setReport({ question, made: (await call("report", { question: asked.question })).made })
          }
        >
          in numbers: a report
        </AllButton>
      </ul>
      {task.busy && <Working progress={progress} onStop={task.stop} />}
      {report?.question === question && report.made && <MadeLinks made={report.made} what="The report" />}
      <ErrorMessage error={task.error} />
    </section>
  );
};

export const Margin = ({
  question,
  each,
  sort,
  reading,
  answers,
  to,
}: {
  question: string;
  each: Each;
  sort: Sort | undefined;
  reading: number;
  answers: Answers;
  to: (change: Record<string, string>) => string;
}) => {
  const [unfolded, setUnfolded] = useState(false);
  // a question with a fault has nothing to be put in order; its place stays, so that nothing moves
  const classes = ["margin", unfolded && "unfolded", answers.error && "unseen"].filter(Boolean).join(" ");
  return (
    <aside class={classes} aria-label="Order and filters">
      {/* on a narrow screen all of it would push the answers out of sight */}
      <p class="unfold">
        <button type="button" class="plain" aria-expanded={unfolded} onClick={() => setUnfolded(!unfolded)}>
          Order, filters, and what can be done with all
        </button>
      </p>
      <p>
        {(["ending", "position"] as const).map((one) => (
          <Link key={one} to={to({ each: one })} aria-current={one === each ? "true" : undefined}>
            {one}s
          </Link>
        ))}
      </p>
      <p>
        {(Object.keys(ORDERS) as Sort[]).map((one) => (
          <Link
            key={one}
            to={to({ sort: one })}
            aria-current={one === (sort ?? answers.first?.order) ? "true" : undefined}
          >
            {ORDERS[one]}
          </Link>
        ))}{" "}
        first
      </p>
      <p>
        <Link to={addressOf("/ask", { q: question, each, by: "outcome" })}>count by any fact</Link>
      </p>
      {answers.first && answers.first.answers > 0 && (
        <>
          <Filters question={question} toQuestion={(next) => to({ q: next, reading: "" })} />
          <WithAll answers={answers} asked={{ question, each, sort, reading }} />
        </>
      )}
    </aside>
  );
};
