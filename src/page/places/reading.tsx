// Reading games, for the one at whose machine the server runs: files handed over or found in folders, and the progress of
// a run.

import { useState } from "preact/hooks";

import { useAnswer, useTask } from "../call-hooks.js";
import { type AnswerTo, call } from "../calls.js";
import { DropFiles } from "../drop-files.js";
import { megabytes } from "../index-run.js";
import { ErrorMessage, TextField } from "../parts.js";
import { isWorking, useServerState } from "../server-state.js";

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
  const isServerBusy = useServerState(isWorking);
  const task = useTask();
  const busy = task.busy || isServerBusy;
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
