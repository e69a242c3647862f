// Exercises judged in a way of its own, with another rules library and on FENs: whether a piece is simply taken, which
// picture it shows, whether what its hints say is so.

import { Chess, type Move, type Square } from "chess.js";

import type { Exercise } from "../../src/exercises/exercise.js";
import type { Theme } from "../../src/exercises/themes/theme.js";
import type { Prober } from "../../src/position/probe.js";

const verbose = (chess: Chess): Move[] => chess.moves({ verbose: true });
const played = (fen: string, san: string): Chess => {
  const chess = new Chess(fen);
  chess.move(san);
  return chess;
};
/** The position with the other side to move; undefined where a side is in check. */
function passed(fen: string): Chess | undefined {
  if (new Chess(fen).inCheck()) return undefined;
  const [board, turn] = fen.split(" ");
  return new Chess(`${board} ${turn === "w" ? "b" : "w"} - - 0 1`);
}
const mates = (chess: Chess | undefined) => (chess ? chess.moves().filter((san) => san.endsWith("#")) : []);

/** Whether some answer takes a piece that cannot be taken back, or whose recapture is no stalemate. */
export function isTrivial({ fen, answers, task }: Exercise): boolean {
  if (task === "judge") return false;
  return answers.some((san) => {
    if (!san.includes("x")) return false;
    const after = played(fen, san);
    const to = after.history({ verbose: true })[0].to;
    const back = verbose(after).filter((move) => move.to === to);
    return back.length === 0 || !back.every(({ san: reply }) => played(after.fen(), reply).isStalemate());
  });
}

/** Equal for formations that are one when turned, mirrored, moved over the board or with colours exchanged. */
export function pictureOfFen(fen: string): string {
  const [board, turn] = fen.split(" ");
  const rows = board.split("/").map((row) => [...row.replace(/\d/g, (n) => ".".repeat(Number(n)))]);
  const transpose = (all: string[][]) => all[0].map((_, n) => all.map((row) => row[n]));
  const trim = (all: string[][]): string[][] => {
    const used = all.map((row) => row.some((c) => c !== "."));
    return all.slice(used.indexOf(true), used.lastIndexOf(true) + 1);
  };
  const exchanged = (text: string) =>
    [...text].map((c) => (c === c.toUpperCase() ? c.toLowerCase() : c.toUpperCase())).join("");
  const forms: string[] = [];
  const cut = transpose(trim(transpose(trim(rows))));
  for (const a of [cut, [...cut].reverse()])
    for (const b of [a, a.map((row) => [...row].reverse())])
      for (const c of [b, transpose(b)]) {
        const text = c.map((row) => row.join("")).join("/");
        forms.push(`${text} ${turn}`, `${exchanged(text)} ${turn === "w" ? "b" : "w"}`);
      }
  return forms.sort()[0];
}

const at = (square: string) => [square.charCodeAt(0) - 97, Number(square[1]) - 1] as const;
function kingOf(chess: Chess, color: "w" | "b"): Square {
  return chess.findPiece({ type: "k", color })[0];
}

/** Squares of pieces that can be taken and not taken back. */
const free = (chess: Chess): Set<Square> =>
  new Set(
    verbose(chess)
      .filter(
        (move) =>
          move.isCapture() && !verbose(played(chess.fen(), move.san)).some(({ to }) => to === move.to),
      )
      .map(({ to }) => to),
  );

/** Squares of a side's pieces without which its king would be attacked. */
function pinned(chess: Chess, color: "w" | "b"): Square[] {
  const king = kingOf(chess, color);
  const other = color === "w" ? "b" : "w";
  return chess
    .board()
    .flat()
    .flatMap((one) => {
      if (!one || one.color !== color || one.type === "k") return [];
      const without = new Chess(chess.fen());
      without.remove(one.square);
      return without.isAttacked(king, other) ? [one.square] : [];
    });
}

/** Whether a move is a check after which the piece that gave it can take something, whatever is answered. */
function isSkewer(fen: string, san: string): boolean {
  const after = played(fen, san);
  const { to } = after.history({ verbose: true })[0];
  return (
    after.inCheck() &&
    verbose(after).every((move) =>
      verbose(played(after.fen(), move.san)).some((one) => one.isCapture() && one.from === to),
    )
  );
}

