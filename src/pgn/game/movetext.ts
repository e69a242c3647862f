// The main line of a game's movetext, token by token: moves, clocks from comments, the result.
//
// Side lines, annotation glyphs, move numbers and words are passed over. What a token means as a move is for the replay to
// say.

/** A token of the main line; offsets count from the start of the movetext given. */
export interface MoveToken {
  readonly text: string;
  readonly at: number;
}

export interface MainLine {
  readonly moves: MoveToken[];
  /** Seconds left on the mover's clock after each move, where a `%clk` comment says so; sparse. */
  readonly clocks: readonly (number | undefined)[];
  /** Seconds that each move took, where an `%emt` comment says so; sparse. */
  readonly elapsed: readonly (number | undefined)[];
  /** Comments of a clock that could not be read. */
  readonly unreadClocks: number;
  /** Moves with a comment of evaluation, depth and time, as programs write them about their own moves. */
  readonly programComments: number;
  readonly result?: Result;
  /** Offset of a comment or side line that never closes, and what opens it; nothing after it can be read. */
  readonly unclosed?: MoveToken;
}

export const RESULTS = ["1-0", "0-1", "1/2-1/2", "*"] as const;
export type Result = (typeof RESULTS)[number];

/** The result a token or tag value stands for; undefined if it is none. */
export function resultOf(text: string | undefined): Result | undefined {
  switch (text?.trim().replace(/½/g, "1/2").replace(/[–—]/g, "-")) {
    case "1-0":
    case "1:0":
      return "1-0";
    case "0-1":
    case "0:1":
      return "0-1";
    case "1/2-1/2":
    case "1/2":
    case "1/2:1/2":
      return "1/2-1/2";
    case "*":
      return "*";
    default:
      return undefined;
  }
}

/** Clock times in comments (the supplement "Portable Game Notation Specification and Implementation Guide: Additional tags"). */
const CLOCK = /\[%(clk|emt)\b([^\]]*)\]/g;
const TIME = /^(?:(?:(\d{1,5}):)?(\d{1,6}):)?(\d{1,8}(?:\.\d+)?)$/;

/** "1:02:03", "62:03" or "3723" in seconds; undefined for what is no time. */
export function readTime(text: string): number | undefined {
  const found = TIME.exec(text.trim());
  if (!found) return undefined;
  const [hours, minutes, seconds] = found.slice(1).map((part) => Number(part ?? 0));
  if (found[1] !== undefined && minutes > 59) return undefined;
  if (found[2] !== undefined && seconds >= 60) return undefined;
  return hours * 3600 + minutes * 60 + seconds;
}

/**
 * What programs write behind their own moves: "+0.35/20 5.1s" (evaluation, depth, time), or fields such as "d=25, mt=5100,
 * wv=0.35" (common practice, no source).
 */
const PROGRAM_COMMENT =
  /[-+]?(?:\d+\.\d\d|M\d+)\/\d+\s+\d+(?:\.\d+)?s\b|^(?=.*\bd=\d+)(?=.*\bmt=)(?=.*\bwv=).*/;

/** Splits movetext into the main line. `text` must have one character for each byte (Latin-1). */
export function readMainLine(text: string): MainLine {
  const moves: MoveToken[] = [];
  const clocks: (number | undefined)[] = [];
  const elapsed: (number | undefined)[] = [];
  let unreadClocks = 0;
  let programComments = 0;
  const line = (more: Pick<MainLine, "result" | "unclosed">): MainLine => ({
    moves,
    clocks,
    elapsed,
    unreadClocks,
    programComments,
    ...more,
  });
  let result: Result | undefined;
  let p = 0;
  const n = text.length;
  let lineStart = true;
  while (p < n) {
    const c = text[p];
    if (c === "\n") {
      lineStart = true;
      ++p;
    } else if (c === "%" && lineStart) {
      p = endOfLine(text, p);
    } else if (c <= " ") {
      ++p;
    } else if (c === "{") {
      const end = text.indexOf("}", p);
      if (end < 0) return line({ result, unclosed: { text: c, at: p } });
      if (moves.length > 0) {
        const comment = text.slice(p + 1, end);
        for (const [, name, said] of comment.matchAll(CLOCK)) {
          const time = readTime(said);
          if (time === undefined) ++unreadClocks;
          else (name === "clk" ? clocks : elapsed)[moves.length - 1] = time;
        }
        if (PROGRAM_COMMENT.test(comment)) ++programComments;
      }
      p = end + 1;
      lineStart = false;
    } else if (c === ";") {
      p = endOfLine(text, p);
    } else if (c === "(" || c === "[") {
      const promotion = PROMOTION.exec(text.slice(p, p + 4));
      const last = moves.at(-1);
      if (promotion && last && last.at + last.text.length === p && /[a-h][18]$/.test(last.text)) {
        moves[moves.length - 1] = { text: `${last.text}=${promotion[1]}`, at: last.at };
        p += promotion[0].length;
        continue;
      }
      const end = endOfSideLine(text, p);
      if (end < 0) return line({ result, unclosed: { text: c, at: p } });
      p = end;
      lineStart = false;
    } else if (c === "$") {
      for (++p; p < n && text[p] >= "0" && text[p] <= "9"; ++p);
    } else if (c === ")" || c === "]" || c === "}") {
      ++p;
    } else {
      lineStart = false;
      const at = p;
      while (p < n && text[p] > " " && !"{}()[];$".includes(text[p])) ++p;
      const found = takeToken(text.slice(at, p), at, moves);
      // a result may stand before the first move by mistake; after a move it ends the game
      if (found) {
        result = found;
        if (moves.length > 0) break;
      }
    }
  }
  return line({ result });
}

