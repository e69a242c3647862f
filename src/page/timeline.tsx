// An ending over time: where it was won, drawn, lost for the attacker, how far the mate was, which set-ups came and went.
// One slider goes through it, for pointer, touch and keys alike.

import type { AnswerTo } from "./calls.js";
import type { Verdict } from "./parts.js";

type Positions = AnswerTo<"ending">["positions"];

const LANES: readonly Verdict[] = ["won", "drawn", "lost"];
const LANE = 14;
const CURVE = 60;

/** Stretches over which something is true: begin, and the first place behind. */
function stretches(positions: Positions, test: (at: Positions[number]) => boolean): [number, number][] {
  const found: [number, number][] = [];
  positions.forEach((at, n) => {
    if (!test(at)) return;
    const last = found.at(-1);
    if (last && last[1] === n) last[1] = n + 1;
    else found.push([n, n + 1]);
  });
  return found;
}

/** The moves to mate as lines, one for each stretch that is not drawn; the greatest at the top. */
function curves(positions: Positions): string {
  const most = Math.max(1, ...positions.map(({ dtm }) => dtm ?? 0));
  return stretches(positions, ({ dtm }) => dtm !== null)
    .map(([from, to]) =>
      positions
        .slice(from, to)
        .map(({ dtm }, n) => {
          const y = CURVE - (CURVE - 4) * (dtm! / most);
          return `${n === 0 ? "M" : "L"}${from + n} ${y}H${from + n + 1}`;
        })
        .join(""),
    )
    .join("");
}

const Row = ({
  label,
  height,
  of,
  children,
}: {
  label: string;
  height: number;
  of: number;
  children: preact.ComponentChildren;
}) => (
  <>
    <span class="row-name">{label}</span>
    <svg
      viewBox={`0 0 ${of} ${height}`}
      style={{ height: `${height}px` }}
      preserveAspectRatio="none"
      aria-hidden="true"
    >
      {children}
    </svg>
  </>
);

export const Strip = ({
  positions,
  at,
  onStep,
}: {
  positions: Positions;
  at: number;
  onStep: (to: number) => void;
}) => {
  const of = positions.length;
  const names = [...new Set(positions.flatMap(({ setUps }) => setUps))];
  const longest = Math.max(0, ...positions.map(({ dtm }) => dtm ?? 0));
  const errors = positions.flatMap(({ error }, n) => (error ? [n] : []));
  const rows = LANES.filter((row) => row !== "lost" || positions.some(({ verdict }) => verdict === "lost"));
  const now = positions[at];
  const said = `${now.number} ${now.move ?? "end"}: ${now.value}${now.said ? `; ${now.said}` : ""}${now.setUps.length > 0 ? `; ${now.setUps.join(", ")}` : ""}`;
  return (
    <div class="strip">
      <Row label="errors" height={LANE} of={of}>
        {errors.map((n) => (
          <path key={n} class="error" d={`M${n} 0h1l-.5 ${LANE}z`} />
        ))}
        <path class="now" d={`M${at} 0h1v${LANE}h-1z`} />
      </Row>
      {rows.map((row) => (
        <Row key={row} label={row} height={LANE} of={of}>
          {stretches(positions, ({ verdict }) => verdict === row).map(([from, to]) => (
            <path key={from} class={row} d={`M${from} 2H${to}V${LANE - 2}H${from}z`} />
          ))}
          <path class="now" d={`M${at} 0h1v${LANE}h-1z`} />
        </Row>
      ))}
      {longest > 0 && (
        <Row label={`to mate (${longest} at most)`} height={CURVE} of={of}>
          <path class="curve" d={curves(positions)} />
          <path class="now" d={`M${at} 0h1v${CURVE}h-1z`} />
        </Row>
      )}
      {names.map((name) => (
        <Row key={name} label={name} height={LANE} of={of}>
          {stretches(positions, ({ setUps }) => setUps.includes(name)).map(([from, to]) => (
            <path key={from} class="set-up" d={`M${from} 4H${to}V${LANE - 4}H${from}z`} />
          ))}
          <path class="now" d={`M${at} 0h1v${LANE}h-1z`} />
        </Row>
      ))}
      <span />
      <input
        type="range"
        min={0}
        max={of - 1}
        value={at}
        aria-label="Position in the ending"
        aria-valuetext={said}
        onInput={(event) => onStep(Number(event.currentTarget.value))}
      />
    </div>
  );
};
