// The moves of an ending as a score: a column that scrolls by itself, each move with what it did for the side that made it.

import { useLayoutEffect, useMemo, useRef } from "preact/hooks";

import type { AnswerTo } from "./calls.js";
import { turnOf } from "./fen.js";
import { signFor, wordFor } from "./play-judgement.js";

type Ending = AnswerTo<"ending">;

/** A step to one of the positions, or from the one that is shown. */
export type Step = (to: number | ((at: number) => number)) => void;

const Move = ({ ending, n, onStep }: { ending: Ending; n: number; onStep: Step }) => {
  const one = ending.positions[n];
  const after = ending.positions[n + 1] as typeof one | undefined;
  const isAttacker = turnOf(one.fen) === ending.attacker;
  const verdict = after?.verdict ?? null;
  return (
    <span class="move">
      <button type="button" class="plain" data-at={n} title={one.said ?? undefined} onClick={() => onStep(n)}>
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

const ScoreRow = ({ ending, row, onStep }: { ending: Ending; row: number[]; onStep: Step }) => (
  <li>
    <span class="number">{ending.positions[row[0]].number.replace(/\.+$/, "")}</span>
    {turnOf(ending.positions[row[0]].fen) === "black" && <span class="move">…</span>}
    {row.map((n) => (
      <Move key={n} ending={ending} n={n} onStep={onStep} />
    ))}
  </li>
);

/** The rows of a score: the positions of each, by number. */
function rowsOf({ positions }: Ending): number[][] {
  const rows: number[][] = [];
  positions.forEach(({ fen }, n) => {
    if (n === 0 || turnOf(fen) === "white") rows.push([n]);
    else rows.at(-1)!.push(n);
  });
  return rows;
}

export const Score = ({ ending, at, onStep }: { ending: Ending; at: number; onStep: Step }) => {
  const list = useRef<HTMLOListElement>(null);
  const stepNow = useRef(onStep);
  stepNow.current = onStep;
  // a long score is made once: with a step nothing of it changes but which move is marked
  const score = useMemo(
    () => (
      <ol class="score" aria-label="Moves" ref={list} tabIndex={0}>
        {rowsOf(ending).map((row) => (
          <ScoreRow key={row[0]} ending={ending} row={row} onStep={(to) => stepNow.current(to)} />
        ))}
      </ol>
    ),
    [ending],
  );
  useLayoutEffect(() => {
    const box = list.current!;
    box.querySelector("[aria-current]")?.removeAttribute("aria-current");
    const move = box.querySelector(`[data-at="${at}"]`)!;
    move.setAttribute("aria-current", "true");
    // it stays in sight within the column; the page itself does not move
    const row = move.closest("li")!;
    const [above, below] = [row.offsetTop, row.offsetTop + row.offsetHeight];
    if (above < box.scrollTop) box.scrollTop = above;
    else if (below > box.scrollTop + box.clientHeight) {
      // a whole row comes first
      const { offsetTop: first } = box.firstElementChild as HTMLElement;
      const rows = Math.ceil((below - box.clientHeight - first) / row.offsetHeight);
      box.scrollTop = first + rows * row.offsetHeight;
    }
  }, [ending, at]);
  return (
    <>
      {score}
      <p class="small legend">+ wins, = draws, − loses for the one who moved; the figure is moves to mate</p>
    </>
  );
};
