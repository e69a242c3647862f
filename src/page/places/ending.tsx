// One ending of the database: the board, the timeline, the moves with what each did, and everything about the position
// one stands at.

import { useEffect, useState } from "preact/hooks";

import { arrowBetween } from "../../documents/diagram.js";
import { Link, addressOf, currentAddress, go, useAddress, wholeAddress } from "../address.js";
import { askAhead, useAnswer, useTask } from "../call-hooks.js";
import { type AnswerTo, call } from "../calls.js";
import { colourName, turnOf } from "../fen.js";
import { Collect, Copy, ErrorMessage, copyText, counted, resultText, save, useTitle } from "../parts.js";
import { Names } from "../../documents/names.js";
import { forSide, wordFor } from "../play-judgement.js";
import { PositionView } from "../position-view.js";
import { Score, type Step } from "../score.js";
import { Timeline } from "../timeline.js";
import { placeInList } from "../answer-lists.js";

type Ending = AnswerTo<"ending">;

/** Where the keys lead that step through an ending; the board and fields have their own. */
const KEYS: Readonly<Record<string, (at: number, last: number) => number>> = {
  ArrowLeft: (at) => at - 1,
  ArrowRight: (at) => at + 1,
  Home: () => 0,
  End: (_, last) => last,
};

/** Moves that are named of those that held. */
const MOST_HELD = 6;
/** Positions around the one shown that are asked for ahead. */
const AHEAD = [1, -1, 2, -2, 3, 4];

/** The game in PGN, with what happened to the verdict, to be pasted elsewhere. */
const CopyPgn = ({ id }: { id: number }) => {
  const task = useTask();
  const [said, say] = useState("");
  const copy = async () => {
    const { made } = await call("pgn", { title: "longside", items: [{ ending: id }] });
    if (await copyText(await (await fetch(made.address)).text())) say(" (copied)");
    else save(made);
  };
  return (
    <>
      <button type="button" class="quiet" onClick={() => task.run(copy)}>
        Copy PGN<span role="status">{said}</span>
      </button>
      <ErrorMessage error={task.error} />
    </>
  );
};

/** Which position of an ending is shown, by the address; steps by buttons and keys. */
function useSteps(ending: Ending): { readonly at: number; readonly step: Step } {
  const { query } = useAddress();
  const first = ending.positions[0].ply;
  const last = ending.positions.length - 1;
  const within = (at: number) => Math.max(0, Math.min(last, at));
  const indexOf = (ply: string | undefined) => {
    const number = Number(ply ?? Number.NaN);
    return within((Number.isInteger(number) ? number : ending.look) - first);
  };
  const step: Step = (to) => {
    // by the address as it is now: keys may come faster than the page is drawn
    const next = within(typeof to === "number" ? to : to(indexOf(currentAddress().query.ply)));
    go(addressOf(`/ending/${ending.id}`, { ply: ending.positions[next].ply }), "step");
  };
  useEffect(() => {
    const press = (event: KeyboardEvent) => {
      if ((event.target as HTMLElement).matches("input, select, textarea, [data-square]")) return;
      if (event.altKey || event.ctrlKey || event.metaKey || !KEYS[event.key]) return;
      event.preventDefault();
      step((at) => KEYS[event.key](at, last));
    };
    addEventListener("keydown", press);
    return () => removeEventListener("keydown", press);
  });
  return { at: indexOf(query.ply), step };
}

/** The buttons that step, and the timeline. */
const Steps = ({ ending, at, onStep }: { ending: Ending; at: number; onStep: Step }) => {
  const errors = ending.positions.flatMap(({ error }, n) => (error ? [n] : []));
  const nextError = errors.find((n) => n > at) ?? errors[0];
  const buttons = [
    ["First", "to the first position", () => 0],
    ["Back", "one half-move back", (now: number) => now - 1],
    ["On", "one half-move on", (now: number) => now + 1],
    ["Last", "to the last position", () => ending.positions.length - 1],
  ] as const;
  return (
    <Timeline positions={ending.positions} at={at} onStep={onStep}>
      <div class="buttons steps">
        {buttons.map(([name, meaning, to]) => (
          <button key={name} type="button" onClick={() => onStep(to)} aria-label={`${name}: ${meaning}`}>
            {name}
          </button>
        ))}
        {nextError !== undefined && (
          <button type="button" onClick={() => onStep(nextError)}>
            Next error
          </button>
        )}
      </div>
    </Timeline>
  );
};

/** Who played whom, where, and how it ended. */
const Heading = ({ ending }: { ending: Ending }) => (
  <>
    <h1>
      <Names text={ending.players} />
    </h1>
    <p class="when of-game">
      <Names text={[ending.where, resultText(ending.result)].filter((part) => part).join(" · ")} /> ·{" "}
      {colourName(ending.attacker)} attacks; the defender {ending.outcome} ({ending.endedBy})
      <span class="small from-file">
        {ending.file}, game {ending.game}
        {ending.duplicateOf &&
          `; the same game as ${ending.duplicateOf.file}, game ${ending.duplicateOf.game}`}
      </span>
    </p>
  </>
);

