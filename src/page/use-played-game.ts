// The game that is played: its address, the server's judgement of it, how an exercise is counted, what is told and helped.

import { useEffect, useMemo, useState } from "preact/hooks";

import { addressOf, go, useAddress } from "./address.js";
import { useStored } from "./browser-storage.js";
import { type CallError, callErrorOf } from "./call-error.js";
import { useTask } from "./call-hooks.js";
import { type AnswerTo, type Input, call } from "./calls.js";
import { countTry, markHelped } from "./exercise-session.js";
import { type Colour, otherColour, turnOf } from "./fen.js";
import { type Try, helpIn, judgeTry } from "./play-judgement.js";
import { useServerState } from "./server-state.js";
import type { Settings, StoredExercise } from "./stored.js";

export type Game = AnswerTo<"play">;

/** A game as its address has it. */
export interface GameAddress {
  readonly start: string;
  /** Whose side one plays. */
  readonly you: Colour;
  readonly moves: readonly string[];
  readonly seed: string;
  readonly opponent: Settings["opponent"];
  /** Whether help was asked for in this try; that stays, whatever is taken back. */
  readonly isHelped: boolean;
  /** The exercise of the session that is played, and its number there. */
  readonly exercise: StoredExercise | undefined;
  readonly number: number;
}

interface Change {
  readonly moves?: readonly string[];
  readonly seed?: number;
  readonly opponent?: Settings["opponent"];
  readonly isHelped?: boolean;
}

/** The game in the address, and a way to another address of it. */
export function useGameAddress(): GameAddress & {
  readonly to: (change: Change, how?: "push" | "replace") => void;
} {
  const { query } = useAddress();
  const { settings, session } = useStored();
  const number = Number(query.exercise ?? Number.NaN);
  // an address that was sent on is played without anybody's session
  const own = session?.exercises[number];
  const exercise = own && (query.fen === undefined || query.fen === own.fen) ? own : undefined;
  const start = exercise?.fen ?? query.fen ?? "";
  const moves = useMemo(() => (query.moves ?? "").split(",").filter((move) => move !== ""), [query.moves]);
  const chosen = query.with === "people" || query.with === "table" ? query.with : settings.opponent;
  const game: GameAddress = {
    start,
    you: exercise ? turnOf(start) : query.you === "white" ? "white" : "black",
    moves,
    seed: query.seed ?? "1",
    // exercises are played against the table, so that they are the same for everybody
    opponent: exercise ? "table" : chosen,
    isHelped: query.helped !== undefined,
    exercise,
    number,
  };
  const to = (change: Change, how: "push" | "replace" = "replace") => {
    const next = { ...game, ...change };
    go(
      addressOf("/play", {
        fen: start,
        you: next.you,
        exercise: exercise && number,
        moves: next.moves.join(","),
        seed: next.seed,
        helped: next.isHelped ? 1 : undefined,
        with: exercise ? undefined : next.opponent,
      }),
      how,
    );
  };
  return { ...game, to };
}

/** A game as the server judges it, the opponent's answer in it where that side is to move. */
export interface JudgedGame {
  /** The last one judged from this start; undefined before the first. */
  readonly game: Game | undefined;
  /** Whether it is the game of the address, and not one before. */
  readonly isCurrent: boolean;
  readonly error: CallError | undefined;
}

