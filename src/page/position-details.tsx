// What is worked out of a position only when it is opened: each legal move, the formation moved along the edge, every
// fact, the line to mate.

import { Link, addressOf } from "./address.js";
import { SmallBoard } from "./board.js";
import { useAnswer } from "./call-hooks.js";
import type { AnswerTo } from "./calls.js";
import { ErrorMessage, Folded, Sign } from "./parts.js";

type Position = AnswerTo<"position">;
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
                .map(({ fact, from, to }) => `${fact}: ${from ?? "none"} → ${to ?? "none"}`)
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
    {position.line.length > 0 && (
      <Folded title="The fastest win against the longest resistance">
        {() => <p class="moves">{position.line.map(({ san }) => san).join(" ")}</p>}
      </Folded>
    )}
  </>
);
