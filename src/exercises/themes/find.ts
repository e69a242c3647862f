// Which themes a move has, each by an exact test of the moves that can follow.

import type { Chess } from "chessops/chess";
import { parseSan } from "chessops/san";
import { squareFile, squareRank } from "chessops/util";

import type { Square } from "../../chess/units.js";
import { ACTIVE_KINDS, type KindSet, kindBit } from "../../geometry/move-kinds.js";
import { geometryIndex } from "../../geometry/facts.js";
import { kindsOf } from "../../position/explain.js";
import type { Prober } from "../../position/probe.js";
import type { ProbedMove, Valued } from "../../position/valued.js";
import { placementOf } from "../../chess/fen.js";
import { OTHER_SIDE, SCORES, type Verdict, scoreOf, verdictOf } from "../../chess/verdict.js";
import { type Step, after, behind, freeSquares, lineBetween, matesIn, movesOf, passed } from "./on-board.js";
import { unpack } from "../../tablebase/tables.js";
import type { Theme } from "./theme.js";

/** A position with what is known of it, and one of the moves that solve it. */
export interface Solved {
  readonly position: Chess;
  readonly valued: Valued;
  readonly move: ProbedMove;
  /** What follows the move, in SAN. */
  readonly line: readonly string[];
  /** Names of the set-ups of the side that holds before and after the move. */
  readonly before: readonly string[];
  readonly after: readonly string[];
}

/** Squares between rook and king from which on a check comes from afar. */
const FAR = 3;
/** Files or ranks that a king goes to have run. */
const RUN = 3;
/** Moves in which a mate that is coming has to be seen: the check that has to be answered first, and the mate. */
const MATE_SOON = 2;

const CUT_OFF = geometryIndex("king-cut-off");
const FILES_APART = geometryIndex("kings-files-apart");
const RANK = geometryIndex("king-rank");
const ATTACKER_RANK = geometryIndex("attacker-king-rank");
const has = (kinds: KindSet, name: Parameters<typeof kindBit>[0]) => (kinds & kindBit(name)) !== 0;

/** Finds themes in positions of one material. */
export class ThemeFinder {
  constructor(private readonly prober: Prober) {}