/** Has a game judged; `onAnswer` is told the moves when the opponent has answered. */
export function useJudgedGame(
  { start, moves, you, opponent, seed }: GameAddress,
  onAnswer: (moves: readonly string[]) => void,
): JudgedGame {
  const [judged, setJudged] = useState<{ start: string; game: Game }>();
  const [error, setError] = useState<CallError>();
  const refresh = useServerState((server) => server.refresh);
  const game = judged?.start === start ? judged.game : undefined;
  const isCurrent = game !== undefined && game.moves.map(({ uci }) => uci).join() === moves.join();
  const turn = moves.length % 2 === 0 ? turnOf(start) : otherColour(turnOf(start));
  useEffect(() => {
    setError(undefined);
    if (start === "") return;
    // the opponent's answer came with the judgement of the game it leads to
    if (isCurrent && turn === you) return;
    const leaving = new AbortController();
    const input: Input<"play"> = {
      start,
      moves: [...moves],
      opponent: turn === you ? undefined : opponent,
      seed: Number(seed) || 1,
    };
    call("play", input, leaving.signal).then(
      (answer) => {
        setJudged({ start, game: answer });
        if (answer.moves.length > moves.length) onAnswer(answer.moves.map(({ uci }) => uci));
      },
      (thrown: unknown) => leaving.signal.aborted || setError(callErrorOf(thrown)),
    );
    return () => leaving.abort();
  }, [start, moves, you, opponent, refresh]);
  return { game, isCurrent, error };
}

/** Counts a try of an exercise, once; gives how it was counted, which stands whatever is taken back. */
function useCounted({ exercise, start, seed, moves, isHelped }: GameAddress, state: Try, isCurrent: boolean) {
  const counted = exercise?.counted === seed ? exercise.last : null;
  const { outcome } = state;
  useEffect(() => {
    if (!exercise || !isCurrent || moves.length === 0 || counted !== null || outcome === "open") return;
    if (outcome === "won" && isHelped) markHelped(start);
    else countTry(start, outcome, seed);
  }, [outcome, isCurrent, start, moves, counted]);
  return counted;
}

/** Help with the position on the board: its text, once it was asked for; `hints` are told first, one at a time. */
function useHelp(fen: string, hints: readonly string[]) {
  const task = useTask();
  const [help, setHelp] = useState<{ fen: string; text: string; hints: number }>();
  useEffect(() => setHelp(undefined), [fen]);
  const asked = help?.fen === fen ? help.hints : 0;
  const isHint = asked < hints.length;
  return {
    text: help?.fen === fen ? help.text : undefined,
    error: task.error,
    /** Whether a hint comes next, and not the answer. */
    isHint,
    ask: () =>
      isHint
        ? setHelp({ fen, text: hints.slice(0, asked + 1).join(" "), hints: asked + 1 })
        : task.run(async () => setHelp({ fen, text: helpIn(await call("position", { fen })), hints: asked })),
  };
}

/** What is told of a game: everything at its end or on request, else what happened since one's own last move. */
function useTold(game: Game, yourTurn: boolean, isExercise: boolean) {
  const { settings } = useStored();
  /** Number of moves played when it was asked whether the result has changed. */
  const [askedAt, setAskedAt] = useState<number>();
  const { length } = game.moves;
  const isAsked = askedAt === length;
  const tellsAll = isAsked || game.end !== null;
  const tells = tellsAll || settings.tell === "at-once" || isExercise;
  const since = tellsAll ? 0 : Math.max(0, length - (yourTurn ? 2 : 1));
  const errors = tells ? game.moves.slice(since).filter(({ error }) => error > 0) : [];
  return { tells, errors, isAsked, ask: () => setAskedAt(length) };
}

/** A game under way with all that the page shows of it. */
export function usePlay(address: ReturnType<typeof useGameAddress>, game: Game, isCurrent: boolean) {
  const { you, exercise, to } = address;
  const yourTurn = !game.end && isCurrent && turnOf(game.fen) === you;
  const state = judgeTry(game, you);
  const help = useHelp(game.fen, game.moves.length === 0 ? (exercise?.hints ?? []) : []);
  const askForHelp = () => {
    if (exercise) to({ isHelped: true });
    help.ask();
  };
  return {
    ...address,
    game,
    yourTurn,
    state,
    counted: useCounted(address, state, isCurrent),
    told: useTold(game, yourTurn, exercise !== undefined),
    help: { ...help, ask: askForHelp },
    /** Whether the exercise is won or lost. */
    isTried: exercise !== undefined && state.outcome !== "open",
    side: you === game.attacker ? ("attacker" as const) : ("defender" as const),
  };
}

/** What the parts of the place show a game by. */
export type Play = ReturnType<typeof usePlay>;
