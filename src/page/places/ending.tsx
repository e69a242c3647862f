// One ending of the database: the board, the strip over time, the moves with what each did, and everything about the
// position one stands at.

import { useEffect, useState } from "preact/hooks";

import { arrowBetween } from "../../documents/diagram.js";
import { addressOf, go, useAddress } from "../address.js";
import { type AnswerTo, type Going, call, useAnswer, useTask } from "../calls.js";
import { PositionView } from "../position-view.js";
import { Copy, Gather, Sign, Told, copyText, save, useTitle } from "../parts.js";
import { Strip } from "../timeline.js";

type Ending = AnswerTo<"ending">;

/** Where the keys lead that step through an ending; the board and fields have their own. */
const KEYS: Readonly<Record<string, (at: number, last: number) => number>> = {
  ArrowLeft: (at) => at - 1,
  ArrowRight: (at) => at + 1,
  Home: () => 0,
  End: (_, last) => last,
};

const Moves = ({ ending, at, onStep }: { ending: Ending; at: number; onStep: (to: number) => void }) => (
  <ol class="score" aria-label="Moves">
    {ending.positions.map((one, n) => {
      const before = ending.positions[n - 1]?.verdict;
      const white = one.fen.split(" ")[1] === "w";
      return (
        <li key={one.ply}>
          {one.verdict !== null && one.verdict !== before && <Sign verdict={one.verdict} />}{" "}
          <button
            type="button"
            class="plain"
            aria-current={n === at ? "true" : undefined}
            title={one.said ?? undefined}
            onClick={() => onStep(n)}
          >
            {(white || n === 0) && `${one.number} `}
            {one.move ?? "end"}
            {one.error === "full" ? "??" : one.error === "half" ? "?" : ""}
          </button>
        </li>
      );
    })}
  </ol>
);

/** The game in PGN, with what happened to the verdict, to be pasted elsewhere. */
const CopyPgn = ({ id }: { id: number }) => {
  const task = useTask();
  const [said, say] = useState("");
  return (
    <>
      <button
        type="button"
        onClick={() =>
          task.run(async () => {
            const { made } = await call("pgn", { title: "longside", items: [{ ending: id }] });
            if (await copyText(await (await fetch(made.address)).text())) say(" (copied)");
            else save(made);
          })
        }
      >
        Copy PGN<span role="status">{said}</span>
      </button>
      <Told fault={task.fault} />
    </>
  );
};

export const EndingPlace = ({ id, going }: { id: number; going: Going }) => {
  const { query } = useAddress();
  const { answer: ending, fault } = useAnswer("ending", { id }, going.turns);
  useTitle(ending ? ending.players : "An ending");
  const last = (ending?.positions.length ?? 1) - 1;
  const asked = Number(query.ply ?? Number.NaN);
  const ply = Number.isInteger(asked) ? asked : (ending?.look ?? 0);
  const at = ending ? Math.max(0, Math.min(last, ply - ending.positions[0].ply)) : 0;
  const step = (to: number | ((at: number) => number)) => {
    if (!ending) return;
    // by the address as it is now: keys may come faster than the page is drawn
    const now = Number(new URLSearchParams(location.search).get("ply") ?? ply) - ending.positions[0].ply;
    const next = Math.max(0, Math.min(last, typeof to === "number" ? to : to(now)));
    go(addressOf(`/ending/${id}`, { ply: ending.positions[next].ply }), "replace");
  };
  useEffect(() => {
    const press = (event: KeyboardEvent) => {
      const target = event.target as HTMLElement;
      if (target.matches("input, select, textarea, [data-square]")) return;
      if (event.altKey || event.ctrlKey || event.metaKey || !KEYS[event.key]) return;
      event.preventDefault();
      step((now) => KEYS[event.key](now, last));
    };
    addEventListener("keydown", press);
    return () => removeEventListener("keydown", press);
  });
  if (!ending)
    return (
      <>
        <h1>An ending</h1>
        {fault ? <Told fault={fault} /> : <p role="status">Reading …</p>}
      </>
    );
  const now = ending.positions[at];
  const errors = ending.positions.flatMap(({ error }, n) => (error ? [n] : []));
  const nextError = errors.find((n) => n > at) ?? errors[0];
  return (
    <>
      <h1>{ending.players}</h1>
      <p>
        {ending.where && <>{ending.where}. </>}
        {ending.result.replaceAll("1/2", "½")}; {ending.attacker === "white" ? "White" : "Black"} attacks, the
        defender {ending.outcome} ({ending.endedBy}).{" "}
        <span class="small">
          {ending.file}, game {ending.game}
          {ending.duplicateOf &&
            `; the same game as ${ending.duplicateOf.file}, game ${ending.duplicateOf.game}`}
        </span>
      </p>
      <PositionView
        fen={now.fen}
        title={`${now.number} ${now.move ?? "the last position"}`}
        arrows={arrowBetween(now.fen, ending.positions[at + 1]?.fen)}
        ending={id}
        ply={now.ply}
        turns={going.turns}
        onSweep={(way) => step((now) => now + way)}
        onMove={(_, fen) => {
          // the move of the game goes on in it, another leaves it
          const board = (text: string) => text.split(" ")[0];
          if (ending.positions[at + 1] && board(ending.positions[at + 1].fen) === board(fen)) step(at + 1);
          else go(addressOf("/board", { fen }));
        }}
        below={
          <>
            <div class="buttons steps">
              <button type="button" onClick={() => step(0)} aria-label="First: to the first position">
                First
              </button>
              <button
                type="button"
                onClick={() => step((now) => now - 1)}
                aria-label="Back: one half-move back"
              >
                Back
              </button>
              <button type="button" onClick={() => step((now) => now + 1)} aria-label="On: one half-move on">
                On
              </button>
              <button type="button" onClick={() => step(last)} aria-label="Last: to the last position">
                Last
              </button>
              {nextError !== undefined && (
                <button type="button" onClick={() => step(nextError)}>
                  Next error
                </button>
              )}
            </div>
            <Strip positions={ending.positions} at={at} onStep={step} />
          </>
        }
      >
        <p>
          <b>
            {now.number} {now.move ?? "the last position"}
          </b>
          {now.error && <> was played: {now.said!.replace("; now ", "; after it ")}.</>}
          {now.clock !== null && <span class="small"> {Math.round(now.clock)} s left.</span>}
        </p>
      </PositionView>
      <h2>The moves</h2>
      <Moves ending={ending} at={at} onStep={step} />
      <div class="buttons">
        <Gather item={{ title: ending.players, ending: id, ply: now.ply, shown: now.fen }}>
          The whole ending into the tray
        </Gather>
        <CopyPgn id={id} />
        <Copy text={location.href}>Copy the address</Copy>
      </div>
    </>
  );
};