/** Whether a check takes nothing, cannot be answered by taking, and leaves something to take whatever is answered. */
function isDoubleCheck(fen: string, san: string): boolean {
  const after = played(fen, san);
  return (
    after.inCheck() &&
    verbose(after).every(
      (move) =>
        !move.isCapture() && [...free(played(after.fen(), move.san))].some((square) => square !== move.to),
    )
  );
}

/** Whether the side to move mates in two moves at most, by trying everything. */
const matesInTwo = (chess: Chess): boolean =>
  chess.moves().some((san) => {
    const after = played(chess.fen(), san);
    if (after.isCheckmate()) return true;
    const replies = after.moves();
    return replies.length > 0 && replies.every((reply) => mates(played(after.fen(), reply)).length > 0);
  });

/** Whether checks of some kind would cost the result if nothing were done, and none of them comes after the move. */
function meets(
  fen: string,
  san: string,
  prober: Prober,
  isOfKind: (fen: string, san: string) => boolean,
): boolean {
  const idle = passed(fen)?.fen();
  if (idle === undefined) return false;
  const after = played(fen, san).fen();
  const of = (one: string) =>
    verbose(new Chess(one))
      .filter((move) => !move.isCapture() && isOfKind(one, move.san))
      .map(({ lan, after: next }) => ({ lan, verdict: prober.probe(next).verdict }));
  const kept = prober.probe(fen).verdict;
  const threats = of(idle).filter(({ verdict }) => verdict !== kept);
  const left = new Set(of(after).map(({ lan }) => lan));
  return threats.length > 0 && threats.every(({ lan }) => !left.has(lan));
}

