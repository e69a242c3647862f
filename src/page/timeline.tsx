// The timeline of an ending: where it was won, drawn, lost for the attacker, how far the mate was, which set-ups came
// and went. One slider goes through it, for pointer, touch and keys alike.

import type { ComponentChildren } from "preact";
import { useMemo, useRef } from "preact/hooks";

import type { AnswerTo, Verdict } from "./calls.js";

type Positions = AnswerTo<"ending">["positions"];

const VERDICTS: readonly Verdict[] = ["won", "drawn", "lost"];
/** Heights of a row, and of that of the curve, in pixels. */
const ROW = 12;
const CURVE = 30;

/** Stretches over which something is true: the first position, and the one after the last. */
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

/** A row as wide as the ending is long. */
const Row = ({
  label,
  height = ROW,
  of,
  onStep,
  children,
}: {
  onStep: (to: number) => void;
  label: string;
  height?: number;
  of: number;
  children: ComponentChildren;
}) => (
  <>
    <span class="row-name">{label}</span>
    <svg
      viewBox={`0 0 ${of} ${height}`}
      style={{ height: `${height}px` }}
      preserveAspectRatio="none"
      aria-hidden="true"
      onClick={(event) => {
        const { left, width } = event.currentTarget.getBoundingClientRect();
        onStep(Math.min(of - 1, Math.floor((of * (event.clientX - left)) / width)));
      }}
    >
      {children}
    </svg>
  </>
);

/** The position one stands at, over all rows: moved along them, so that no row is drawn again with a step. */
const Now = ({ of, at }: { of: number; at: number }) => (
  <span class="now" aria-hidden="true">
    <span style={{ width: `${100 / of}%`, transform: `translateX(${100 * at}%)` }} />
  </span>
);

/** Bars over the stretches where something is true, `gap` pixels from the edges of the row. */
const Bars = ({ name, over, gap }: { name: string; over: readonly [number, number][]; gap: number }) => (
  <>
    {over.map(([from, to]) => (
      <path key={from} class={name} d={`M${from} ${gap}H${to}V${ROW - gap}H${from}z`} />
    ))}
  </>
);

/** A position in words, for those who do not see the timeline. */
const inWords = ({ number, move, value, said, setUps }: Positions[number]) =>
  [`${number} ${move ?? "end"}: ${value}`, said, setUps.join(", ")].filter((part) => part).join("; ");

interface RowDrawn {
  readonly label: string;
  readonly height?: number;
  readonly name?: "of-set-up";
  readonly drawn: ComponentChildren;
}

/** The rows of an ending: mistakes, verdicts, moves to mate, set-ups. */
function rowsOf(positions: Positions): RowDrawn[] {
  const setUps = [...new Set(positions.flatMap((one) => one.setUps))];
  const longest = Math.max(0, ...positions.map(({ dtm }) => dtm ?? 0));
  const where = (test: (one: Positions[number]) => boolean) => stretches(positions, test);
  const shown = VERDICTS.filter((verdict) => verdict !== "lost" || where((one) => one.verdict === "lost")[0]);
  const rows: RowDrawn[] = [
    {
      label: "mistakes",
      drawn: positions.map(
        ({ error }, n) => error && <path key={n} class="error" d={`M${n} 0h1l-.5 ${ROW}z`} />,
      ),
    },
    ...shown.map((verdict) => ({
      label: verdict,
      drawn: <Bars name={verdict} over={where((one) => one.verdict === verdict)} gap={3} />,
    })),
  ];
  if (longest > 0)
    rows.push({
      label: `mate in ${longest}`,
      height: CURVE,
      drawn: <path class="curve" d={curves(positions)} />,
    });
  for (const name of setUps)
    rows.push({
      label: name,
      name: "of-set-up",
      drawn: <Bars name="set-up" over={where((one) => one.setUps.includes(name))} gap={4} />,
    });
  return rows;
}

export const Timeline = ({
  positions,
  at,
  onStep,
  children,
}: {
  positions: Positions;
  at: number;
  onStep: (to: number) => void;
  /** What stands by the slider: set-ups may be many, and come below it. */
  children: ComponentChildren;
}) => {
  const of = positions.length;
  const stepNow = useRef(onStep);
  stepNow.current = onStep;
  // a step changes nothing of the rows
  const [first, ofSetUps] = useMemo(() => {
    const rows = rowsOf(positions);
    const rowsWith = (name: RowDrawn["name"]) =>
      rows
        .filter((row) => row.name === name)
        .map(({ label, height, drawn }) => (
          <Row key={label} label={label} height={height} of={of} onStep={(to) => stepNow.current(to)}>
            {drawn}
          </Row>
        ));
    return [rowsWith(undefined), rowsWith("of-set-up")];
  }, [positions]);
  return (
    <>
      <div class="timeline">
        {first}
        <Now of={of} at={at} />
      </div>
      <div class="timeline slider">
        <span />
        <input
          type="range"
          min={0}
          max={of - 1}
          value={at}
          aria-label="Position in the ending"
          aria-valuetext={inWords(positions[at])}
          onInput={(event) => onStep(Number(event.currentTarget.value))}
        />
      </div>
      {children}
      <div class="timeline of-set-ups">
        {ofSetUps}
        <Now of={of} at={at} />
      </div>
    </>
  );
};
