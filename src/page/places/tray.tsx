// The tray: what was put by while looking, in the order it shall have, and what can be made of it.

import { useState } from "preact/hooks";

import { Link, addressOf, go } from "../address.js";
import { SmallBoard } from "../board.js";
import { type AnswerTo, type Going, call, useTask } from "../calls.js";
import { type Item, keep, useKept } from "../browser-storage.js";
import { Told, Working, save, useTitle } from "../parts.js";
import { keptOf, mayReplace } from "../exercise-session.js";

type MadeAt = AnswerTo<"lesson">["made"];

const change = (key: string, how: (items: Item[], n: number) => void) =>
  keep(({ tray }) => {
    const items = [...tray];
    how(
      items,
      items.findIndex((one) => one.key === key),
    );
    return { tray: items };
  });

/** Moves an item by one place. */
const shift = (key: string, by: number) =>
  change(key, (items, n) => {
    const [one] = items.splice(n, 1);
    items.splice(Math.max(0, n + by), 0, one);
  });

const given = (tray: readonly Item[]) =>
  tray.map(({ fen, ending, ply, note }) => ({ fen, ending, ply, note: note === "" ? undefined : note }));

const Row = ({ item, n, of }: { item: Item; n: number; of: number }) => {
  const to =
    item.ending === undefined
      ? addressOf("/board", { fen: item.shown })
      : addressOf(`/ending/${item.ending}`, { ply: item.ply });
  return (
    <li class="answer">
      <Link to={to} aria-label={`PositionView at ${n + 1}, ${item.title}`}>
        <SmallBoard fen={item.shown} />
      </Link>
      <div>
        <h2>
          <Link to={to}>{item.title}</Link>
        </h2>
        <p class="small">{item.fen === undefined ? "the whole ending" : "a position"}</p>
        <label class="grow">
          Note (for the lesson and the PGN)
          <input
            type="text"
            value={item.note}
            maxLength={2000}
            onChange={(event) => {
              const note = event.currentTarget.value;
              change(item.key, (items, at) => (items[at] = { ...items[at], note }));
            }}
          />
        </label>
        <div class="buttons">
          <button
            type="button"
            disabled={n === 0}
            onClick={() => shift(item.key, -1)}
            aria-label={`Up: ${item.title}`}
          >
            Up
          </button>
          <button
            type="button"
            disabled={n === of - 1}
            onClick={() => shift(item.key, 1)}
            aria-label={`Down: ${item.title}`}
          >
            Down
          </button>
          <button
            type="button"
            onClick={() => change(item.key, (items, at) => items.splice(at, 1))}
            aria-label={`Take out ${item.title}`}
          >
            Take out
          </button>
        </div>
      </div>
    </li>
  );
};

/** Where something lies that has been made. */
const MadeLinks = ({ made, what }: { made: MadeAt; what: string }) => (
  <p class="note" role="status">
    {what}:{" "}
    <a href={made.address} target="_blank" rel="noopener">
      open it
    </a>{" "}
    (to read or to print),{" "}
    <button type="button" class="plain" onClick={() => save(made)}>
      save {made.name}
    </button>
    .
  </p>
);

/** Positions that no exercise can be made of. */
const leftOut = (count: number) =>
  `${count} of the positions ask for nothing (every move keeps the result), and ${count === 1 ? "is" : "are"} left out.`;

