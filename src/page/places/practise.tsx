// Practising: a session of exercises, asked for by a question or made of the tray, with its score stored in the browser.

import { useState } from "preact/hooks";

import { Link, useAddress } from "../address.js";
import { SmallBoard } from "../board.js";
import { useStored } from "../browser-storage.js";
import { useTask } from "../call-hooks.js";
import type { AnswerTo, Input } from "../calls.js";
import { exerciseAddress, mayReplace, putExercises, sessionOf, storedExercise } from "../exercise-session.js";
import { turnOf } from "../fen.js";
import { dayOf, dueOn, writtenDay } from "../learning.js";
import { useMadeAhead } from "../made-ahead.js";
import { Choice, ErrorMessage, Working, counted, useTitle } from "../parts.js";
import { QuestionLine } from "../question-line.js";
import { useServerState } from "../server-state.js";
import type { StoredExercise } from "../stored.js";
import { ThemeChoice } from "../theme-choice.js";

type Wanted = Input<"exercises">;

const FIRST: Wanted = { question: "", task: "find", among: "games", size: 12, answers: 1, seed: 1 };

const WENT = { won: "✓ won", lost: "✗ lost", helped: "solved with help" } as const;

/** How an exercise of the session went last, and how often it was won and lost. */
const howItWent = ({ last, won, lost }: StoredExercise): string =>
  last === null ? "not tried" : last === "helped" ? WENT.helped : `${WENT[last]}; won ${won}, lost ${lost}`;

const Session = () => {
  const { session } = useStored();
  if (!session) return null;
  const { exercises, title } = session;
  const won = exercises.filter(({ last }) => last === "won").length;
  const lost = exercises.filter(({ last }) => last === "lost").length;
  const helped = exercises.filter(({ last }) => last === "helped").length;
  const missed = exercises.findIndex(({ last }) => last === "lost");
  return (
    <section aria-label="Exercises under way">
      <h2>{title}</h2>
      <p role="status">
        {counted(exercises.length, "exercise")}: <b>{won} won</b>, {lost} lost,{" "}
        {helped > 0 && `${helped} solved with help, `}
        {exercises.length - won - lost - helped} not tried.
      </p>
      <ol class="boards">
        {exercises.map((one, n) => (
          <li key={one.fen}>
            <Link to={exerciseAddress(exercises, n)} aria-label={`Play exercise ${n + 1}`}>
              <SmallBoard fen={one.fen} below={turnOf(one.fen)} />
            </Link>
            <p>
              <b>{n + 1}.</b> {one.said} {"★".repeat(one.grade ?? 0)}
            </p>
            <p class="small">{howItWent(one)}</p>
          </li>
        ))}
      </ol>
      {missed >= 0 && (
        <Link class="main" to={exerciseAddress(exercises, missed)}>
          Repeat what was missed
        </Link>
      )}{" "}
      <button type="button" class="quiet" onClick={() => mayReplace(session) && putExercises(null)}>
        Put these exercises away
      </button>
    </section>
  );
};

/** Days that are drawn. */
const DRAWN_DAYS = 14;

/** What comes back, and how the last days went. */
const Learning = () => {
  const { learning, days, session } = useStored();
  if (learning.length === 0) return null;
  const today = dayOf(new Date());
  const due = dueOn(learning, today);
  const next = Math.min(...learning.map((one) => one.due));
  const shown = days.filter(({ day }) => day > today - DRAWN_DAYS);
  const most = Math.max(1, ...shown.map(({ won, lost }) => won + lost));
  return (
    <section aria-label="What comes back">
      <h2>What comes back</h2>
      <p>
        {due.length > 0
          ? `${counted(due.length, "exercise")} of ${learning.length} to be repeated today.`
          : `Nothing to be repeated today; ${learning.length === 1 ? "one exercise" : `of ${learning.length} exercises the next`} comes back on ${writtenDay(next)}.`}
      </p>
      {due.length > 0 && (
        <button
          type="button"
          class="main"
          onClick={() => mayReplace(session) && putExercises(sessionOf(due))}
        >
          Repeat {due.length === 1 ? "it" : "them"}
        </button>
      )}
      {shown.length > 0 && (
        <ol class="days">
          {shown.map(({ day, won, lost }) => (
            <li key={day}>
              <span>{day === today ? "today" : writtenDay(day)}</span>
              <svg viewBox={`0 0 ${most} 8`} preserveAspectRatio="none" aria-hidden="true">
                <rect width={won} height="8" />
                <rect class="lost" x={won} width={lost} height="8" />
              </svg>
              <span class="number">
                {won} won, {lost} lost
              </span>
            </li>
          ))}
        </ol>
      )}
    </section>
  );
};

