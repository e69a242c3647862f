// Reading games, for the one at whose machine the server runs: files handed over or found in folders, and the progress of
// a run.

import { useState } from "preact/hooks";

import { answeredError, callErrorOf } from "../call-error.js";
import { useAnswer, useTask } from "../call-hooks.js";
import { type AnswerTo, call, upload } from "../calls.js";
import { ErrorMessage, TextField, counted } from "../parts.js";
import { isWorking, useServerState } from "../server-state.js";

type Work = AnswerTo<"state">["work"];

const megabytes = (bytes: number) => `${(bytes / 1e6).toFixed(1)} MB`;
/** Names of which the first few are shown. */
const few = (names: readonly string[]) => names.slice(0, 5).join(", ");

/** A run or a table build under way, with a bar. */
const UnderWay = ({ work: { what, paths, progress, stopping } }: { work: Work }) => {
  const task = useTask();
  const isIndex = what === "index";
  return (
    <div class="note" role="status">
      <p>
        {isIndex ? "Reading" : "Building the tables of"} {paths.join(", ")}
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
  const { work } = useServerState();
  if (!work) return null;
  const { what, last, error } = work;
  return (
    <>
      {what !== null && <UnderWay work={work} />}
      {what === null && last && <LastRun last={last} />}
      {error && <ErrorMessage error={answeredError(error)} />}
    </>
  );
};

/** A file or folder that may be chosen; a folder also to be gone into. */
const Entry = ({
  entry,
  chosen,
  onChoose,
  onOpen,
}: {
  entry: AnswerTo<"folders">["entries"][number];
  chosen: boolean;
  onChoose: () => void;
  onOpen: () => void;
}) => (
  <li>
    <label>
      <input type="checkbox" checked={chosen} onChange={onChoose} />
      <span class="hidden">choose {entry.name}</span>
    </label>
    {entry.folder ? (
      <button type="button" class="plain" onClick={onOpen}>
        {entry.name}/
      </button>
    ) : (
      <>
        {entry.name} <span class="small">{megabytes(entry.size)}</span>
      </>
    )}
  </li>
);

/** Where one is among the folders, and the ways up. */
const Where = ({
  path,
  roots,
  onOpen,
}: {
  path: string | undefined;
  roots: readonly string[];
  onOpen: (path: string | undefined) => void;
}) => {
  if (path === undefined) return <p>Folders that may be read:</p>;
  const parent = roots.includes(path) ? undefined : path.replace(/[\\/][^\\/]*$/, "");
  return (
    <p>
      {path}{" "}
      <button type="button" class="plain" onClick={() => onOpen(parent)}>
        one up
      </button>
      ,{" "}
      <button type="button" class="plain" onClick={() => onOpen(undefined)}>
        to the first
      </button>
    </p>
  );
};

interface ReadProps {
  readonly busy: boolean;
  readonly onRead: (paths: string[]) => void;
}

/** The folders that may be read, to be gone through. */
const Browse = ({ roots, busy, onRead }: ReadProps & { roots: readonly string[] }) => {
  const [path, setPath] = useState<string>();
  const { answer, error } = useAnswer("folders", { path });
  const [chosen, setChosen] = useState<readonly string[]>([]);
  const open = (next: string | undefined) => {
    setChosen([]);
    setPath(next);
  };
  const toggle = (one: string) =>
    setChosen((before) =>
      before.includes(one) ? before.filter((other) => other !== one) : [...before, one],
    );
  return (
    <>
      <ErrorMessage error={error} />
      <Where path={path} roots={roots} onOpen={open} />
      <ul class="entries">
        {answer?.entries.map((entry) => (
          <Entry
            key={entry.path}
            entry={entry}
            chosen={chosen.includes(entry.path)}
            onChoose={() => toggle(entry.path)}
            onOpen={() => open(entry.path)}
          />
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

/** Names of files that hold games. */
const GAMES = /\.(?:pgn|pgn\.(?:gz|zst|bz2)|zip)$/i;

/** A file that was not taken, and why. */
interface Refused {
  readonly name: string;
  readonly because: string;
}

/** Hands files over one by one: one that is not taken does not keep back the others. */
async function handOver(files: readonly File[]) {
  const paths: string[] = [];
  const refused: Refused[] = [];
  for (const file of files) {
    if (!GAMES.test(file.name)) {
      refused.push({ name: file.name, because: "its name does not end like that of a file of games" });
      continue;
    }
    try {
      paths.push(await upload(file));
    } catch (thrown) {
      const { code, message } = callErrorOf(thrown);
      if (code === "no-server") throw thrown;
      refused.push({ name: file.name, because: message });
    }
  }
  return { paths, refused };
}

/** Files of the visitor's own computer, chosen or dropped. */
export const DropFiles = () => {
  const server = useServerState();
  const task = useTask();
  const [refused, setRefused] = useState<readonly Refused[]>([]);
  const busy = task.busy || isWorking(server);
  const take = (files: readonly File[]) =>
    task.run(async () => {
      setRefused([]);
      const given = await handOver(files);
      setRefused(given.refused);
      if (given.paths.length > 0) await call("index", { paths: given.paths });
    });
  return (
    <>
      <div
        class="drop"
        onDragOver={(event) => event.preventDefault()}
        onDrop={(event) => {
          event.preventDefault();
          take([...(event.dataTransfer?.files ?? [])]);
        }}
      >
        <label>
          Files of this computer, chosen or dropped here{" "}
          <span class="small">(.pgn, also .gz, .zst, .bz2, .zip)</span>
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
      {refused.map(({ name, because }) => (
        <p key={name} class="error-message" role="alert">
          <b>{name}</b> was not taken: {because}. <span class="hint">The other files are read.</span>
        </p>
      ))}
      <ErrorMessage error={task.error} />
    </>
  );
};

const PathForm = ({ busy, onRead }: ReadProps) => {
  const [path, setPath] = useState("");
  return (
    <form
      class="form"
      onSubmit={(event) => {
        event.preventDefault();
        if (path.trim() !== "") onRead([path.trim()]);
      }}
    >
      <TextField
        label="Or by the path of a file or folder below those"
        value={path}
        spellcheck={false}
        onInput={setPath}
      />
      <button disabled={busy || path.trim() === ""}>Read</button>
    </form>
  );
};

export const FilesAndFolders = ({ roots }: { roots: readonly string[] }) => {
  const server = useServerState();
  const task = useTask();
  const busy = task.busy || isWorking(server);
  const read = (paths: string[]) => task.run(() => call("index", { paths }));
  return (
    <>
      <ErrorMessage error={task.error} />
      <h2>Read more</h2>
      <DropFiles />
      <h3>Or from a folder</h3>
      <Browse roots={roots} busy={busy} onRead={read} />
      <PathForm busy={busy} onRead={read} />
    </>
  );
};