/** The way back to the answers, and to the answers beside this one. */
const AmongAnswers = ({ id, ply }: { id: number; ply: number }) => {
  // the one that was opened: steps in the ending do not leave it
  const [opened] = useState(ply);
  const place = placeInList(id, opened);
  if (!place)
    return (
      <nav class="among" aria-label="Among the answers">
        <Link to="/ask">← Ask</Link>
      </nav>
    );
  const { number, of, before, next, address } = place;
  const to = (row: NonNullable<typeof next>) => addressOf(`/ending/${row.id}`, { ply: row.ply });
  return (
    <nav class="among" aria-label="Among the answers">
      <Link to={address}>← {counted(of, "answer")}</Link>
      <span>
        {before ? (
          <Link to={to(before)} aria-label="The answer before">
            ‹
          </Link>
        ) : (
          <span class="gone">‹</span>
        )}{" "}
        {number} of {of.toLocaleString("en")}{" "}
        {next ? (
          <Link to={to(next)} aria-label="The next answer">
            ›
          </Link>
        ) : (
          <span class="gone">›</span>
        )}
      </span>
    </nav>
  );
};

/** What happened with the move that was played, from the side of the one who moved; known with the ending, at once. */
const Judgement = ({ ending, at }: { ending: Ending; at: number }) => {
  const now = ending.positions[at];
  const next = ending.positions[at + 1] as typeof now | undefined;
  const mover = turnOf(now.fen);
  const isAttacker = mover === ending.attacker;
  const side = isAttacker ? "attacker" : "defender";
  const mark = now.error === "full" ? "??" : now.error === "half" ? "?" : "";
  const after = now.move === null ? now : (next ?? now);
  const word = after.verdict === null ? undefined : wordFor(after.verdict, isAttacker);
  const mate = after.dtm ? `, mate in ${after.dtm}` : "";
  return (
    <div class="judgement">
      <p class="played">
        {now.number} {now.move ?? "the last position"}
        {mark}{" "}
        {word && (
          <span class={`word ${after.verdict ?? ""}`}>
            {word}
            {mate}
          </span>
        )}
      </p>
      <p>
        {colourName(mover)}, the {side},{" "}
        {now.error && now.verdict ? `had ${forSide(now.verdict, isAttacker)}.` : "moves."}{" "}
        {now.held.length > 0 && (
          <>
            <b>Held:</b> {now.held.slice(0, MOST_HELD).join(", ")}
            {now.held.length > MOST_HELD && ` and ${now.held.length - MOST_HELD} more`}.{" "}
          </>
        )}
        {now.clock !== null && <span class="small">{Math.round(now.clock)} s left.</span>}
      </p>
    </div>
  );
};

const ShownEnding = ({ ending }: { ending: Ending }) => {
  const { at, step } = useSteps(ending);
  const now = ending.positions[at];
  const next = ending.positions[at + 1] as typeof now | undefined;
  // the move of the game goes on in it, another leaves it
  const onMove = (fen: string) => {
    const pieces = (text: string) => text.split(" ")[0];
    if (next && pieces(next.fen) === pieces(fen)) step(at + 1);
    else go(addressOf("/board", { fen }));
  };
  useEffect(() => {
    for (const way of AHEAD) {
      const near = ending.positions[at + way] as typeof now | undefined;
      if (near) askAhead("position", { fen: near.fen });
    }
  }, [ending, at]);
  return (
    <>
      <AmongAnswers id={ending.id} ply={now.ply} />
      <Heading ending={ending} />
      <PositionView
        fen={now.fen}
        title={`${now.number} ${now.move ?? "the last position"}`}
        arrows={arrowBetween(now.fen, next?.fen)}
        inCheck={at > 0 ? /[+#]$/.test(ending.positions[at - 1].move ?? "") : undefined}
        ending={ending.id}
        ply={now.ply}
        onSweep={(way) => step((now) => now + way)}
        onMove={onMove}
        below={<Steps ending={ending} at={at} onStep={step} />}
        score={<Score ending={ending} at={at} onStep={step} />}
      >
        <Judgement ending={ending} at={at} />
      </PositionView>
      <div class="actions">
        <Collect item={{ title: ending.players, ending: ending.id, ply: now.ply, shown: now.fen }}>
          The whole ending into the tray
        </Collect>
        <CopyPgn id={ending.id} />
        <Copy text={wholeAddress()}>Copy the address</Copy>
      </div>
    </>
  );
};

export const EndingPlace = ({ id }: { id: number }) => {
  const { answer, error } = useAnswer("ending", { id });
  useTitle(answer?.players ?? "An ending");
  if (answer) return <ShownEnding ending={answer} />;
  return (
    <>
      <h1 class={error ? "" : "hidden"}>An ending</h1>
      {error ? <ErrorMessage error={error} /> : <p role="status">Reading …</p>}
    </>
  );
};
