// The games: what the database holds, reading more of them (reading.tsx), and the list of what could not be read.

import { useState } from "preact/hooks";

import { Link } from "../address.js";
import { useAnswer, useTask } from "../call-hooks.js";
import { type AnswerTo, call } from "../calls.js";
import { Running } from "../index-run.js";
import { ErrorMessage, Folded, counted, useTitle } from "../parts.js";
import { useServerState } from "../server-state.js";
import { FilesAndFolders } from "./reading.js";

/** Rows of the list at a time. */
const SIZE = 100;

const SkippedTable = ({ rows }: Pick<AnswerTo<"skipped">, "rows">) => (
  <div class="wide" tabIndex={0} role="region" aria-label="Games that could not be read">
    <table class="stacked">
      <thead>
        <tr>
          <th scope="col">file</th>
          {["game", "byte", "half-move"].map((name) => (
            <th key={name} scope="col" class="number">
              {name}
            </th>
          ))}
          <th scope="col">because of</th>
        </tr>
      </thead>
      <tbody>
        {rows.map((row) => (
          <tr key={`${row.file} ${row.byte}`}>
            <th scope="row">{row.file}</th>
            <td class="number" data-of="game">
              {row.game}
            </td>
            <td class="number" data-of="byte">
              {row.byte}
            </td>
            <td class="number" data-of="half-move">
              {row.ply ?? ""}
            </td>
            <td>
              {row.because}: {row.detail}
            </td>
          </tr>
        ))}
      </tbody>
    </table>
  </div>
);

/** To the rows before and after; nothing where all are shown. */
const Pages = ({ from, all, onChange }: { from: number; all: number; onChange: (from: number) => void }) =>
  all <= SIZE ? null : (
    <div class="buttons">
      <button type="button" disabled={from === 0} onClick={() => onChange(Math.max(0, from - SIZE))}>
        Before
      </button>
      <button type="button" disabled={from + SIZE >= all} onClick={() => onChange(from + SIZE)}>
        Next
      </button>
    </div>
  );

const Skipped = () => {
  const [from, setFrom] = useState(0);
  const { answer, error } = useAnswer("skipped", { from, size: SIZE });
  if (error) return <ErrorMessage error={error} />;
  if (!answer) return null;
  return (
    <>
      <SkippedTable rows={answer.rows} />
      <Pages from={from} all={answer.all} onChange={setFrom} />
    </>
  );
};

/** One file whose games are held, which can be taken out; it is asked for once more before that is done. */
const HeldFile = ({ row, busy }: { row: AnswerTo<"files">["rows"][number]; busy: boolean }) => {
  const [sure, setSure] = useState(false);
  const task = useTask();
  return (
    <tr>
      <th scope="row">{row.shown}</th>
      <td class="number" data-of="games">
        {row.games.toLocaleString("en")}
      </td>
      <td class="number" data-of="endings">
        {row.endings.toLocaleString("en")}
      </td>
      <td>{row.complete ? "" : "not read to its end"}</td>
      <td>
        {sure ? (
          <>
            <button
              type="button"
              disabled={busy || task.busy}
              onClick={() => task.run(() => call("drop", { name: row.name }))}
            >
              Take out {counted(row.held, "game")}
            </button>{" "}
            <button type="button" class="plain" onClick={() => setSure(false)}>
              keep
            </button>
          </>
        ) : (
          <button type="button" class="plain" disabled={busy} onClick={() => setSure(true)}>
            take out<span class="hidden"> the games of {row.shown}</span>
          </button>
        )}
        <ErrorMessage error={task.error} />
      </td>
    </tr>
  );
};

/** The files whose games are held. */
const HeldFiles = () => {
  const [from, setFrom] = useState(0);
  const { answer, error } = useAnswer("files", { from, size: SIZE });
  const work = useServerState((server) => server.work);
  if (error) return <ErrorMessage error={error} />;
  if (!answer) return null;
  return (
    <>
      <p class="small">
        Taking a file out takes its games out of the database; the file itself stays where it is. Copies of
        its games in other files then count instead. It cannot be undone here: to have the games back, read
        the file again.
      </p>
      <div class="wide" tabIndex={0} role="region" aria-label="Files whose games are held">
        <table class="stacked">
          <thead>
            <tr>
              <th scope="col">file</th>
              <th scope="col" class="number">
                games
              </th>
              <th scope="col" class="number">
                endings
              </th>
              <th scope="col">
                <span class="hidden">state</span>
              </th>
              <th scope="col">
                <span class="hidden">what can be done</span>
              </th>
            </tr>
          </thead>
          <tbody>
            {answer.rows.map((row) => (
              <HeldFile key={row.name} row={row} busy={work !== undefined && work.what !== null} />
            ))}
          </tbody>
        </table>
      </div>
      <Pages from={from} all={answer.all} onChange={setFrom} />
    </>
  );
};

const Held = ({ held }: Pick<AnswerTo<"holds">, "held">) =>
  held ? (
    <p role="status">
      <b class="figures">{held.endings.toLocaleString("en")}</b> {held.endings === 1 ? "ending" : "endings"}{" "}
      of {held.target} with {counted(held.positions, "position")}, from{" "}
      {counted(held.gamesWithEndings, "game")}; duplicates (kept, counted once):{" "}
      {held.duplicates.toLocaleString("en")}. <Link to="/ask?each=ending">Ask about them</Link>.
    </p>
  ) : (
    <p class="note">There are no games yet. Choose some below.</p>
  );

export const GamesPlace = () => {
  const { answer, error } = useAnswer("holds", {});
  const { answer: state, error: refused } = useAnswer("state", {});
  const skipped = answer?.held?.skipped ?? 0;
  useTitle("Games");
  return (
    <>
      <h1>Games</h1>
      <ErrorMessage error={error} />
      {answer && <Held held={answer.held} />}
      <ErrorMessage error={refused} />
      {/* nothing stands below what is still to come */}
      {state && (answer ?? error) && (
        <>
          <p class="small">The database: {state.db}</p>
          <Running />
          {answer?.held && answer.held.files > 0 && (
            <Folded title={counted(answer.held.files, "file")}>{() => <HeldFiles />}</Folded>
          )}
          {skipped > 0 && (
            <Folded title={`${counted(skipped, "game")} that could not be read, or not to the end`}>
              {() => <Skipped />}
            </Folded>
          )}
          <FilesAndFolders roots={state.folders} />
        </>
      )}
    </>
  );
};
