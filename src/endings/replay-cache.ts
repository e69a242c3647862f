// The replay cache: what the moves of a game hold of the target, found by a replay with the rules library.
//
// Collections hold the same game many times over, so a replay is remembered by the bytes of the movetext and by what else
// it depends on, and given again.

import { textOf } from "../pgn/scan/bytes.js";
import { createHash } from "node:crypto";

import { type Move, makeUci } from "chessops";
import type { Chess } from "chessops/chess";
import { INITIAL_FEN, makeFen } from "chessops/fen";

import type { Ply } from "../chess/units.js";
import { incrementOf } from "../pgn/game/circumstances.js";
import { type Result, readMainLine, resultOf } from "../pgn/game/movetext.js";
import type { Fault } from "../pgn/faults.js";
import { type Stop, type Visit, playThrough } from "../pgn/game/replay.js";
import { type Tags, tagValue } from "../pgn/game/tags.js";
import type { Classifier, EndingRecord } from "./ending.js";
import { SpanCollector } from "./spans.js";

/** What a replay says of a game that reaches the target: nothing that depends on its players. */
export interface ReplayRecord {
  readonly result: Result;
  /** FEN of the start, null for the usual one. */
  readonly start: string | null;
  /** The main line in coordinates, for writing the game out again. */
  readonly moves: string;
  readonly plies: Ply;
  /** Of start and moves: games with equal ones are copies. */
  readonly digest: string;
  /** Comments of clocks that could not be read. */
  readonly unreadClocks: number;
  /** Share of the moves that carry a program's comment (see `MainLine`). */
  readonly commented: number;
  readonly stoppedAt: Ply | null;
  readonly stopReason: Fault | null;
  readonly endings: readonly EndingRecord[];
}

/** A replay: where it stopped short, if it did, and its record, if the game reaches the target. */
export interface Replay {
  readonly stop: Stop | undefined;
  readonly record: ReplayRecord | undefined;
}

/** Positions that are remembered at most: enough for a collection whose files share games, some tens of megabytes. */
const REMEMBERED = 20_000;

const weightOf = ({ record }: Replay): number =>
  1 + (record?.endings.reduce((sum, ending) => sum + ending.positions, 0) ?? 0);

/** Replays games; the replay remembered longest is forgotten first. */
export class ReplayCache {
  private readonly known = new Map<string, Replay>();
  private positions = 0;

  constructor(private readonly classifier: Classifier) {}

  /** The replay of a movetext from `start`, which is left as it is. The tags tell result, termination and increment. */
  replay(movetext: Uint8Array, tags: Tags, start: Chess): Replay {
    const others = ["FEN", "Result", "Termination", "TimeControl"]
      .map((name) => tags.get(name) ?? "")
      .join("\n");
    const key = createHash("sha256").update(movetext).update(`\0${others}`).digest("base64");
    let replay = this.known.get(key);
    if (!replay) {
      replay = this.play(movetext, tags, start);
      this.known.set(key, replay);
      this.positions += weightOf(replay);
      for (const [old, forgotten] of this.known) {
        if (this.positions <= REMEMBERED) break;
        this.positions -= weightOf(forgotten);
        this.known.delete(old);
      }
    }
    return replay;
  }

  private play(movetext: Uint8Array, tags: Tags, start: Chess): Replay {
    const position = start.clone();
    const line = readMainLine(textOf(movetext, 0, movetext.length));
    // both sides forfeited: the result looks like castling
    if (/^0\s*[-–]\s*0$/.test(tags.get("Result") ?? "") && line.moves.at(-1)?.text === "0-0")
      line.moves.pop();
    const increment = incrementOf(tagValue(tags, "TimeControl"));
    const collector = new SpanCollector(this.classifier.material, line, increment);
    const played: Move[] = [];
    const visit: Visit = (at, ply, move) => {
      collector.visit(at, ply, move);
      if (move) played.push(move);
    };
    const stop = playThrough(position, line, visit, collector.glance);
    if (collector.spans.length === 0) return { stop, record: undefined };
    // text is made only for games that reach the target
    const result = resultOf(tagValue(tags, "Result")) ?? line.result ?? "*";
    const fen = makeFen(start.toSetup());
    const moves = played.map(makeUci).join(" ");
    const plies = played.length;
    const end = {
      result,
      termination: tags.get("Termination"),
      position,
      ply: plies,
      stopped: stop !== undefined,
    };
    return {
      stop,
      record: {
        result,
        start: fen === INITIAL_FEN ? null : fen,
        moves,
        plies,
        digest: createHash("sha256").update(`${fen} ${moves}`).digest("hex").slice(0, 32),
        unreadClocks: line.unreadClocks,
        commented: plies === 0 ? 0 : line.programComments / plies,
        stoppedAt: stop?.ply ?? null,
        stopReason: stop?.fault ?? null,
        endings: collector.spans.map((span) => this.classifier.ending(span, end)),
      },
    };
  }
}