  /** The themes of one move. */
  themesOf(solved: Solved): Set<Theme> {
    const { position, valued, move } = solved;
    const allKinds = kindsOf(valued, this.prober.geometerFor(valued.placed));
    const kinds = allKinds.get(move) ?? 0;
    const next = after(position, move);
    const role = position.board.get(move.from)!.role;
    const fails = (one: ProbedMove) => one.verdict !== move.verdict;
    const checks = has(kinds, "check");
    const idle = passed(position);
    const threatened = idle ? matesIn(idle) : [];
    const again = next.isCheck() ? undefined : passed(next);
    const mates = again ? matesIn(again) : [];
    const free = again ? freeSquares(again) : new Set<Square>();
    const mover = valued.placed.attackerToMove;
    const facts = (at: Chess) => this.prober.geometerFor(valued.placed).facts(placementOf(at));
    const placed = next.board.occupied.size() === position.board.occupied.size();
    const [was, is] = placed ? [facts(position), facts(next)] : [undefined, undefined];
    const tests: Readonly<Record<Theme, () => boolean>> = {
      stalemate: () =>
        movesOf(next).some((reply) => next.board.occupied.has(reply.to) && after(next, reply).isStalemate()),
      skewer: () => checks && this.skewers(next, move, position),
      zugzwang: () => this.isZugzwangAfter(next, move.verdict, valued),
      "interposition made ready": () =>
        threatened.some((mate) => {
          if (!movesOf(next).some(({ from, to }) => from === mate.from && to === mate.to)) return false;
          const checked = after(next, mate);
          if (!checked.isCheck() || checked.isCheckmate()) return false;
          return movesOf(checked).some(
            ({ from, to }) => checked.board.get(from)!.role !== "king" && !checked.board.occupied.has(to),
          );
        }),
      "double threat": () =>
        (mates.length > 0 ? 1 : 0) + free.size >= 2 || (checks && this.winsAfterCheck(next, position)),
      "run of the king": () => this.kingRuns(solved),
      "check from the far side": () => {
        if (role !== "rook" || !checks || has(kinds, "discovered check")) return false;
        const between = lineBetween(move.to, next.board.kingOf(next.turn)!);
        return between !== undefined && between.length >= FAR;
      },
      "only check": () =>
        checks &&
        valued.moves.some((one) => one !== move && fails(one) && has(allKinds.get(one) ?? 0, "check")),
      pin: () => has(kinds, "pin"),
      "pin kept": () =>
        has(kinds, "pin kept") &&
        valued.moves.some((one) => fails(one) && !has(allKinds.get(one) ?? 0, "pin kept")),
      "bishop's transfer with tempo": () =>
        role === "bishop" && (checks || has(kinds, "attack") || mates.length > 0),
      "rook swing": () => role === "rook" && has(kinds, "switch"),
      "change of set-up": () =>
        solved.before.length > 0 &&
        solved.after.length > 0 &&
        !solved.after.some((name) => solved.before.includes(name)),
      interposition: () => has(kinds, "block") || has(kinds, "mate block"),
      "waiting move": () =>
        (kinds & ACTIVE_KINDS) === 0 && role !== "king" && idle !== undefined && this.same(idle, valued),
      "kings face to face": () =>
        mover &&
        role === "king" &&
        is !== undefined &&
        is[FILES_APART] === 0 &&
        is[RANK] === 1 &&
        is[ATTACKER_RANK] === 3 &&
        was![FILES_APART] !== 0,
      "interposition forced": () => checks && this.forcesInterposition(next),
      "mate threat": () => mates.length > 0,
      "attack on the rook": () => has(kinds, "attack"),
      "attack on the bishop": () =>
        !mover && role === "rook" && [...free].some((square) => next.board.get(square)?.role === "bishop"),
      "cutting off the king": () =>
        mover && role === "rook" && is !== undefined && is[CUT_OFF] !== was![CUT_OFF] && isCut(is[CUT_OFF]),
      "away from the corner": () => has(kinds, "from corner"),
      "into the wedge": () => has(kinds, "into wedge"),
      "out of the wedge": () => has(kinds, "out of wedge"),
      "defence against mate": () => idle !== undefined && this.isMateSoon(valued),
      "defence against a skewer": () =>
        this.meetsCheck(solved, idle, (threat, at, before) => this.skewers(at, threat, before)),
      "defence against a double threat": () =>
        this.meetsCheck(solved, idle, (_, at, before) => at.isCheck() && this.winsAfterCheck(at, before)),
      "piece under attack": () =>
        role !== "king" &&
        idle !== undefined &&
        freeSquares(idle).has(move.from) &&
        !freeSquares(next).has(move.to),
      "way out of check": () => position.isCheck() && role === "king",
      "set-up kept": () => solved.after.some((name) => solved.before.includes(name)),
    };
    return new Set((Object.keys(tests) as Theme[]).filter((theme) => tests[theme]()));
  }

  /** A check along a line with a piece behind the king, which falls whatever is answered. */
  private skewers(next: Chess, { to, from }: Step, before: Chess): boolean {
    const king = next.board.kingOf(next.turn)!;
    if (lineBetween(to, king) === undefined || before.board.get(from)!.role === "king") return false;
    const target = behind(next, to, king);
    if (target === undefined || next.board.get(target)?.color !== next.turn) return false;
    const replies = movesOf(next);
    return (
      replies.length > 0 &&
      replies.every((reply) =>
        movesOf(after(next, reply)).some((one) => one.from === to && one.to === target),
      )
    );
  }

