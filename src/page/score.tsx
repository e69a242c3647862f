// The moves of an ending as a score: a column that scrolls by itself, each move with what it did for the side that made it.

import { useLayoutEffect, useMemo, useRef } from "preact/hooks";

import type { AnswerTo } from "./calls.js";
import { turnOf } from "./fen.js";
import { signFor, wordFor } from "./play-judgement.js";

type Ending = AnswerTo<"ending">;

/** A step to one of the positions, or from the one that is shown. */
export type Step = (to: number | ((at: number) => number)) => void;

const Move = ({ ending, n, at, onStep }: { ending: Ending; n: number; at: number; onStep: Step }) => {
  const one = ending.positions[n];
  const after = ending.positions[n + 1] as typeof one | undefined;
  const isAttacker = turnOf(one.fen) === ending.attacker;
  const verdict = after?.verdict ?? null;
  return (
    <span class="move">
      <button
        type="button"
        class="plain"
        aria-current={n === at ? "true" : undefined}
        title={one.said ?? undefined}
        onClick={() => onStep(n)}
      >
        {one.move ?? "end"}
        {one.error === "full" ? "??" : one.error === "half" ? "?" : ""}
      </button>
      {verdict && (
        <span class={`after ${verdict}`} title={wordFor(verdict, isAttacker)}>
          {signFor(verdict, isAttacker)}
          {after?.dtm ? ` ${after.dtm}` : ""}
        </span>
      )}
    </span>
  );
};

const ScoreRow = ({
  ending,
  row,
  at,
  onStep,
}: {
  ending: Ending;
  row: number[];
  at: number;
  onStep: Step;
}) => (
  <li>
    <span class="number">{ending.positions[row[0]].number.replace(/\.+$/, "")}</span>
    {turnOf(ending.positions[row[0]].fen) === "black" && <span class="move">…</span>}
    {row.map((n) => (
      <Move key={n} ending={ending} n={n} at={at} onStep={onStep} />
    ))}
  </li>
);

export const Score = ({ ending, at, onStep }: { ending: Ending; at: number; onStep: Step }) => {
  const list = useRef<HTMLOListElement>(null);
  // the move shown stays in sight within the column; the page itself does not move
  useLayoutEffect(() => {
    const box = list.current!;
    const row = box.querySelector<HTMLElement>("[aria-current]")?.closest("li");
    if (!row) return;
    const [above, below] = [row.offsetTop, row.offsetTop + row.offsetHeight];
    if (above < box.scrollTop) box.scrollTop = above;
    else if (below > box.scrollTop + box.clientHeight) box.scrollTop = below - box.clientHeight;
  }, [at]);
  const rows = useMemo(() => {
    const found: number[][] = [];
    ending.positions.forEach(({ fen }, n) => {
      if (n === 0 || turnOf(fen) === "white") found.push([n]);
      else found.at(-1)!.push(n);
    });
    return found;
  }, [ending]);
  const stepNow = useRef(onStep);
  stepNow.current = onStep;
  const rowOf = (row: number[], now: number) => (
    <ScoreRow key={row[0]} ending={ending} row={row} at={now} onStep={(to) => stepNow.current(to)} />
  );
  // a long score is made once: with a step only two of its rows change
  const all = useMemo(() => rows.map((row) => rowOf(row, -1)), [rows]);
  return (
    <>
      <ol class="score" aria-label="Moves" ref={list} tabIndex={0}>
        {rows.map((row, n) => (row.includes(at) ? rowOf(row, at) : all[n]))}
      </ol>
      <p class="small legend">+ wins, = draws, − loses for the one who moved; the figure is moves to mate</p>
    </>
  );
};
