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

/** Tests of themes that are made otherwise than the program's; a theme that is missing is not checked here. */
const TESTS: Readonly<Partial<Record<Theme, (fen: string, san: string, prober: Prober) => boolean>>> = {
  stalemate: (fen, san) => {
    const after = played(fen, san);
    return verbose(after).some((move) => move.isCapture() && played(after.fen(), move.san).isStalemate());
  },
  skewer: (fen, san) => {
    const after = played(fen, san);
    const { to } = after.history({ verbose: true })[0];
    return (
      after.inCheck() &&
      verbose(after).every((move) =>
        verbose(played(after.fen(), move.san)).some((one) => one.isCapture() && one.from === to),
      )
    );
  },
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
  "defence against mate": (fen, san) =>
    mates(passed(fen)).length > 0 && !verbose(played(fen, san)).some((move) => move.san.endsWith("#")),
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
    const [king, color] = [kingOf(after, after.turn()), after.turn()];
    const isPinned = (square: Square) => {
      const without = new Chess(after.fen());
      without.remove(square);
      return without.isAttacked(king, color === "w" ? "b" : "w");
    };
    return after
      .board()
      .flat()
      .some((one) => one && one.color === color && one.type !== "k" && isPinned(one.square));
  },
  "double threat": (fen, san) => {
    const after = played(fen, san);
    const free = (chess: Chess) =>
      new Set(
        verbose(chess)
          .filter(
            (move) =>
              move.isCapture() && !verbose(played(chess.fen(), move.san)).some(({ to }) => to === move.to),
          )
          .map(({ to }) => to),
      );
    if (after.inCheck())
      return verbose(after).every(
        (move) =>
          !move.isCapture() && [...free(played(after.fen(), move.san))].some((square) => square !== move.to),
      );
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
