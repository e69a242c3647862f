// Whole sentences as people write them: what stands around a question, what happened told in clauses, and what is counted and
// not found.

import { describe, expect, it } from "vitest";

import { formatQuestion } from "../../src/query/language/ast.js";
import { standardCatalogue } from "../../src/query/language/catalogue.js";
import { QueryError } from "../../src/query/language/query-error.js";
import { readingsOf } from "../../src/query/language/parse.js";

const { known } = standardCatalogue();
const names = {
  isPlayer: (text: string) => /^marlow$/i.test(text),
  isEvent: () => false,
  isSite: () => false,
};
const best = (text: string) => readingsOf(text, known, names)[0];
const read = (text: string) => formatQuestion(best(text).question);
const fault = (text: string): QueryError => {
  try {
    readingsOf(text, known, names);
  } catch (thrown) {
    if (thrown instanceof QueryError) return thrown;
    throw thrown;
  }
  throw new Error(`understood: ${text}`);
};

describe("what stands around a question", () => {
  it.each([
    "I'd like to see games in which the defender held",
    "Could you please show me every game where the defender held",
    "For tomorrow's lesson I need endings where the defender held",
    "We are looking for cases in which the defender held, please",
    "Have you got any games in which the defender held?",
    "The defender held - are there any more of that sort?",
  ])("says nothing of games: %s", (text) => {
    expect(read(text)).toBe("outcome = held");
    expect(best(text).passed).toBeUndefined();
  });

  it.each([
    ["give me three draws", "defender-result = drew", ["three"]],
    [
      "My pupil resigns too soon, so show me games where the defender held",
      "outcome = held",
      ["My pupil resigns too soon, so"],
    ],
    ["attacker won, for example on time", "outcome = lost", ["for example on time"]],
    ["Marlow defending, results", 'defender-name contains "Marlow"', ["results"]],
    [
      "Did Marlow defend, and if so did he hold?",
      'defender-name contains "Marlow"',
      ["and if so did he hold"],
    ],
  ])("tells what the answers do not follow: %s", (text, canonical, passed) => {
    expect(read(text)).toBe(canonical);
    expect(best(text).passed).toEqual(passed);
  });

  it("keeps a reason that the question takes up", () => {
    expect(fault("My pupil erred twice, so show me more like that")).toBeInstanceOf(QueryError);
  });
});

