// The games: what the database holds, reading more of them with progress to be seen, and the list of what could not be
// read.

import { useState } from "preact/hooks";

import { Link } from "../address.js";
import { type AnswerTo, type Going, call, upload, useAnswer, useTask } from "../calls.js";
import { Folded, Told, useTitle } from "../parts.js";

const number = (n: number) => n.toLocaleString("en");
const counted = (n: number, noun: string) => `${number(n)} ${noun}${n === 1 ? "" : "s"}`;
const megabytes = (bytes: number) => `${(bytes / 1e6).toFixed(1)} MB`;

/** What is going on, with a bar. */
const Running = ({ going }: { going: Going }) => {
  const { work } = going;
  const task = useTask();
  if (!work) return null;
  const { what, progress, stopping, last, error, paths } = work;
  return (
    <>
      {what !== null && (
        <div class="note" role="status">
          <p>
            {what === "index" ? "Reading" : "Building the tables of"} {paths.join(", ")}
            {progress && (
              <>
                : {progress.file},{" "}
                {what === "index"
                  ? `${megabytes(progress.done)} of ${megabytes(progress.total)}`
                  : `${Math.floor(progress.done / 10)} %`}
              </>
            )}
          </p>
          <progress
            max={progress?.total || 1}
            value={progress ? progress.done : undefined}
            aria-label="How far it has come"
          />
          {what === "index" && (
            <p>
              <button
                type="button"
                disabled={stopping}
                onClick={() => task.run(async () => void (await call("stop", {})))}
              >
                {stopping ? "Stopping …" : "Stop"}
              </button>{" "}
              What has been read is kept; reading goes on from there when it is begun again.
            </p>
          )}
        </div>
      )}
      {what === null && last && (
        <div class="note" role="status">
          <p>
            {last.stopped ? "Stopped" : "Done"}: {counted(last.read, "file")} read,{" "}
            {counted(last.games, "game")}
            {last.unchanged > 0 && `; ${number(last.unchanged)} files had been read before`}.
          </p>
          {last.stopped && (
            <p>
              <button
                type="button"
                onClick={() => task.run(async () => void (await call("index", { paths: [...last.paths] })))}
              >
                Go on
              </button>
            </p>
          )}
          {last.empty.length > 0 && <p>No games in {last.empty.slice(0, 5).join(", ")}.</p>}
          {last.vanished.length > 0 && (
            <p>No longer there, games kept: {last.vanished.slice(0, 5).join(", ")}.</p>
          )}
          {last.unreadable.map((one) => (
            <p key={one.message} class="fault">
              {one.message}. <span class="hint">{one.hint}</span>
            </p>
          ))}
        </div>
      )}
      {error && (
        <p class="fault" role="alert">
          {error.message}. <span class="hint">{error.hint}</span>
        </p>
      )}
      <Told fault={task.fault} />
    </>
  );
};

/** A look into the folders that may be read. */
const Browse = ({
  roots,
  busy,
  onRead,
}: {
  roots: readonly string[];
  busy: boolean;
  onRead: (paths: string[]) => void;
}) => {
  const [path, setPath] = useState<string>();
  const { answer, fault } = useAnswer("folders", { path });
  const [chosen, setChosen] = useState<readonly string[]>([]);
  const to = (next: string | undefined) => {
    setChosen([]);
    setPath(next);
  };
  const toggle = (one: string) =>
    setChosen((before) =>
      before.includes(one) ? before.filter((other) => other !== one) : [...before, one],
    );
  const parent = path === undefined || roots.includes(path) ? undefined : path.replace(/[\\/][^\\/]*$/, "");
  return (
    <>
      <Told fault={fault} />
      <p>
        {path === undefined ? "Folders that may be read:" : path}{" "}
        {path !== undefined && (
          <>
            <button type="button" class="plain" onClick={() => to(parent)}>
              one up
            </button>
            ,{" "}
            <button type="button" class="plain" onClick={() => to(undefined)}>
              to the first
            </button>
          </>
        )}
      </p>
      <ul class="entries">
        {answer?.entries.map((entry) => (
          <li key={entry.path}>
            <label>
              <input
                type="checkbox"
                checked={chosen.includes(entry.path)}
                onChange={() => toggle(entry.path)}
              />
              <span class="hidden">choose {entry.name}</span>
            </label>
            {entry.folder ? (
              <button type="button" class="plain" onClick={() => to(entry.path)}>
                {entry.name}/
              </button>
            ) : (
              <>
                {entry.name} <span class="small">{megabytes(entry.size)}</span>
              </>
            )}
          </li>
        ))}
        {answer && answer.entries.length === 0 && <li class="small">no games here</li>}
      </ul>
      <div class="buttons">
        <button
          type="button"
          class="main"
          disabled={busy || chosen.length === 0}
          onClick={() => onRead([...chosen])}
        >
          Read{" "}
          {chosen.length === 0 ? "what is chosen" : chosen.length === 1 ? "it" : `these ${chosen.length}`}
        </button>
        {path !== undefined && (
          <button type="button" disabled={busy} onClick={() => onRead([path])}>
            Read this whole folder
          </button>
        )}
      </div>
    </>
  );
};

