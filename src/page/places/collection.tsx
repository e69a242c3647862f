// The collection, shown as the tray: what was put into it while looking, in the order it is to have, and what can be made
// of it.

import { useState } from "preact/hooks";

import { Link, addressOf, go } from "../address.js";
import { SmallBoard } from "../board.js";
import { changeByStep, useStored } from "../browser-storage.js";
import { useTask } from "../call-hooks.js";
import { type Input, call } from "../calls.js";
import { mayReplace, putExercises, storedExercise } from "../exercise-session.js";
import { ErrorMessage, TextField, Working, counted, useTitle } from "../parts.js";
import { Names } from "../../documents/names.js";
import { type Made, MadeLinks } from "../made-links.js";
import { useServerState } from "../server-state.js";
import type { CollectionItem } from "../stored.js";
import { mayReplaceLesson, takeDraft } from "./lesson.js";

/** Changes what is in the collection, as a step that can be undone. */
const change = (
  says: string,
  key: string,
  how: (items: CollectionItem[], n: number) => void,
  field?: string,
) =>
  changeByStep(
    "collection",
    says,
    (collection) => {
      const items = [...collection];
      how(
        items,
        items.findIndex((one) => one.key === key),
      );
      return items;
    },
    field,
  );

/** Moves an item by one place. */
const shift = ({ key, title }: CollectionItem, by: number) =>
  change(`${title} ${by < 0 ? "up" : "down"}`, key, (items, n) => {
    const [one] = items.splice(n, 1);
    items.splice(Math.max(0, n + by), 0, one);
  });

const Item = ({ item, n, of }: { item: CollectionItem; n: number; of: number }) => {
  const { key, title, ending } = item;
  const to =
    ending === undefined
      ? addressOf("/board", { fen: item.shown })
      : addressOf(`/ending/${ending}`, { ply: item.ply });
  // at every key: what is being typed is not lost with a reload, or when another tab changes the collection
  const setNote = (note: string) =>
    change(`note on ${title}`, key, (items, at) => (items[at] = { ...items[at], note }), key);
  const buttons = [
    ["Up", n > 0, () => shift(item, -1)],
    ["Down", n < of - 1, () => shift(item, 1)],
    ["Take out", true, () => change(`${title} out of the tray`, key, (items, at) => items.splice(at, 1))],
  ] as const;
  return (
    <li class="answer">
      <Link to={to} aria-label={`Look at ${n + 1}, ${title}`}>
        <SmallBoard fen={item.shown} />
      </Link>
      <div>
        <h2>
          <Link to={to}>
            <Names text={title} />
          </Link>
        </h2>
        <p class="small">{item.fen === undefined ? "the whole ending" : "a position"}</p>
        <TextField
          label="Note (for the lesson and the PGN)"
          value={item.note}
          maxLength={2000}
          onInput={setNote}
        />
        <div class="buttons">
          {buttons.map(([name, can, act]) => (
            <button key={name} type="button" disabled={!can} onClick={act} aria-label={`${name}: ${title}`}>
              {name}
            </button>
          ))}
        </div>
      </div>
    </li>
  );
};

/** The work of the place: at most one thing is made at a time, and shown when it is done. */
function useMaking(title: string) {
  const { collection, session, lesson } = useStored();
  const [made, setMade] = useState<{ made: Made; what: string }>();
  const [note, setNote] = useState<string>();
  const task = useTask();
  const items: Input<"sheet">["items"] = collection.map(({ fen, ending, ply, note }) => ({
    fen,
    ending,
    ply,
    note: note === "" ? undefined : note,
  }));
  const run =
    (work: (stopped: AbortSignal) => Promise<void>, may = () => true) =>
    () =>
      may() &&
      task.run(async (stopped) => {
        setMade(undefined);
        setNote(undefined);
        await work(stopped);
      });
  return {
    task,
    made,
    note,
    sheet: run(async (stopped) => {
      const { made, exercises, leftOut } = await call("sheet", { title, items }, stopped);
      setNote(leftOut ?? undefined);
      setMade({ made, what: `A sheet of ${counted(exercises, "exercise")}` });
    }),
    pgn: run(async (stopped) => {
      const { made } = await call("pgn", { title, items }, stopped);
      setMade({ made, what: "The games and positions" });
    }),
    draft: run(
      async (stopped) => {
        takeDraft(await call("outline", { title, items }, stopped), false);
        go("/lesson");
      },
      () => mayReplaceLesson(lesson),
    ),
    practise: run(
      async (stopped) => {
        const { exercises, leftOut } = await call("practise", { items }, stopped);
        setNote(leftOut ?? undefined);
        if (exercises.length === 0) return;
        putExercises({ title, exercises: exercises.map(storedExercise) });
        go("/practise");
      },
      () => mayReplace(session),
    ),
  };
}

/** What is in the collection, and the buttons that make something of it. */
const Items = ({
  title,
  setTitle,
  making: { task, sheet, draft, pgn, practise },
}: {
  title: string;
  setTitle: (title: string) => void;
  making: ReturnType<typeof useMaking>;
}) => {
  const { collection } = useStored();
  const hasPositions = collection.some(({ fen }) => fen !== undefined);
  const buttons = [
    ["Draft a lesson", draft, true],
    ["Exercise sheet", sheet, hasPositions],
    ["Games as PGN", pgn, true],
    ["Practise the positions", practise, hasPositions],
  ] as const;
  return (
    <>
      <ol class="answers" aria-label="In the tray" data-steps>
        {collection.map((item, n) => (
          <Item key={item.key} item={item} n={n} of={collection.length} />
        ))}
      </ol>
      <div class="form">
        <TextField label="Title" value={title} maxLength={200} onInput={setTitle} />
      </div>
      <div class="buttons">
        {buttons.map(([name, make, can]) => (
          <button
            key={name}
            type="button"
            class={make === draft ? "main" : ""}
            disabled={task.busy || !can}
            onClick={make}
          >
            {name}
          </button>
        ))}
        <button
          type="button"
          onClick={() =>
            confirm("Empty the whole tray?") && changeByStep("collection", "emptying the tray", () => [])
          }
        >
          Empty the tray
        </button>
      </div>
      {!hasPositions && (
        <p class="small">
          A sheet and exercises are made of positions; here are only whole endings. Look at one, and put a
          position of it in.
        </p>
      )}
    </>
  );
};

export const CollectionPlace = () => {
  const { collection } = useStored();
  const progress = useServerState((server) => server.progress);
  const [title, setTitle] = useState("My lesson");
  const making = useMaking(title);
  const { task, made, note } = making;
  useTitle("Tray");
  return (
    <>
      <h1>Tray</h1>
      {collection.length === 0 ? (
        <p class="note">
          It is empty. Put positions and games into it while you <Link to="/ask">ask</Link> and look; here
          they become an exercise sheet, a <Link to="/lesson">lesson</Link>, or a file of games.
        </p>
      ) : (
        <Items title={title} setTitle={setTitle} making={making} />
      )}
      {task.busy && <Working progress={progress} onStop={task.stop} />}
      <ErrorMessage error={task.error} />
      {note && <p class="note">{note}</p>}
      {made && <MadeLinks {...made} />}
    </>
  );
};
