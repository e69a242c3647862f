// Practising: a session of exercises, asked for by a question or made of the tray, with its score kept in the browser.

import { useState } from "preact/hooks";

import type { Input } from "../../server/api.js";
import { Link, useAddress } from "../address.js";
import { SmallBoard } from "../board.js";
import { type Going, call, useTask } from "../calls.js";
import { keep, useKept } from "../browser-storage.js";
import { Choice, Told, Working, useTitle } from "../parts.js";
import { QuestionLine } from "../question.js";
import { exerciseAddress, keptOf, mayReplace, turnOf } from "../exercise-session.js";

const Session = () => {
  const { session } = useKept();
  if (!session) return null;
  const { exercises, title } = session;
  const won = exercises.filter(({ last }) => last === "won").length;
  const lost = exercises.filter(({ last }) => last === "lost").length;
  return (
    <section aria-label="Exercises under way">
      <h2>{title}</h2>
      <p role="status">
        {exercises.length} exercises: <b>{won} won</b>, {lost} lost, {exercises.length - won - lost} not
        tried.
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
            <p class="small">
              {one.last === null
                ? "not tried"
                : `${one.last === "won" ? "✓ won" : "✗ lost"}; won ${one.won}, lost ${one.lost}`}
            </p>
          </li>
        ))}
      </ol>
      <button type="button" onClick={() => mayReplace(session) && keep(() => ({ session: null }))}>
        Put these exercises away
      </button>
    </section>
  );
};

export const PractisePlace = ({ going }: { going: Going }) => {
  const { query } = useAddress();
  const [question, setQuestion] = useState(query.q ?? "");
  const [task, setTask] = useState<Input<"exercises">["task"]>("find");
  const [among, setAmong] = useState<Input<"exercises">["among"]>("table");
  const [size, setSize] = useState(12);
  const [answers, setAnswers] = useState(1);
  const [seed, setSeed] = useState(1);
  const [short, setShort] = useState<string>();
  const work = useTask();
  const { session } = useKept();
  useTitle("Practise");
  const make = () =>
    mayReplace(session) &&
    work.run(async (stopped) => {
      setShort(undefined);
      const made = await call("exercises", { question, task, among, size, answers, seed }, stopped);
      const found = made.exercises.length;
      if (found < size)
        setShort(
          made.candidates === 0
            ? "No position fits that."
            : `${found} of ${size}: no more of ${made.candidates.toLocaleString("en")} positions that fit have ${answers === 1 ? "one answer" : `${answers} answers`} and are unlike the others.`,
        );
      if (found > 0)
        keep(() => ({
          session: { title: `Exercises: ${made.title}`, exercises: made.exercises.map(keptOf) },
        }));
    });
  return (
    <>
      <h1>Practise</h1>
      <form
        onSubmit={(event) => {
          event.preventDefault();
          make();
        }}
      >
        <QuestionLine value={query.q ?? ""} label="Exercises on which positions?" onChange={setQuestion} />
        <div class="form">
          <Choice
            label="Task"
            value={task}
            options={[
              ["find", "find the move"],
              ["hold", "hold the draw"],
              ["win", "find the win"],
            ]}
            onChange={setTask}
          />
          <Choice
            label="Out of"
            value={among}
            options={[
              ["table", "all positions there are"],
              ["games", "games"],
            ]}
            onChange={setAmong}
          />
          <label>
            how many
            <input
              type="number"
              min={1}
              max={60}
              value={size}
              onInput={(event) => setSize(event.currentTarget.valueAsNumber || 1)}
            />
          </label>
          <label>
            moves that keep the result
            <input
              type="number"
              min={1}
              max={20}
              value={answers}
              onInput={(event) => setAnswers(event.currentTarget.valueAsNumber || 1)}
            />
          </label>
          <label>
            choice number
            <input
              type="number"
              min={0}
              max={999999}
              value={seed}
              onInput={(event) => setSeed(event.currentTarget.valueAsNumber || 0)}
            />
          </label>
          <button class="main" disabled={work.busy}>
            Make exercises
          </button>
        </div>
        {work.busy && <Working said={going.said} onStop={work.stop} />}
        {work.fault?.at === undefined && <Told fault={work.fault} />}
        {short && <p class="note">{short}</p>}
      </form>
      <Session />
    </>
  );
};
