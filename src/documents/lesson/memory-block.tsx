// The block of a memory aid: what reply goes with what move, where the table gives such a rule.

import { renderToString } from "preact-render-to-string";

import { counted } from "../../position/wording.js";
import { aboutGames } from "../../query/engine/placement-conditions.js";
import { type MemoryAid, memoryAidsOf } from "../../survey/memory-aid.js";
import { type LessonMeans, badBlock, heldFor, questionOf } from "./means.js";
import type { Block } from "./outline.js";

const WHEN: Readonly<Record<MemoryAid["when"], string>> = {
  "king aside": "When the attacker's king steps aside on its rank",
  "king aside and nearer": "When the attacker's king steps nearer and to one side",
  "king nearer": "When the attacker's king comes a rank nearer",
  check: "When the attacker checks",
  piece: "When the attacker makes a quiet move with a piece",
};
const THEN: Readonly<Record<MemoryAid["then"], string>> = {
  "king to the other side": "step with your own king to the other side",
  "king to the same side": "step with your own king to the same side",
  "rook checks": "give check with the rook",
  "rook on its rank": "move the rook along its rank",
  "rook on its file": "move the rook along its file",
};

const isToDo = ({ holds, of }: MemoryAid) => holds > of / 2;

/** Aids that a student keeps in mind at once. */
const SHOWN = 2;

export async function memoryBlock(means: LessonMeans, block: Block): Promise<string> {
  const asked = questionOf(means, block);
  if (aboutGames(asked)) throw badBlock(block, "a memory aid is about placements, not about games");
  const aids = memoryAidsOf(means.target, await heldFor(means, block), means.tables);
  const kept = aids
    // what to do goes before what not to do
    .sort((a, b) => Number(isToDo(b)) - Number(isToDo(a)))
    .filter((aid, n, all) => all.findIndex(({ when }) => when === aid.when) === n)
    .slice(0, SHOWN);
  // a rule of thumb that is none helps nobody
  if (kept.length === 0) return "";
  return renderToString(
    <div class="rule">
      {kept.map((aid) => (
        <p>
          <b>
            {WHEN[aid.when]}, {isToDo(aid) ? THEN[aid.then] : `do not ${THEN[aid.then]}`}.
          </b>{" "}
          <span class="note">
            Tried in {counted(aid.of, "position")} in which few replies hold, drawn by lot: it holds in{" "}
            {aid.holds === 0 ? "none" : aid.holds === aid.of ? "all" : aid.holds.toLocaleString("en")}.
          </span>
        </p>
      ))}
    </div>,
  );
}
