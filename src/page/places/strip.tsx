// The verdict of an ending over time as a thin strip: won above, drawn in the middle, lost below, so that it can be read
// without colour.

import type { Verdict } from "../calls.js";

const HEIGHTS: Readonly<Record<Verdict, number>> = { won: 0, drawn: 5, lost: 10 };
/** Units of its length. */
const LENGTH = 300;

export const VerdictStrip = ({
  story,
  from,
  to,
}: {
  story: readonly { readonly verdict: Verdict; readonly ply: number }[];
  from: number;
  to: number;
}) => {
  const at = (ply: number) => (LENGTH * (ply - from)) / Math.max(1, to - from);
  const words = story.map(({ verdict }) => verdict).join(", then ");
  return (
    <svg
      class="strip"
      viewBox={`0 0 ${LENGTH} 14`}
      preserveAspectRatio="none"
      role="img"
      aria-label={`For the attacker: ${words || "outside the tables"}`}
    >
      {story.map(({ verdict, ply }, n) => (
        <rect
          key={ply}
          class={verdict}
          x={at(ply)}
          y={HEIGHTS[verdict]}
          width={at(story[n + 1]?.ply ?? to) - at(ply)}
          height={4}
        />
      ))}
    </svg>
  );
};