/** Tests of themes that are made otherwise than the program's; a theme that is missing is not checked here. */
const TESTS: Readonly<Partial<Record<Theme, (fen: string, san: string, prober: Prober) => boolean>>> = {
  stalemate: (fen, san) => {
    const after = played(fen, san);
    return verbose(after).some((move) => move.isCapture() && played(after.fen(), move.san).isStalemate());
  },
  skewer: isSkewer,
  zugzwang: (fen, san, prober) => {
    const after = played(fen, san);
    const idle = passed(after.fen());
    if (!idle) return false;
    return prober.probe(idle.fen()).verdict !== prober.probe(after.fen()).verdict;
  },
  "check from the far side": (fen, san) => {
    const after = played(fen, san);
    const [one, other] = [at(after.history({ verbose: true })[0].to), at(kingOf(after, after.turn()))];
    const steps = Math.abs(one[0] - other[0]) + Math.abs(one[1] - other[1]);
    return after.inCheck() && (one[0] === other[0] || one[1] === other[1]) && steps >= 4;
  },
  "only check": (fen, san) =>
    san.includes("+") && new Chess(fen).moves().filter((one) => one.includes("+")).length > 1,
  "mate threat": (fen, san) => mates(passed(played(fen, san).fen())).length > 0,
  "defence against mate": (fen, san) => {
    const idle = passed(fen);
    return idle !== undefined && matesInTwo(idle) && !matesInTwo(played(fen, san));
  },
  "defence against a skewer": (fen, san, prober) => meets(fen, san, prober, isSkewer),
  "defence against a double threat": (fen, san, prober) => meets(fen, san, prober, isDoubleCheck),
  "piece under attack": (fen, san) => {
    const after = played(fen, san);
    const { from, to } = after.history({ verbose: true })[0];
    const idle = passed(fen);
    return idle !== undefined && free(idle).has(from) && !free(after).has(to);
  },
  "interposition forced": (fen, san) => {
    const after = played(fen, san);
    return after.inCheck() && after.moves().every((reply) => !/[Kx]/.test(reply));
  },
  "way out of check": (fen, san) => new Chess(fen).inCheck() && san.startsWith("K"),
  interposition: (fen, san) =>
    !san.startsWith("K") && (new Chess(fen).inCheck() || mates(passed(fen)).length > 0),
  "interposition made ready": (fen, san) => {
    const after = played(fen, san);
    return mates(passed(fen)).some((mate) => {
      const bare = mate.replace("#", "");
      const check = after.moves().find((one) => one.replace("+", "") === bare);
      return (
        check !== undefined &&
        played(after.fen(), check)
          .moves()
          .some((reply) => /^[QRBN][^x]*$/.test(reply))
      );
    });
  },
  "rook swing": (_, san) => san.startsWith("R"),
  "bishop's transfer with tempo": (_, san) => san.startsWith("B"),
  "cutting off the king": (_, san) => san.startsWith("R"),
  "kings face to face": (_, san) => san.startsWith("K"),
  "away from the corner": (_, san) => san.startsWith("K"),
  "into the wedge": (_, san) => san.startsWith("K"),
  "out of the wedge": (_, san) => san.startsWith("K"),
  "run of the king": (_, san) => san.startsWith("K"),
  "waiting move": (fen, san, prober) => {
    const idle = passed(fen);
    return (
      idle !== undefined &&
      !/[K+#x]/.test(san) &&
      prober.probe(idle.fen()).verdict === prober.probe(fen).verdict
    );
  },
  pin: (fen, san) => {
    const after = played(fen, san);
    return pinned(after, after.turn()).length > 0;
  },
  "pin kept": (fen, san) => {
    const after = played(fen, san);
    const before = pinned(new Chess(fen), after.turn());
    return pinned(after, after.turn()).some((square) => before.includes(square));
  },
  "double threat": (fen, san) => {
    const after = played(fen, san);
    if (after.inCheck()) return isDoubleCheck(fen, san);
    const idle = passed(after.fen())!;
    return (mates(idle).length > 0 ? 1 : 0) + free(idle).size >= 2;
  },
  "set-up kept": (fen, san, prober) => {
    const after = prober.probe(played(fen, san).fen()).setUps;
    return prober.probe(fen).setUps.some((name) => after.includes(name));
  },
  "change of set-up": (fen, san, prober) => {
    const [before, after] = [fen, played(fen, san).fen()].map((one) => prober.probe(one).setUps);
    return after.some((name) => !before.includes(name));
  },
  "attack on the bishop": (fen, san) => {
    const idle = passed(played(fen, san).fen());
    return idle !== undefined && verbose(idle).some((move) => move.captured === "b");
  },
  "attack on the rook": (fen, san) => {
    const after = passed(played(fen, san).fen());
    const before = passed(fen);
    return (
      after === undefined || before === undefined || verbose(after).some((move) => move.captured === "r")
    );
  },
};

const PIECES: Readonly<Record<string, string>> = {
  K: "king",
  Q: "queen",
  R: "rook",
  B: "bishop",
  N: "knight",
};

/** Whether the hints of an exercise are so; undefined where the idea cannot be checked here and nothing else is wrong. */
export function hintsAreTrue(
  { fen, answers, hints, themes, task }: Exercise,
  prober: Prober,
): boolean | undefined {
  if (task === "judge") return hints.length === 0;
  const moves = hints.at(-1)!;
  if (!answers.every((san) => moves.includes(PIECES[san[0]]))) return false;
  for (const piece of Object.values(PIECES))
    if (moves.includes(piece) && !answers.some((san) => PIECES[san[0]] === piece)) return false;
  if (themes.length === 0) return hints.length === 1;
  const test = TESTS[themes[0]];
  if (!test) return undefined;
  return answers.every((san) => test(fen, san, prober));
}

/** Whether the threat that a position is said to hold is one: mate, or a piece taken that is no trade and no stalemate. */
export function isThreat(fen: string, prober: Prober): boolean | undefined {
  const { threat } = prober.probe(fen).explanation;
  if (threat === null) return undefined;
  const idle = passed(fen)!.fen();
  if ("mates" in threat) return threat.mates.every((san) => played(idle, san).isCheckmate());
  return threat.by.every((san) => {
    const after = played(idle, san);
    const [{ captured }] = after.history({ verbose: true });
    return (
      PIECES[captured!.toUpperCase()] === threat.wins &&
      !after.isStalemate() &&
      !verbose(after).some((move) => move.isCapture())
    );
  });
}

/** A position and all that a move leads to in which nothing is taken. */
export const withNext = (fen: string): string[] => [
  fen,
  ...verbose(new Chess(fen))
    .filter((move) => !move.isCapture())
    .map((move) => move.after)
    .filter((after) => !new Chess(after).isGameOver()),
];
