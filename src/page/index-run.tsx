// The index run or table build under way, or what came of the last one.

import { answeredError } from "./call-error.js";
import { useTask } from "./call-hooks.js";
import { type AnswerTo, call } from "./calls.js";
import { ErrorMessage, counted } from "./parts.js";
import { useServerState } from "./server-state.js";

type Work = AnswerTo<"state">["work"];

export const megabytes = (bytes: number) => `${(bytes / 1e6).toFixed(1)} MB`;
/** Names of which the first few are shown. */
const few = (names: readonly string[]) => names.slice(0, 5).join(", ");

const DOING: Readonly<Record<NonNullable<Work["what"]>, string>> = {
  index: "Reading",
  drop: "Taking out the games of",
  tables: "Building the tables of",
};

/** A run, a removal or a table build under way, with a bar. */
const UnderWay = ({
  work: { names, progress, stopping },
  what,
}: {
  work: Work;
  what: NonNullable<Work["what"]>;
}) => {
  const task = useTask();
  const isIndex = what === "index";
  return (
    <div class="note" role="status">
      <p>
        {DOING[what]} {names.join(", ")}
        {progress && (
          <>
            : {progress.file},{" "}
            {isIndex
              ? `${megabytes(progress.done)} of ${megabytes(progress.total)}`
              : `${Math.floor(progress.done / 10)} %`}
          </>
        )}
      </p>
      <progress max={progress?.total || 1} value={progress?.done} aria-label="How far it has come" />
      {isIndex && (
        <p>
          <button type="button" disabled={stopping} onClick={() => task.run(() => call("stop", {}))}>
            {stopping ? "Stopping …" : "Stop"}
          </button>{" "}
          What has been read is kept; reading goes on from there when it is begun again.
        </p>
      )}
      <ErrorMessage error={task.error} />
    </div>
  );
};

/** What came of the last run. */
const LastRun = ({ last }: { last: NonNullable<Work["last"]> }) => {
  const task = useTask();
  return (
    <div class="note" role="status">
      <p>
        {last.stopped ? "Stopped" : "Done"}: {counted(last.read, "file")} read, {counted(last.games, "game")}
        {last.unchanged > 0 && `; ${counted(last.unchanged, "file")} had been read before`}.
      </p>
      {last.stopped && (
        <p>
          <button type="button" onClick={() => task.run(() => call("index", { paths: [...last.paths] }))}>
            Go on
          </button>
        </p>
      )}
      {last.empty.length > 0 && <p>No games in {few(last.empty)}.</p>}
      {last.vanished.length > 0 && <p>No longer there, games kept: {few(last.vanished)}.</p>}
      {last.unreadable.map(({ message, hint }) => (
        <p key={message} class="error-message">
          {message}. <span class="hint">{hint}</span>
        </p>
      ))}
      <ErrorMessage error={task.error} />
    </div>
  );
};

export const Running = () => {
  const work = useServerState((server) => server.work);
  if (!work) return null;
  const { what, last, error } = work;
  return (
    <>
      {what !== null && <UnderWay work={work} what={what} />}
      {what === null && last && <LastRun last={last} />}
      {error && <ErrorMessage error={answeredError(error)} />}
    </>
  );
};
