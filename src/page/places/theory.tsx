// What the whole table teaches: rules (rules.tsx), how something comes out, what set-ups turn into, in what order they are
// best learnt. Each is worked out when it is asked for, and says how far it has come.

import type { ComponentChildren } from "preact";
import { useState } from "preact/hooks";

import { type MapArrow, changeMapSvg, inHundred, mapArrows } from "../../documents/change-map.js";
import { percentText } from "../../statistics/percent.js";
import { Link, addressOf } from "../address.js";
import { SmallBoard } from "../board.js";
import { useAnswer, useTask } from "../call-hooks.js";
import { type AnswerTo, call } from "../calls.js";
import { LinkedDrawing } from "../linked-drawing.js";
import { ErrorMessage, Working, useTitle } from "../parts.js";
import { FaultMessage, QuestionLine } from "../question-line.js";
import { useServerState } from "../server-state.js";
import { Rules } from "./rules.js";

type Surveyed = AnswerTo<"survey">;

/** How every position of one kind comes out, by a fact if one is chosen. */
const Survey = () => {
  const { answer: vocabulary } = useAnswer("words", {});
  const progress = useServerState((server) => server.progress);
  const [by, setBy] = useState("");
  const [asked, setAsked] = useState("Szén");
  const [found, setFound] = useState<Surveyed>();
  const task = useTask();
  const ask = (question: string, by: string) => {
    setAsked(question);
    task.run(async (stopped) => {
      setFound(undefined);
      setFound(await call("survey", { question, by: by || undefined }, stopped));
    });
  };
  const isSplit = found?.rows.some(({ value }) => value !== null) ?? false;
  return (
    <section aria-labelledby="survey">
      <h2 id="survey">How does it come out?</h2>
      <QuestionLine
        value={asked}
        label="How does this come out: a set-up, or any facts"
        submit="Count"
        quiet
        onAsk={(question) => ask(question, by)}
      />
      <p>
        <label>
          by{" "}
          <select
            value={by}
            onChange={({ currentTarget }) => {
              setBy(currentTarget.value);
              if (found) ask(asked, currentTarget.value);
            }}
          >
            <option value="">nothing</option>
            {vocabulary?.geometry.map(({ name, meaning }) => (
              <option key={name} value={name} title={meaning}>
                {name}
              </option>
            ))}
          </select>
        </label>
      </p>
      {task.busy && <Working progress={progress} onStop={task.stop} />}
      <FaultMessage error={task.error} onTake={(question) => ask(question, by)} />
      {found && found.rows.length === 0 && <p>No position fits that.</p>}
      {found && found.rows.length > 0 && (
        <div class="wide" tabIndex={0} role="region" aria-label="How it comes out">
          <table class="stacked">
            <thead>
              <tr>
                {isSplit && <th scope="col">{by}</th>}
                <th scope="col">to move</th>
                {["positions", "won", "drawn", "longest win"].map((head) => (
                  <th key={head} scope="col" class="number">
                    {head}
                  </th>
                ))}
              </tr>
            </thead>
            <tbody>
              {found.rows.map((row) => {
                const all = row.won + row.drawn + row.lost;
                return (
                  <tr key={`${row.value} ${row.side}`}>
                    {isSplit && <th scope="row">{row.value ?? "none"}</th>}
                    <td data-of="to move">{row.side}</td>
                    <td class="number" data-of="placements">
                      {all.toLocaleString("en")}
                    </td>
                    <td class="number" data-of="won">
                      {percentText(row.won / all)}
                    </td>
                    <td class="number" data-of="drawn">
                      {percentText(row.drawn / all)}
                    </td>
                    <td class="number" data-of="longest win">
                      {row.won > 0 ? row.longestWin : ""}
                    </td>
                  </tr>
                );
              })}
            </tbody>
          </table>
        </div>
      )}
      {found && (
        <ul class="boards">
          {found.examples.map(({ verdict, side, fens }) => (
            <li key={`${verdict} ${side}`}>
              <Link to={addressOf("/board", { fen: fens[0] })}>
                <SmallBoard fen={fens[0]} />
              </Link>
              <span class="small">
                {verdict}, {side} to move
              </span>
            </li>
          ))}
        </ul>
      )}
    </section>
  );
};