const SIZE = 100;

const Skipped = ({ turns }: { turns: number }) => {
  const [from, setFrom] = useState(0);
  const { answer, fault } = useAnswer("skipped", { from, size: SIZE }, turns);
  if (fault) return <Told fault={fault} />;
  if (!answer) return null;
  return (
    <>
      <div class="wide" tabIndex={0} role="region" aria-label="Games that could not be read">
        <table>
          <thead>
            <tr>
              <th scope="col">file</th>
              <th scope="col" class="number">
                game
              </th>
              <th scope="col" class="number">
                byte
              </th>
              <th scope="col" class="number">
                ply
              </th>
              <th scope="col">because of</th>
            </tr>
          </thead>
          <tbody>
            {answer.rows.map((row) => (
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

export const GamesPlace = ({ going }: { going: Going }) => {
  const { answer, fault } = useAnswer("holds", {}, going.turns);
  const holds = answer?.held;
  const { answer: state, fault: guest } = useAnswer("state", {});
  useTitle("Games");
  return (
    <>
      <h1>Games</h1>
      <Told fault={fault} />
      {holds ? (
        <p role="status">
          <b class="figures">{number(holds.endings)}</b> endings of {holds.target} with{" "}
          {number(holds.positions)} positions, from {number(holds.gamesWithEndings)} games; duplicates (kept,
          counted once): {number(holds.duplicates)}. <Link to="/ask">Ask about them</Link>.
        </p>
      ) : (
        answer && <p class="note">There are no games yet. Choose some below.</p>
      )}
      {guest && <Told fault={guest} />}
      {state && <Reading state={state} going={going} skipped={holds?.skipped ?? 0} />}
    </>
  );
};

/** Reading more games: for the one at whose machine this is. */
const Reading = ({ state, going, skipped }: { state: AnswerTo<"state">; going: Going; skipped: number }) => {
  const work = useTask();
  const [path, setPath] = useState("");
  const busy = work.busy || (going.work?.what ?? null) !== null;
  const read = (paths: string[]) => work.run(async () => void (await call("index", { paths })));
  const take = (files: readonly File[]) =>
    work.run(async () => {
      const paths: string[] = [];
      for (const file of files) paths.push(await upload(file));
      if (paths.length > 0) await call("index", { paths });
    });
  return (
    <>
      <p class="small">The database: {state.db}</p>
      <Running going={going} />
      <Told fault={work.fault} />
      <h2>Read more</h2>
      <div
        class="drop"
        onDragOver={(event) => event.preventDefault()}
        onDrop={(event) => {
          event.preventDefault();
          take([...(event.dataTransfer?.files ?? [])]);
        }}
      >
        <label>
          Files of this computer, chosen or dropped here (.pgn, also .gz, .zst, .bz2, .zip)
          <input
            type="file"
            multiple
            disabled={busy}
            accept=".pgn,.gz,.zst,.bz2,.zip"
            onChange={(event) => {
              take([...(event.currentTarget.files ?? [])]);
              event.currentTarget.value = "";
            }}
          />
        </label>
      </div>
      <h3>Or from a folder</h3>
      <Browse roots={state.folders} busy={busy} onRead={read} />
      <form
        class="form"
        onSubmit={(event) => {
          event.preventDefault();
          if (path.trim() !== "") read([path.trim()]);
        }}
      >
        <label class="grow">
          Or by the path of a file or folder below those
          <input
            type="text"
            value={path}
            spellcheck={false}
            onInput={(event) => setPath(event.currentTarget.value)}
          />
        </label>
        <button disabled={busy || path.trim() === ""}>Read</button>
      </form>
      {skipped > 0 && (
        <Folded title={`${number(skipped)} games that could not be read, or not to their end`}>
          {() => <Skipped turns={going.turns} />}
        </Folded>
      )}
    </>
  );
};
