// Files of the visitor's own computer, chosen or dropped, handed over and read.

import { useState } from "preact/hooks";

import { callErrorOf } from "./call-error.js";
import { useTask } from "./call-hooks.js";
import { call, upload } from "./calls.js";
import { ErrorMessage } from "./parts.js";
import { isWorking, useServerState } from "./server-state.js";

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
  const isServerBusy = useServerState(isWorking);
  const task = useTask();
  const [refused, setRefused] = useState<readonly Refused[]>([]);
  const busy = task.busy || isServerBusy;
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