/** Wishes in numbers: their names, the least and the most. */
const NUMBERS = [
  ["size", "How many", 1, 60],
  ["answers", "Moves that keep the result", 1, 20],
  ["seed", "Number of the set", 0, 999999],
] as const;

/** Ideas that the exercises are to have, and whether these come one after another. */
const ThemeWishes = ({
  wanted,
  onChange,
}: {
  wanted: Wanted;
  onChange: (change: Partial<Wanted>) => void;
}) => {
  const { themes = [], byTheme = false } = wanted;
  return (
    <ThemeChoice
      themes={themes}
      onChange={(now) => onChange({ themes: now.length > 0 ? [...now] : undefined })}
    >
      <Choice
        label="Order"
        value={byTheme ? "inTurn" : "mixed"}
        options={{ mixed: "mixed, from easy to hard", inTurn: "one theme after another" }}
        onChange={(order) => onChange({ byTheme: order === "inTurn" })}
      />
    </ThemeChoice>
  );
};

/** What the exercises are to be like. */
const Wishes = ({ wanted, onChange }: { wanted: Wanted; onChange: (change: Partial<Wanted>) => void }) => (
  <>
    <Choice
      label="Task"
      value={wanted.task}
      options={{ find: "find the move", hold: "hold the draw", win: "find the win" }}
      onChange={(task) => onChange({ task })}
    />
    <Choice
      label="Out of"
      value={wanted.among}
      options={{ games: "games", table: "all positions there are" }}
      onChange={(among) => onChange({ among })}
    />
    {NUMBERS.map(([name, label, min, max]) => (
      <label key={name}>
        {label}
        <input
          type="number"
          min={min}
          max={max}
          value={wanted[name]}
          onInput={(event) => onChange({ [name]: event.currentTarget.valueAsNumber || min })}
        />
      </label>
    ))}
  </>
);

/** Why there are fewer exercises than were wanted; undefined where there are not. */
function whyFewer(made: AnswerTo<"exercises">, { size, answers }: Wanted): string | undefined {
  const found = made.exercises.length;
  if (found >= size) return undefined;
  if (made.candidates === 0) return "No position fits that.";
  return `${found} of ${size}: no more of the ${counted(made.candidates, "position")} that fit have ${counted(answers, "answer")} and are unlike the others.`;
}

export const PractisePlace = () => {
  const { q = "" } = useAddress().query;
  const progress = useServerState((server) => server.progress);
  const { session } = useStored();
  const [wanted, setWanted] = useState<Wanted>({ ...FIRST, question: q });
  const [fewer, setFewer] = useState<string>();
  const task = useTask();
  const ahead = useMadeAhead(wanted);
  useTitle("Practise");
  const change = (part: Partial<Wanted>) => setWanted((before) => ({ ...before, ...part }));
  const make = async (stopped: AbortSignal) => {
    setFewer(undefined);
    const made = await ahead.take(stopped);
    setFewer(whyFewer(made, wanted));
    if (made.exercises.length > 0)
      putExercises({ title: `Exercises: ${made.title}`, exercises: made.exercises.map(storedExercise) });
  };
  return (
    <>
      <h1>Practise</h1>
      <form
        onSubmit={(event) => {
          event.preventDefault();
          if (mayReplace(session)) task.run(make);
        }}
      >
        <QuestionLine
          value={q}
          label="Exercises on which positions?"
          hint="any"
          onChange={(question) => change({ question })}
        />
        <div class="form">
          <Wishes wanted={wanted} onChange={change} />
          <ThemeWishes wanted={wanted} onChange={change} />
          <button class="main" disabled={task.busy}>
            Make exercises
          </button>
        </div>
        {ahead.state && !task.busy && (
          <p class="small" role="status">
            {ahead.state === "ready" ? "This set is ready." : `This set is being made already … ${progress}`}
          </p>
        )}
        {task.busy && <Working progress={progress} onStop={task.stop} />}
        {/* an error in the question is shown under it */}
        {task.error?.place.at === undefined && <ErrorMessage error={task.error} />}
        {fewer && <p class="note">{fewer}</p>}
      </form>
      <Learning />
      <Session />
    </>
  );
};