describe("what happened, in clauses", () => {
  const ERRED = "to-move = defender and error != none";
  const GAVE_AWAY = "to-move = attacker and verdict = won and error = half";
  it.each([
    // how long, and of what
    ["attacker took more than 50 moves to win", "outcome = lost and length > 50"],
    ["attacker needs more than 50 moves to win", "verdict = won and dtm > 50"],
    ["defender made no mistake for 30 moves", "streak (to-move = defender and error = none) >= 30"],
    [
      "the defender was lost for at least 20 moves but drew",
      "held (verdict = won) for 20 moves and defender-result = drew",
    ],
    ["nobody blundered until move 30", "never (error != none and moves-in < 30)"],
    // soon after what stands before
    [
      "king in the corner, lost within ten moves of that",
      "corner-steps = 0 and outcome = lost and moves-left <= 10",
    ],
    ["reached the Philidor and won within 10 moves", "philidor and moves-left <= 10 and outcome = lost"],
    ["Philidor, then Szén within 5 moves", "philidor then within 5 moves szen"],
    [
      "mate in five, attacker needed another twenty moves",
      "verdict = won and dtm = 5 and moves-left >= 20 and outcome = lost",
    ],
    // what comes to an end, and what comes back
    ["defending rook on the 3rd, then driven off it", "(rook-board-rank = 3) then (not rook-board-rank = 3)"],
    [
      "Philidor, then he left it of his own accord",
      "(philidor and to-move = defender) then within 1 move (not philidor)",
    ],
    ["king in the corner, then on the edge", "(corner-steps = 0) then (king-rank = 1)"],
    [
      "missed a win and later another",
      `(${GAVE_AWAY.replace("= half", "!= none")}) then (${GAVE_AWAY.replace("= half", "!= none")})`,
    ],
    [
      "attacker let the win slip, got it back and let it slip again",
      `(${GAVE_AWAY}) then (to-move = defender and verdict = drawn and error != none) then (${GAVE_AWAY})`,
    ],
    // of whom it is said
    [
      "attacker drew with his rook on e1",
      "defender-result = drew and mostly (attacker-rook-board-rank = 1 and attacker-rook-board-file = e)",
    ],
    ["White, who had the bishop, erred", "attacker = white and turn = white and error != none"],
    ["the attacker, although he was winning, agreed to a draw", "final-verdict = won and ended-by = agreed"],
    [
      "thought for over ten minutes and then played the losing move",
      `to-move = defender and spent > 600 and error != none`,
    ],
    ["the defender was lost", "verdict = won"],
    ["the defender erred and the game was lost", `${ERRED} and outcome = lost`],
    [
      "the attacker was winning, then it was a draw, then he was winning again",
      "(verdict = won) then (verdict = drawn) then (verdict = won)",
    ],
    // what is denied
    ["a position from which the attacker cannot lose", "verdict != lost"],
    ["Black to play, and every move loses", "turn = black and to-move = defender and verdict = won"],
    ["all but one of the moves lose", "to-move = defender and verdict = drawn and only-move"],
    [
      "no check at all from the defender, drawn",
      "never (to-move = defender and kind = check) and defender-result = drew",
    ],
    [
      "rook lost to a fork or a skewer",
      'captured = "defender\'s rook" and final-verdict = won and (somewhere (fork = attacker) or somewhere (skewer = attacker))',
    ],
    ["apart from blitz and bullet", "not (pace = blitz or pace = bullet)"],
    ["not by agreement but by repetition", "not ended-by = agreed and ended-by = repetition"],
    [
      "won without a mistake or a check",
      "outcome = lost and attacker-errors = 0 and never (to-move = attacker and kind = check)",
    ],
    // one move alone
    [
      "the defender had only one move to save himself and it was a check",
      "to-move = defender and verdict = drawn and only-move and needed = check",
    ],
    [
      "a rook move wins, nothing else does",
      "to-move = attacker and verdict = won and only-move and needed = rook",
    ],
    [
      "exactly two winning moves, one of them a check",
      "to-move = attacker and verdict = won and keeping = 2 and holding = check",
    ],
    // the end
    ["lost on time although the board said draw", "ended-by = time and final-verdict = drawn"],
    [
      "bishop on the a1-c3 diagonal",
      [1, 2, 3].map((n) => `(bishop-board-rank = ${n} and bishop-board-file = ${" abc"[n]})`).join(" or "),
    ],
  ])("%s", (text, canonical) => {
    expect(read(text)).toBe(canonical);
  });

  it.each([
    ["atacker wno the game", "outcome = lost"],
    ["lsot on time", "ended-by = time"],
  ])("puts swapped letters right in short words too: %s", (text, canonical) => {
    expect(read(text)).toBe(canonical);
    expect(best(text).mended).toBeDefined();
  });

  it("an ending by capture ends in no other way: the rook offered for stalemate is meant", () => {
    expect(read("rook sacrificed and stalemate")).toBe("stalemate-resource and ended-by = stalemate");
  });

  it('counts the first ten moves alike behind "then"', () => {
    expect(read(`Philidor, then defender erred in the first ten moves`)).toBe(
      `philidor then (${ERRED} and moves-in < 10)`,
    );
  });
});

