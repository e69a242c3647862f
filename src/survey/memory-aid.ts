// Memory aids: "when the attacker's king steps to one side, the defender's steps to the other". Searched for among pairs of
// a kind of attacker's move and a kind of reply, on a sample of drawn placements; only moves after
// which few replies hold are counted.

import type { Material } from "../chess/material.js";
import { MoveList, Movement } from "../chess/moves.js";
import { ATTACKER_KING, DEFENDER_KING, type Placement } from "../chess/placement.js";
import { fileOf, rankOf } from "../chess/squares.js";
import type { Square } from "../chess/units.js";
import type { Tables } from "../tablebase/tables.js";

/** A move in the frame, where rank 1 is the edge at which the defender's king is held. */
interface Moved {
  readonly piece: number;
  readonly from: Square;
  readonly to: Square;
  readonly checks: boolean;
}

/** Kinds of the attacker's moves. */
const WHEN = [
  {
    name: "king aside",
    fits: (move: Moved) => isKing(move, ATTACKER_KING) && aside(move) !== 0 && down(move) === 0,
  },
  {
    name: "king aside and nearer",
    fits: (move: Moved) => isKing(move, ATTACKER_KING) && aside(move) !== 0 && down(move) > 0,
  },
  {
    name: "king nearer",
    fits: (move: Moved) => isKing(move, ATTACKER_KING) && aside(move) === 0 && down(move) > 0,
  },
  { name: "check", fits: (move: Moved) => !isKing(move, ATTACKER_KING) && move.checks },
  { name: "piece", fits: (move: Moved) => !isKing(move, ATTACKER_KING) && !move.checks },
] as const;

/** Kinds of the defender's replies, told by the move that they answer. */
const THEN = [
  {
    name: "king to the other side",
    fits: (reply: Moved, move: Moved) =>
      isKing(reply, DEFENDER_KING) && aside(reply) !== 0 && aside(reply) === -aside(move),
  },
  {
    name: "king to the same side",
    fits: (reply: Moved, move: Moved) =>
      isKing(reply, DEFENDER_KING) && aside(reply) !== 0 && aside(reply) === aside(move),
  },
  { name: "rook checks", fits: (reply: Moved) => !isKing(reply, DEFENDER_KING) && reply.checks },
  {
    name: "rook on its rank",
    fits: (reply: Moved) =>
      !isKing(reply, DEFENDER_KING) && !reply.checks && rankOf(reply.from) === rankOf(reply.to),
  },
  {
    name: "rook on its file",
    fits: (reply: Moved) =>
      !isKing(reply, DEFENDER_KING) && !reply.checks && fileOf(reply.from) === fileOf(reply.to),
  },
] as const;

const isKing = ({ piece }: Moved, king: number) => piece === king;
const aside = ({ from, to }: Moved) => Math.sign(fileOf(to) - fileOf(from));
const down = ({ from, to }: Moved) => rankOf(from) - rankOf(to);

export interface MemoryAid {
  readonly when: (typeof WHEN)[number]["name"];
  readonly then: (typeof THEN)[number]["name"];
  /** Moves looked at after which such a reply holds, out of how many in which one could be made. */
  readonly holds: number;
  readonly of: number;
}

/** Replies that hold are few if they are at most this part of the legal ones. */
const FEW = 1 / 3;
/** An aid is one if it is right so often, in so many cases. */
const RIGHT = 0.9;
const CASES = 40;
/** And one of what never to do if it is right so seldom. */
const WRONG = 0.04;

/** The memory aids of placements of one kind, attacker to move and drawn: what to do and what never, the surest first. */
export function memoryAidsOf(material: Material, sampled: readonly Placement[], tables: Tables): MemoryAid[] {
  const movement = new Movement(material);
  const counts = WHEN.map(() => THEN.map(() => ({ holds: 0, of: 0 })));
  const [list, replies] = [new MoveList(), new MoveList()];
  for (const placement of sampled) {
    const squares = [...placement.squares];
    movement.legalMoves(squares, true, list);
    for (const move of quietMoves(list, squares, movement, 1)) {
      squares[move.piece] = move.to;
      if (tables.verdict(squares, false) === 0) {
        movement.legalMoves(squares, false, replies);
        const answers = quietMoves(replies, squares, movement, 0).map((reply) => ({
          reply,
          holds: tables.verdictAfter(squares, reply.piece, reply.to, false) <= 0,
        }));
        const holding = answers.filter(({ holds }) => holds).length;
        if (holding <= FEW * replies.count && holding > 0)
          WHEN.forEach((when, w) => {
            if (!when.fits(move)) return;
            THEN.forEach((then, t) => {
              const fitting = answers.filter(({ reply }) => then.fits(reply, move));
              if (fitting.length === 0) return;
              ++counts[w][t].of;
              if (fitting.some(({ holds }) => holds)) ++counts[w][t].holds;
            });
          });
      }
      squares[move.piece] = move.from;
    }
  }
  return WHEN.flatMap((when, w) =>
    THEN.map((then, t) => ({ when: when.name, then: then.name, ...counts[w][t] })),
  )
    .filter(({ holds, of }) => of >= CASES && (holds / of >= RIGHT || holds / of <= WRONG))
    .sort((a, b) => Math.abs(b.holds / b.of - 0.5) - Math.abs(a.holds / a.of - 0.5) || b.of - a.of);
}

/** Moves of a list that take nothing; `against` is the side whose king they may check: 0 the attacker's, 1 the defender's. */
function quietMoves(list: MoveList, squares: Square[], movement: Movement, against: 0 | 1): Moved[] {
  const moves: Moved[] = [];
  for (let n = 0; n < list.count; ++n) {
    if (list.captured[n] >= 0) continue;
    const [piece, to] = [list.piece[n], list.to[n]];
    const from = squares[piece];
    squares[piece] = to;
    moves.push({ piece, from, to, checks: movement.inCheck(squares, against) });
    squares[piece] = from;
  }
  return moves;
}