  /** After a check, whatever is answered, a piece can be taken for nothing that could not be before. */
  private winsAfterCheck(next: Chess, before: Chess): boolean {
    const replies = movesOf(next);
    const was = freeSquares(before);
    return (
      replies.length > 0 &&
      replies.every((reply) => {
        const answered = after(next, reply);
        return (
          !next.board.occupied.has(reply.to) &&
          // a piece that steps in between is no second threat
          [...freeSquares(answered)].some((square) => square !== reply.to && !was.has(square))
        );
      })
    );
  }

  /** Whether a check leaves nothing but to step in between, where nothing can be taken. */
  private forcesInterposition(next: Chess): boolean {
    const replies = movesOf(next);
    return (
      replies.length > 0 &&
      replies.every(({ from, to }) => next.board.get(from)!.role !== "king" && !next.board.occupied.has(to))
    );
  }

  /** Whether the other side would mate in at most two moves if it could move at once. */
  private isMateSoon({ placed }: Valued): boolean {
    const { squares, attackerToMove } = placed;
    const packed = this.prober.tablesFor(placed).probe(squares, !attackerToMove);
    const { dtm } = unpack(packed);
    return scoreOf(packed) === (attackerToMove ? -1 : 1) && dtm !== null && dtm <= MATE_SOON;
  }

  /** Whether the other side has a check of some kind that costs the result if nothing is done, and the move takes it away. */
  private meetsCheck(
    { position, valued, move }: Solved,
    idle: Chess | undefined,
    isOfKind: (check: Step, next: Chess, before: Chess) => boolean,
  ): boolean {
    if (idle === undefined) return false;
    const { attacker } = valued.placed;
    const next = after(position, move);
    const isMet = (check: Step) =>
      !movesOf(next).some(
        ({ from, to }) => from === check.from && to === check.to && isOfKind(check, after(next, check), next),
      );
    const threats = movesOf(idle).filter((check) => {
      const at = after(idle, check);
      return (
        isOfKind(check, at, idle) &&
        at.board.occupied.size() === position.board.occupied.size() &&
        this.verdictOf(at, attacker) !== move.verdict
      );
    });
    return threats.length > 0 && threats.every(isMet);
  }

  /** Whether a position has the same verdict as another of the same pieces, which is given with its values. */
  private same(position: Chess, { packed, placed }: Valued): boolean {
    const other = this.prober.tablesFor(placed).probe(placed.squares, !placed.attackerToMove);
    return position.board.occupied.size() === placed.squares.length && scoreOf(packed) === scoreOf(other);
  }

  /** Whether the side that has to move would come off better if it could pass. */
  private isZugzwangAfter(next: Chess, verdict: Verdict, { placed }: Valued): boolean {
    const idle = passed(next);
    if (!idle || next.board.occupied.size() !== placed.squares.length) return false;
    const own = this.verdictOf(idle, placed.attacker);
    const forMover = (one: Verdict) => SCORES[placed.attackerToMove ? one : OTHER_SIDE[one]];
    return forMover(own) < forMover(verdict);
  }

  private verdictOf(position: Chess, attacker: string): Verdict {
    const { packed, placed } = this.prober.values(position);
    const verdict = verdictOf(scoreOf(packed));
    return placed.attacker === attacker ? verdict : OTHER_SIDE[verdict];
  }

  /** Whether in the line the king goes three files or ranks to the same side, its own first move included. */
  private kingRuns({ position, move, line }: Solved): boolean {
    if (position.board.get(move.from)!.role !== "king") return false;
    const at = after(position, move);
    for (const san of line) at.play(parseSan(at, san)!);
    const end = at.board.kingOf(position.turn)!;
    const [files, ranks] = [squareFile, squareRank].map((of) => of(end) - of(move.from));
    const first = [squareFile, squareRank].map((of) => of(move.to) - of(move.from));
    return (
      (Math.abs(files) >= RUN && Math.sign(files) === Math.sign(first[0])) ||
      (Math.abs(ranks) >= RUN && Math.sign(ranks) === Math.sign(first[1]))
    );
  }
}

const isCut = (value: number | null) => value !== null && value > 0;
