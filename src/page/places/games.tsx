// The games: what the database holds, reading more of them (reading.tsx), and the list of what could not be read.

import { useState } from "preact/hooks";

import { Link } from "../address.js";
import { useAnswer } from "../call-hooks.js";
import type { AnswerTo } from "../calls.js";
import { Running } from "../index-run.js";
import { ErrorMessage, Folded, counted, useTitle } from "../parts.js";
import { FilesAndFolders } from "./reading.js";

/** Rows of the list at a time. */
const SIZE = 100;

const SkippedTable = ({ rows }: Pick<AnswerTo<"skipped">, "rows">) => (
  <div class="wide" tabIndex={0} role="region" aria-label="Games that could not be read">
    <table>
      <thead>
        <tr>
          <th scope="col">file</th>
          {["game", "byte", "ply"].map((name) => (
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
            <td class="number">{row.game}</td>
            <td class="number">{row.byte}</td>
            <td class="number">{row.ply ?? ""}</td>
            <td>
              {row.because}: {row.detail}
            </td>
          </tr>
        ))}
      </tbody>
    </table>
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
      <div class="buttons">
        <button type="button" disabled={from === 0} onClick={() => setFrom(Math.max(0, from - SIZE))}>
          Before
        </button>
        <button type="button" disabled={from + SIZE >= answer.all} onClick={() => setFrom(from + SIZE)}>
          Next
        </button>
      </div>
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
      {state && (
        <>
          <p class="small">The database: {state.db}</p>
          <Running />
          <FilesAndFolders roots={state.folders} />
          {skipped > 0 && (
            <Folded title={`${counted(skipped, "game")} that could not be read, or not to the end`}>
              {() => <Skipped />}
            </Folded>
          )}
        </>
      )}
    </>
  );
};