describe("what is counted, or is no fact, is refused with what can be asked", () => {
  it.each([
    ["how many mistakes does the attacker make on average", /averages/],
    ["do defenders lose more often in blitz", /comparison/],
    ["twice as many mistakes by the defender as by the attacker", /comparison/],
    ["draws broken down by rating", /groups/],
    ["which events had at least three of these endings", /event or a player/],
    ["defender lost this twice in the same tournament", /with each other/],
    ["longest run of only moves", /in a row/],
    ["nobody made a mistake for 30 moves", /both sides/],
    ["until move 20 the king was in the open", /up to a move/],
    ["he had been holding for 40 moves when he erred", /after so many moves/],
    ["rook checks from the side, all hold", /every move of a kind/],
    ["lost by an engine", /which side/],
    ["last round, attacker won", /which round/],
    ["cut off on a rank, only draw Kc8", /notation/],
    // told wherever it stands
    ["zzz qqq, on average", /averages/],
  ])("%s", (text, message) => {
    expect(fault(text).message).toMatch(message);
    expect(fault(text).hint).toMatch(/"|longside count/);
  });
});

describe("when, where and how it ended", () => {
  it.each([
    // the length of the ending, and not some position in its first moves
    ["drawn before move 30", "defender-result = drew and length < 30"],
    [
      "drawn, before move 30 the defender erred",
      "defender-result = drew and moves-in < 30 and to-move = defender and error != none",
    ],
    ["drawn by repetition before the twentieth move", "ended-by = repetition and length < 20"],
    [
      "which games had the defender's king mated on the edge before move 30",
      "ended-by = mate and outcome = lost and end (king-rank = 1) and length < 30",
    ],
    ["king in the corner, mated there", "end (corner-steps = 0) and ended-by = mate and outcome = lost"],
    ["defender blundered the rook right at the end", 'captured = "defender\'s rook" and final-verdict = won'],
    ["a stalemate trick that actually worked", "ended-by = stalemate"],
    ["attacker needed over forty moves to mate", "ended-by = mate and outcome = lost and length > 40"],
    ["Marlow had to defend, and did", 'defender-name contains "Marlow" and outcome = held'],
    ["did anybody ever lose this with the bishop's side?", "defender-result = won"],
  ])("%s", (text, canonical) => {
    expect(read(text)).toBe(canonical);
  });
});

describe("what is said of a move behind it", () => {
  it.each([
    [
      "the defender has just one drawing move, and it's a check",
      "to-move = defender and verdict = drawn and only-move and needed = check",
    ],
    [
      "just one winning move, and it is a rook move",
      "to-move = attacker and verdict = won and only-move and needed = rook",
    ],
    [
      "each and every check by the defender loses",
      "to-move = defender and possible = check and not holding = check",
    ],
    ["the bishop hung and nobody noticed it", "free-piece = bishop and error != none"],
    ["White still winning", "attacker = white and verdict = won"],
  ])("%s", (text, canonical) => {
    expect(read(text)).toBe(canonical);
  });

  it.each([
    ["the rook can simply take the bishop", /which piece can be taken/],
    ["mate threatened, only one move stops it", /stop a threat/],
    ["the winner had less than ten seconds on his clock", /by the side/],
  ])("is refused where no fact tells it: %s", (text, message) => {
    expect(fault(text).message).toMatch(message);
  });

  it("tells that a slip was mended", () => {
    const { question, mended } = best("attacker had less then ten seconds left");
    expect(formatQuestion(question)).toContain("< 10");
    expect(mended).toEqual([{ words: "less then", as: "less than" }]);
  });
});

describe("what is denied of several things", () => {
  it.each([
    ["without one slip", "errors = 0"],
    ["not one mistake by the defender", "defender-errors = 0"],
    [
      "defender to move, with neither a check nor a capture for him",
      "to-move = defender and not possible = check and not capture",
    ],
    [
      "king in the corner and neither pinned nor in zugzwang",
      "corner-steps = 0 and not pinned != none and not zugzwang",
    ],
    [
      "one winning move and it isn't a check",
      "to-move = attacker and verdict = won and only-move and not needed = check",
    ],
    [
      "attacker won unless the defender resigned",
      "outcome = lost and not (ended-by = resignation and outcome = lost)",
    ],
    ["king never touched the edge", "never (king-rank = 1)"],
  ])("%s", (text, canonical) => {
    expect(read(text)).toBe(canonical);
  });
});

describe("how long something was so, and what came back", () => {
  it.each([
    [
      "the defender had the second-rank defence, left it of his own accord, and was mated within the next fifteen moves",
      "(second-rank-defence and to-move = defender) then within 1 move (not second-rank-defence and moves-left <= 15) and ended-by = mate and outcome = lost",
    ],
    [
      "the attacker never let the win slip once he had it",
      "somewhere (verdict = won) and never (to-move = attacker and verdict = won and error != none)",
    ],
    ["drawn all the way until the last five moves", "never (verdict != drawn and moves-left > 5)"],
    ["Philidor, then lost within the next ten moves", "philidor and moves-left <= 10 and outcome = lost"],
    [
      "Cochrane, left it, then found it again before move forty",
      "rear-pin then (not rear-pin) then (rear-pin and moves-in < 40)",
    ],
    ["defender had the Philidor, left it and returned to it", "philidor then (not philidor) then philidor"],
    [
      "resigned with a stalemate trick that would have saved him",
      "ended-by = resignation and end (stalemate-resource)",
    ],
    [
      "rook dropped to a fork or skewer",
      'captured = "defender\'s rook" and final-verdict = won and (somewhere (fork = attacker) or somewhere (skewer = attacker))',
    ],
    ["king in the corner and it was still a forced win", "corner-steps = 0 and verdict = won"],
  ])("%s", (text, canonical) => {
    expect(read(text)).toBe(canonical);
  });
});
