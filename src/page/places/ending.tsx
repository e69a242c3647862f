// One ending of the database: the board, the timeline, the moves with what each did, and everything about the position
// one stands at.

import { useEffect, useState } from "preact/hooks";

import { arrowBetween } from "../../documents/diagram.js";
import { addressOf, currentAddress, go, useAddress } from "../address.js";
import { useAnswer, useTask } from "../call-hooks.js";
import { type AnswerTo, call } from "../calls.js";
import { colourName, turnOf } from "../fen.js";
import { Collect, Copy, ErrorMessage, Sign, copyText, resultText, save, useTitle } from "../parts.js";
import { PositionView } from "../position-view.js";
import { Timeline } from "../timeline.js";

type Ending = AnswerTo<"ending">;

/** Where the keys lead that step through an ending; the board and fields have their own. */
const KEYS: Readonly<Record<string, (at: number, last: number) => number>> = {
  ArrowLeft: (at) => at - 1,
  ArrowRight: (at) => at + 1,
  Home: () => 0,
  End: (_, last) => last,
};

/** A step to one of the positions, or from the one that is shown. */
type Step = (to: number | ((at: number) => number)) => void;

const Moves = ({ ending, at, onStep }: { ending: Ending; at: number; onStep: Step }) => (
  <ol class="score" aria-label="Moves">
    {ending.positions.map((one, n) => (
      <li key={one.ply}>
        {one.verdict !== null && one.verdict !== ending.positions[n - 1]?.verdict && (
          <Sign verdict={one.verdict} />
        )}{" "}
        <button
          type="button"
          class="plain"
          aria-current={n === at ? "true" : undefined}
          title={one.said ?? undefined}
          onClick={() => onStep(n)}
        >
          {(turnOf(one.fen) === "white" || n === 0) && `${one.number} `}
          {one.move ?? "end"}
          {one.error === "full" ? "??" : one.error === "half" ? "?" : ""}
        </button>
      </li>
    ))}
  </ol>
);

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
      <button type="button" onClick={() => task.run(copy)}>
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
    go(addressOf(`/ending/${ending.id}`, { ply: ending.positions[next].ply }), "replace");
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
    <>
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
      <Timeline positions={ending.positions} at={at} onStep={onStep} />
    </>
  );
};

/** Who played whom, where, and how it ended. */
const Heading = ({ ending }: { ending: Ending }) => (
  <>
    <h1>{ending.players}</h1>
    <p>
      {ending.where && <>{ending.where}. </>}
      {resultText(ending.result)}; {colourName(ending.attacker)} attacks, the defender {ending.outcome} (
      {ending.endedBy}).{" "}
      <span class="small">
        {ending.file}, game {ending.game}
        {ending.duplicateOf &&
          `; the same game as ${ending.duplicateOf.file}, game ${ending.duplicateOf.game}`}
      </span>
    </p>
  </>
);

const ShownEnding = ({ ending }: { ending: Ending }) => {
  const { at, step } = useSteps(ending);
  const now = ending.positions[at];
  const next = ending.positions[at + 1] as typeof now | undefined;
  const move = now.move ?? "the last position";
  // the move of the game goes on in it, another leaves it
  const onMove = (fen: string) => {
    const pieces = (text: string) => text.split(" ")[0];
    if (next && pieces(next.fen) === pieces(fen)) step(at + 1);
    else go(addressOf("/board", { fen }));
  };
  return (
    <>
      <Heading ending={ending} />
      <PositionView
        fen={now.fen}
        title={`${now.number} ${move}`}
        arrows={arrowBetween(now.fen, next?.fen)}
        ending={ending.id}
        ply={now.ply}
        onSweep={(way) => step((now) => now + way)}
        onMove={onMove}
        below={<Steps ending={ending} at={at} onStep={step} />}
      >
        <p>
          <b>
            {now.number} {move}
          </b>
          {now.error && (
            <>
              {" "}
              was played: the {turnOf(now.fen) === ending.attacker ? "attacker" : "defender"} gives away{" "}
              {now.error === "half" ? "half a point" : "a full point"}
              {next && `; after it ${next.value}`}.
            </>
          )}
          {now.clock !== null && <span class="small"> {Math.round(now.clock)} s left.</span>}
        </p>
      </PositionView>
      <h2>The moves</h2>
      <Moves ending={ending} at={at} onStep={step} />
      <div class="buttons">
        <Collect item={{ title: ending.players, ending: ending.id, ply: now.ply, shown: now.fen }}>
          The whole ending into the tray
        </Collect>
        <CopyPgn id={ending.id} />
        <Copy text={location.href}>Copy the address</Copy>
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
      <h1>An ending</h1>
      {error ? <ErrorMessage error={error} /> : <p role="status">Reading …</p>}
    </>
  );
};