const endOfLine = (text: string, p: number) => {
  const end = text.indexOf("\n", p);
  return end < 0 ? text.length : end;
};

/** A promotion in brackets: "e8(Q)". */
const PROMOTION = /^\(=?([QRBNqrbn])\)/;

/** Where the side line at `p` ends, nested ones and comments included; -1 if it never closes. */
function endOfSideLine(text: string, p: number): number {
  const end = skipSideLine(text, p, true);
  // a semicolon that begins no comment must not hide the end
  return end < 0 ? skipSideLine(text, p, false) : end;
}

function skipSideLine(text: string, p: number, lineComments: boolean): number {
  const open = text[p];
  const close = open === "(" ? ")" : "]";
  for (let depth = 0; p < text.length; ++p) {
    const c = text[p];
    if (c === "{") {
      p = text.indexOf("}", p);
      if (p < 0) return -1;
    } else if (c === ";" && lineComments) {
      p = endOfLine(text, p);
    } else if (c === open) {
      ++depth;
    } else if (c === close && --depth === 0) {
      return p + 1;
    }
  }
  return -1;
}

/** Castling in letters or noughts; null moves as files have them; or something that names a square or two files. */
const MOVE_LIKE = /[a-h][1-8]|^[O0o]-[O0o](?:-[O0o])?|^[a-h]x?[a-h](?![a-z])|^(?:--|Z0|@@@@)$/;

/** A move in SAN as it should be written, castling left out. Most tokens are one, or a number and its dots. */
export const WELL_WRITTEN = /^(?:[KQRBN][a-h]?[1-8]?x?|(?:[a-h]x)?)[a-h][1-8](?:=[QRBN])?[+#]?$/;
const NUMBER = /^\d+\.*$/;

/** Takes a token with what is glued to it: appends its moves, or returns the result that it is. */
function takeToken(token: string, at: number, moves: MoveToken[]): Result | undefined {
  if (WELL_WRITTEN.test(token)) {
    moves.push({ text: token, at });
    return undefined;
  }
  if (NUMBER.test(token)) return undefined;
  const whole = resultOf(token);
  if (whole) return whole;
  // a result glued to the last move: "a5*", "Kf61-0"
  const glued = /^(.*[a-h][1-8](?:=?[QRBN])?[+#]?)(\*|1-0|0-1|1\/2-1\/2)$/.exec(token);
  if (glued) return takeToken(glued[1], at, moves) ?? resultOf(glued[2]);
  // "12.e4", "12...e5", "*1.": numbers and dots before (and between) moves; those of "e.p." mean nothing
  for (const match of token.replace(/(?<=[a-h][36])e\.p\.?$/, "").matchAll(/[^.]+/g)) {
    const part = match[0];
    if (/^\*?\d+$/.test(part)) continue;
    const result = resultOf(part);
    if (result) return result;
    if (/^[01O]-[01O]?$|^1\/2/.test(part) && !/^[O0]-[O0]$/.test(part)) continue; // a result cut short or misspelt
    if (MOVE_LIKE.test(part)) moves.push({ text: part, at: at + match.index });
  }
  return undefined;
}