export const TrayPlace = ({ going }: { going: Going }) => {
  const { tray, session, outline } = useKept();
  const setOutline = (text: string) => keep(() => ({ outline: text }));
  const draftInto = (text: string) => {
    if (outline !== null && outline !== drafted && !confirm("Replace the outline that you have written?"))
      return;
    setOutline(text);
    setDrafted(text);
  };
  const [title, setTitle] = useState("My lesson");
  /** The outline as it was drafted: what differs from it was written by hand. */
  const [drafted, setDrafted] = useState<string>();
  const [made, setMade] = useState<{ made: MadeAt; what: string }>();
  const [said, say] = useState("");
  const work = useTask();
  useTitle("Tray");
  const items = given(tray);
  const positions = tray.filter(({ fen }) => fen !== undefined);
  const run = (job: (stopped: AbortSignal) => Promise<void>) =>
    work.run(async (stopped) => {
      setMade(undefined);
      say("");
      await job(stopped);
    });
  const sheet = () =>
    run(async (stopped) => {
      const answer = await call("sheet", { title, items }, stopped);
      if (answer.idle.length > 0) say(leftOut(answer.idle.length));
      setMade({ made: answer.made, what: `A sheet of ${answer.exercises} exercises` });
    });
  const pgn = () =>
    run(async () =>
      setMade({ made: (await call("pgn", { title, items })).made, what: "The games and positions" }),
    );
  const draft = () => run(async () => draftInto((await call("outline", { title, items })).outline));
  const lesson = () =>
    run(async (stopped) =>
      setMade({ made: (await call("lesson", { outline: outline! }, stopped)).made, what: "The lesson" }),
    );
  const practise = () =>
    mayReplace(session) &&
    run(async (stopped) => {
      const { exercises, idle } = await call("practise", { items }, stopped);
      if (idle.length > 0) say(leftOut(idle.length));
      if (exercises.length === 0) return;
      keep(() => ({ session: { title, exercises: exercises.map(keptOf) } }));
      go("/practise");
    });
  return (
    <>
      <h1>Tray</h1>
      {tray.length === 0 ? (
        <p class="note">
          Nothing is in it yet. Put positions and games by while you <Link to="/ask">ask</Link> and look; here
          they become a sheet of exercises, a lesson, or a file of games.
        </p>
      ) : (
        <>
          <ol class="answers" aria-label="In the tray">
            {tray.map((item, n) => (
              <Row key={item.key} item={item} n={n} of={tray.length} />
            ))}
          </ol>
          <div class="form">
            <label class="grow">
              Title
              <input
                type="text"
                value={title}
                maxLength={200}
                onInput={(event) => setTitle(event.currentTarget.value)}
              />
            </label>
          </div>
          <div class="buttons">
            <button type="button" disabled={work.busy || positions.length === 0} onClick={sheet}>
              Exercise sheet
            </button>
            <button type="button" disabled={work.busy} onClick={draft}>
              Draft a lesson
            </button>
            <button type="button" disabled={work.busy} onClick={pgn}>
              Games as PGN
            </button>
            <button type="button" disabled={positions.length === 0} onClick={practise}>
              Practise the positions
            </button>
            <button
              type="button"
              onClick={() => confirm("Empty the whole tray?") && keep(() => ({ tray: [] }))}
            >
              Empty the tray
            </button>
          </div>
        </>
      )}
      <h2>Lesson</h2>
      <p>
        A lesson is written in an outline: your own text, and blocks that are filled in with boards, maps,
        games and exercises. Draft one from the tray above, or from a question:
      </p>
      <FromQuestion onOutline={draftInto} />
      {outline !== null && (
        <>
          <label class="grow">
            Outline
            <textarea
              rows={18}
              value={outline}
              spellcheck={false}
              onInput={(event) => setOutline(event.currentTarget.value)}
            />
          </label>
          <div class="buttons">
            <button type="button" class="main" disabled={work.busy} onClick={lesson}>
              Make the lesson
            </button>
          </div>
        </>
      )}
      {work.busy && <Working said={going.said} onStop={work.stop} />}
      <Told fault={work.fault} />
      {said && <p class="note">{said}</p>}
      {made && <MadeLinks {...made} />}
    </>
  );
};

const FromQuestion = ({ onOutline }: { onOutline: (outline: string) => void }) => {
  const [question, setQuestion] = useState("");
  const work = useTask();
  return (
    <form
      class="form"
      onSubmit={(event) => {
        event.preventDefault();
        work.run(async () => onOutline((await call("outline", { title: question, question })).outline));
      }}
    >
      <label class="grow">
        A set-up, or any question
        <input
          type="text"
          value={question}
          placeholder="second-rank defence"
          onInput={(event) => setQuestion(event.currentTarget.value)}
        />
      </label>
      <button disabled={work.busy || question.trim() === ""}>Draft</button>
      <Told fault={work.fault} />
    </form>
  );
};
