// What is worked out of a position only when it is opened: each legal move, the formation moved along the edge, every
// fact, the line to mate.

import { useEffect, useState } from "preact/hooks";

import { Link, addressOf } from "./address.js";
import { SmallBoard } from "./board.js";
import { useAnswer, useTask } from "./call-hooks.js";
import { type AnswerTo, call } from "./calls.js";
import { ErrorMessage, Folded, Sign, Working } from "./parts.js";
import { useServerState } from "./server-state.js";

type Position = AnswerTo<"position">;
type Plan = AnswerTo<"plan">;
type Slide = AnswerTo<"slides">["slides"][number];

const MovesTable = ({ position, onMove }: { position: Position; onMove: (fen: string) => void }) => (
  <div class="wide" tabIndex={0} role="region" aria-label="Every legal move">
    <table>
      <thead>
        <tr>
          <th scope="col">move</th>
          <th scope="col">what it leads to</th>
        </tr>
      </thead>
      <tbody>
        {position.moves.map((move) => (
          <tr key={move.uci}>
            <th scope="row">
              <button type="button" class="plain" onClick={() => onMove(move.fen)}>
                {move.san}
              </button>
            </th>
            <td>
              <Sign verdict={move.verdict}>{move.value}</Sign>
              {move.verdict === position.verdict ? "" : " – changes the result"}
            </td>
          </tr>
        ))}
      </tbody>
    </table>
  </div>
);

const SlideValue = ({ side, value }: { side: string; value: Slide["attackerToMove"] }) => (
  <p>
    {side} to move: {value ? <Sign verdict={value.verdict}>{value.value}</Sign> : "not legal"}
  </p>
);

const Slides = ({ fen }: { fen: string }) => {
  const { answer, error } = useAnswer("slides", { fen });
  if (error) return <ErrorMessage error={error} />;
  return (
    <ol class="slides" aria-label="The formation moved along the edge">
      {answer?.slides.map((slide) => (
        <li key={slide.title} aria-current={slide.files === 0 && slide.ranks === 0 ? "true" : undefined}>
          <Link to={addressOf("/board", { fen: slide.fen })}>
            <SmallBoard fen={slide.fen} />
            <b>{slide.title}</b>
          </Link>
          <SlideValue side="attacker" value={slide.attackerToMove} />
          <SlideValue side="defender" value={slide.defenderToMove} />
          {slide.changes.length > 0 && (
            <p class="small">
              {slide.changes
                .slice(0, 4)
                .map(
                  ({ fact, from, to }) => `${fact.replaceAll("-", " ")}: ${from ?? "none"} → ${to ?? "none"}`,
                )
                .join("; ")}
            </p>
          )}
        </li>
      ))}
    </ol>
  );
};

const factText = (value: number | string | boolean | null) =>
  value === null ? "none" : typeof value === "boolean" ? (value ? "yes" : "no") : String(value);

const Facts = ({ facts }: Pick<Position, "facts">) => {
  const { answer } = useAnswer("words", {});
  const meanings = new Map(
    answer?.words.filter(({ sort }) => sort === "fact").map(({ say, meaning }) => [say, meaning]),
  );
  return (
    <dl class="facts">
      {Object.entries(facts).map(([name, value]) => (
        <div key={name}>
          <dt>{name}</dt>
          <dd>
            <b>{factText(value)}</b> <span class="small">{meanings.get(name)}</span>
          </dd>
        </div>
      ))}
    </dl>
  );
};

/** How the position is won, in stages; what it needs of the whole table takes its time once. */
const PlannedWin = ({ fen }: { fen: string }) => {
  const progress = useServerState((server) => server.progress);
  const [plan, setPlan] = useState<Plan>();
  const task = useTask();
  useEffect(() => {
    setPlan(undefined);
    task.run(async (stopped) => setPlan(await call("plan", { fen }, stopped)));
    return task.stop;
    // the task is the same for as long as the place is open
  }, [fen]);
  return (
    <>
      {task.busy && <Working progress={progress} onStop={task.stop} />}
      <ErrorMessage error={task.error} />
      {plan && (
        <ol class="stages">
          {plan.stages.map((stage, n) => (
            <li key={stage.fen}>
              <p>
                <b>{stage.says}</b>
              </p>
              <p class="moves">{stage.line}</p>
              {n + 1 < plan.stages.length && (
                <Link to={addressOf("/board", { fen: stage.fen })}>
                  <SmallBoard fen={stage.fen} />
                </Link>
              )}
            </li>
          ))}
        </ol>
      )}
      {plan && (
        <p class="small">
          Each stage can be forced in so many moves at most, or the defender loses sooner. □ marks the only
          move that wins. Under the fifty-move rule a win may come too late; the arbiter decides.
        </p>
      )}
    </>
  );
};

export const PositionDetails = ({
  position,
  fen,
  onMove,
}: {
  position: Position;
  fen: string;
  onMove: (fen: string) => void;
}) => (
  <>
    {position.legal > 0 && (
      <Folded title={position.legal === 1 ? "The only legal move" : `Each of the ${position.legal} moves`}>
        {() => <MovesTable position={position} onMove={onMove} />}
      </Folded>
    )}
    <Folded title="Moved along the edge">{() => <Slides fen={fen} />}</Folded>
    <Folded title="Every fact">{() => <Facts facts={position.facts} />}</Folded>
    {position.verdict === "won" && (
      <Folded title="The win in stages">{() => <PlannedWin fen={fen} />}</Folded>
    )}
    {position.line.length > 0 && (
      <Folded title="The fastest win against the longest resistance">
        {() => <p class="moves">{position.line.map(({ san }) => san).join(" ")}</p>}
      </Folded>
    )}
  </>
);