/** Something that takes its time: asked for by a button. */
function WorkedOut<T>({
  name,
  title,
  says,
  find,
  show,
}: {
  name: string;
  title: string;
  says: string;
  find: (stopped: AbortSignal) => Promise<T>;
  show: (found: T) => ComponentChildren;
}) {
  const progress = useServerState((server) => server.progress);
  const [found, setFound] = useState<T>();
  const task = useTask();
  return (
    <section aria-labelledby={name}>
      <h2 id={name}>{title}</h2>
      <p>{says}</p>
      {found === undefined && !task.busy && (
        <button
          type="button"
          class="quiet"
          onClick={() =>
            task.run(async (stopped) => {
              const answer = await find(stopped);
              setFound(() => answer);
            })
          }
        >
          Work it out
        </button>
      )}
      {task.busy && <Working progress={progress} onStop={task.stop} />}
      <ErrorMessage error={task.error} />
      {found !== undefined && show(found)}
    </section>
  );
}

/** The map of changes, each arrow with a link to the endings that show it. */
async function findChanges(stopped: AbortSignal) {
  const { shown, ...found } = await call("changes", {}, stopped);
  const links = shown?.map(({ from, to, endings, question }) => ({
    from,
    to,
    endings,
    link: addressOf("/ask", { q: question }),
  }));
  const map = { ...found, links };
  return { svg: changeMapSvg(map), arrows: mapArrows(map) };
}

/** A part of a whole as a bar. */
const Bar = ({ part }: { part: number }) => (
  <svg viewBox="0 0 100 8" preserveAspectRatio="none" aria-hidden="true">
    <rect width={100 * part} height="8" />
  </svg>
);

const ArrowRow = ({ arrow: { to, share, cost, linked }, most }: { arrow: MapArrow; most: number }) => (
  <li class="bar-row">
    {linked && linked.endings > 0 ? <Link to={linked.link}>{to}</Link> : <span>{to}</span>}
    <Bar part={share / most} />
    <span class="number">
      {inHundred(share)}
      {cost !== undefined && cost > 0 && <b> costs {cost}</b>}
    </span>
  </li>
);

/** What turns into what: as a map where there is room for its words, and for each set-up in a list. */
const ChangesShown = ({ svg, arrows }: { svg: string; arrows: readonly MapArrow[] }) => {
  const most = Math.max(...arrows.map(({ share }) => share));
  return (
    <>
      <div class="change-picture">
        <LinkedDrawing svg={svg} />
      </div>
      <ul class="changes">
        {[...new Set(arrows.map(({ from }) => from))].map((from) => (
          <li key={from}>
            <h3>From {from} into</h3>
            <ul class="bars">
              {arrows
                .filter((arrow) => arrow.from === from)
                .map((arrow) => (
                  <ArrowRow key={arrow.to} arrow={arrow} most={most} />
                ))}
            </ul>
          </li>
        ))}
      </ul>
    </>
  );
};

/** In what order set-ups are best learnt: what can be kept after each, as bars. */
const LearningShown = ({ start, order, wanted }: AnswerTo<"learning">) => (
  <ol class="bars">
    {[{ setUp: "What everybody holds", kept: start }, ...order].map(({ setUp, kept }, n) => (
      <li key={setUp} class="bar-row">
        <span>
          {n > 0 && `${n}. `}
          {setUp}
        </span>
        <Bar part={kept / wanted} />
        <span class="number">{((100 * kept) / wanted).toFixed(1)} of 100</span>
      </li>
    ))}
  </ol>
);

export const TheoryPlace = () => {
  useTitle("Theory");
  return (
    <>
      <h1 class="hidden">Theory</h1>
      <Rules />
      <Survey />
      <WorkedOut
        name="changes"
        find={findChanges}
        show={(found) => <ChangesShown {...found} />}
        title="What turns into what"
        says="What a quiet move of the attacker can force a set-up into, in how many of 100 moves, and what it costs: in how many of 100 such changes in games the draw was lost. Each opens the endings in which the one, not won and with the attacker to move, has become the other a move later; whether a better reply would have kept it is not asked."
      />
      <WorkedOut
        name="learning"
        find={(stopped) => call("learning", {}, stopped)}
        show={(found) => <LearningShown {...found} />}
        title="In what order to learn set-ups"
        says="How much of what is drawn can be kept against quiet moves with some set-ups alone, and which adds most. A check may be answered by any move that does not lose."
      />
    </>
  );
};
