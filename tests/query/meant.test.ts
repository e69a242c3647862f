// Questions in which something is easily lost in silence: colours of pieces, the order of things, whose move it is, dates,
// a word behind another; and questions that no fact answers, which have to say so and offer what works.

import { describe, expect, it } from "vitest";

import { formatQuestion } from "../../src/query/language/ast.js";
import { standardCatalogue } from "../../src/query/language/catalogue.js";
import { NO_FACTS } from "../../src/query/language/lexicon/no-facts.js";
import { QueryError } from "../../src/query/language/query-error.js";
import { readingsOf } from "../../src/query/language/parse.js";

const { known } = standardCatalogue();
const names = {
  isPlayer: (text: string) => /^(?:marlow|carlsen)$/i.test(text),
  isEvent: () => false,
  isSite: () => false,
};
const read = (text: string) => formatQuestion(readingsOf(text, known, names)[0].question);
const fault = (text: string): QueryError => {
  try {
    readingsOf(text, known, names);
  } catch (thrown) {
    if (thrown instanceof QueryError) return thrown;
    throw thrown;
  }
  throw new Error(`understood: ${text}`);
};

const KING = (piece: string, square: string) =>
  `${piece}-board-rank = ${square[1]} and ${piece}-board-file = ${square[0]}`;

describe("colours of pieces", () => {
  it.each([
    [
      "black king on g1 with the white king on g3",
      `(attacker = white and ${KING("king", "g1")} and ${KING("attacker-king", "g3")}) or ` +
        `(attacker = black and ${KING("attacker-king", "g1")} and ${KING("king", "g3")})`,
    ],
    [
      "white bishop on d5, white king on e6",
      `attacker = white and ${KING("bishop", "d5")} and ${KING("attacker-king", "e6")}`,
    ],
    ["white has the bishop, white king on e6", `attacker = white and ${KING("attacker-king", "e6")}`],
    // one position is asked for, and in it White's turn
    [
      "white king on e6 and black king on e8, white to move",
      `(attacker = black and ${KING("king", "e6")} and ${KING("attacker-king", "e8")} and turn = white) or ` +
        `(attacker = white and ${KING("attacker-king", "e6")} and ${KING("king", "e8")} and turn = white)`,
    ],
    // each of two is the defender's
    [
      "white king on a1 or black king on a8",
      `(attacker = black and ${KING("king", "a1")}) or (attacker = white and ${KING("king", "a8")})`,
    ],
    [
      "black king on e8 then black king on h8",
      `attacker = white and (${KING("king", "e8")}) then (${KING("king", "h8")})`,
    ],
    ["white attacking rook on a5", `attacker = white and ${KING("attacker-rook", "a5")}`],
    ["white had a passive rook", "attacker = black and rook-rank <= 2"],
    ["the attacker had a passive rook", "attacker-rook-rank <= 2"],
    ["attacker has an unprotected rook", "attacker-rook-guarded = 0"],
  ])("%s", (text, meant) => {
    expect(read(text)).toBe(meant);
  });

  it.each([
    ["bishop attacked on e4", `bishop-attacked and ${KING("bishop", "e4")}`],
    ["attacker's rook attacked on e4", `attacker-rook-attacked and ${KING("attacker-rook", "e4")}`],
    ["bishop pinned on the e-file", "bishop-pin != none and bishop-board-file = e"],
    ["both rooks on the d-file", "rook-board-file = d and attacker-rook-board-file = d"],
    ["Philidor on the d-file", "philidor and king-board-file = d"],
  ])("a place is the piece's that was spoken of: %s", (text, meant) => {
    expect(read(text)).toBe(meant);
  });

  it("where a move goes is not taken for the king's place", () => {
    expect(fault("rook gave check on the h-file").message).toMatch(/where a move goes/);
  });

  it("a colour that nothing is said of is not dropped", () => {
    expect(fault("White reached the Philidor").message).toMatch(/"White" would be lost/);
    expect(read("White reached the Philidor and won")).toBe("philidor and result = 1-0");
    expect(read("White to play since 2010")).toBe("turn = white and year >= 2010");
    // a fact of the defender's king alone is not taken for the attacker's
    expect(() => read("attacker's king near the corner")).toThrow(QueryError);
  });
});

describe("moments of one game", () => {
  const ERRED = (side: string) => `to-move = ${side} and error != none`;
  it.each([
    [
      "attacker blundered and the defender blundered",
      `somewhere (${ERRED("attacker")}) and somewhere (${ERRED("defender")})`,
    ],
    [
      "defender missed the draw and the attacker missed the win",
      "somewhere (to-move = defender and verdict = drawn and error != none) and " +
        "somewhere (to-move = attacker and verdict = won and error != none)",
    ],
    [
      "rook on the long side and rook on the short side",
      "somewhere (rook-side = long) and somewhere (rook-side = short)",
    ],
    ["attacker to move, rook on the long side", "to-move = attacker and rook-side = long"],
    // right after, answered: the other side's next move
    ["blunder right after a bishop move", RIGHT_AFTER("kind = bishop", "error != none")],
    ["check answered by a king move", RIGHT_AFTER("kind = check", "kind = king")],
    ["check answered by a blunder", RIGHT_AFTER("kind = check", "error != none")],
    ["mate threat parried with a check", "mate-threat and kind = check"],
    [
      "attacker erred right after a rook move",
      "(to-move = defender and kind = rook) then within 1 move (to-move = attacker and error != none)",
    ],
    [
      "attacker erred right after its own rook move",
      "(to-move = attacker and kind = rook) then within 1 move (to-move = attacker and error != none)",
    ],
    ["mistake one move before the Philidor", RIGHT_AFTER("error != none", "philidor")],
    ["after a check, the defender blundered", `(kind = check) then (${ERRED("defender")})`],
    // what is said of a step belongs to it
    ["Cochrane, then Philidor in the first ten moves", "rear-pin then (philidor and moves-in < 10)"],
    [
      "Cochrane, and then Philidor within the first 10 moves of the ending",
      "rear-pin then (philidor and moves-in < 10)",
    ],
    ["check, then a mistake in the first five moves", "(kind = check) then (error != none and moves-in < 5)"],
    ["Cochrane, then Philidor with the attacker to move", "rear-pin then (philidor and to-move = attacker)"],
    ["rook went to the long side", "(not rook-side = long) then (rook-side = long)"],
    ["rook went passive", "(not rook-rank <= 2) then (rook-rank <= 2)"],
    ["no checks were given in the whole ending", "never (kind = check)"],
    [
      "defender blundered after a bishop check",
      "(kind = bishop and kind = check) then (to-move = defender and error != none)",
    ],
    [
      "Szén reached but the attacker went wrong right away",
      "szen then within 1 move (to-move = attacker and error != none)",
    ],
    ["Philidor at once", "entry (philidor)"],
    [
      "lost with the king on the h-file and the rook on the g-file",
      "outcome = lost and mostly (king-board-file = h and rook-board-file = g)",
    ],
    [
      "drew with the second-rank defence and no mistakes",
      "defender-result = drew and mostly (second-rank-defence) and errors = 0",
    ],
    [
      "king driven from the centre to the edge within 12 moves",
      "king-in-the-open then within 12 moves (king-rank = 1)",
    ],
    [
      "attacker found every only move",
      "never (to-move = attacker and verdict = won and only-move and error != none)",
    ],
    ["attacker erred but the defender did not", "attacker-errors > 0 and defender-errors = 0"],
  ])("%s", (text, meant) => {
    expect(read(text)).toBe(meant);
  });

  it.each([
    "two blunders after Philidor",
    "Philidor, then two mistakes",
    "Philidor then second-rank defence for 20 moves",
    "three only-moves on the trot by the attacker, then a slip",
  ])("no order is made up for what is counted: %s", (text) => {
    expect(fault(text).message).toMatch(/before or after what is counted/);
  });
});

function RIGHT_AFTER(earlier: string, later: string): string {
  return ["attacker", "defender"]
    .map((side) => {
      const other = side === "attacker" ? "defender" : "attacker";
      return `(to-move = ${side} and ${earlier}) then within 1 move (to-move = ${other} and ${later})`;
    })
    .join(" or ");
}

describe("dates, numbers and ends of sentences", () => {
  it.each([
    ["in March 2014", 'date contains "2014.03"'],
    ["draws in May", 'defender-result = drew and date contains ".05."'],
    ["on 12 March 2014", 'date contains "2014.03.12"'],
    ["March 12th, 2014", 'date contains "2014.03.12"'],
    ["12.3.2014", 'date contains "2014.03.12"'],
    [
      "from October to December 2014",
      ["10", "11", "12"].map((m) => `date contains "2014.${m}"`).join(" or "),
    ],
    ["since November 2014", 'year > 2014 or date contains "2014.11" or date contains "2014.12"'],
    [
      "after 2010, before March 2014",
      'year > 2010 and (year < 2014 or date contains "2014.01" or date contains "2014.02")',
    ],
    ["games from nineteen ninety-five", "year = 1995"],
    ["in two thousand and ten", "year = 2010"],
    ["defender over two thousand five hundred", "defender-rating > 2500"],
    ["rating gap smaller than fifty", "rating-difference < 50 and rating-difference > -50"],
    ["held until move 60", "outcome = held and length >= 60"],
    [
      "held the second-rank defence until move 60",
      "outcome = held and second-rank-defence and moves-in >= 60",
    ],
    ["defender held until the last move", "outcome = held"],
    [
      "blunder in the first five moves after the ending arose",
      "first (error != none) within 5 moves of entry",
    ],
    ["rook on the long side,", "rook-side = long"],
    ["defender drew,, rook on the long side, ", "defender-result = drew and rook-side = long"],
    ["zugzwang!", "zugzwang"],
    ["how many times did the defender hold?", "outcome = held"],
    ["all draws but stalemates", "defender-result = drew and not ended-by = stalemate"],
    [
      "all games where the defender erred but held",
      "to-move = defender and error != none and outcome = held",
    ],
    ["either Philidor or Szén", "philidor or szen"],
    ["Carlsen never lost this", 'player contains "Carlsen" and not loser contains "Carlsen"'],
    ["fifty-move counter above 40", "halfmoves > 80"],
    ["the win took over 60 moves", "outcome = lost and length > 60"],
    ["3+2 games", 'time-control = "180+2"'],
    ["white was up a bishop and couldnt win", "attacker = white and outcome = held"],
    ["Grandmaster games only", "white-rating >= 2500 and black-rating >= 2500"],
    ["BLACK DEFENDER, PHILIDOR", "attacker = white and philidor"],
    ["CARLSEN DEFENDING", 'defender-name contains "CARLSEN"'],
    ["black to play and hold", "attacker = white and to-move = defender and verdict = drawn"],
    ["the last mistake was White's", "turn = white and decisive-mistake"],
    ["defender's king could not be driven to the edge", "never (king-rank = 1)"],
    ["event Tarn Cup and defender Marlow", 'event contains "Tarn Cup" and defender-name contains "Marlow"'],
  ])("%s", (text, meant) => {
    expect(read(text)).toBe(meant);
  });

  it("a king that ran from one corner to another was in two of them", () => {
    const meant = read("king ran to the other corner");
    expect(meant.match(/ then /g)).toHaveLength(4);
    expect(meant).toContain("corner-steps = 0 and not (king-board-file = h and king-board-rank = 8)");
  });

  it("a part of canonical form that ends with a comma is still one that stops in the middle", () => {
    expect(fault("rook-side = long, ").hint).toMatch(/words/);
  });
});

/** Of either side: what is so where each of them did something. */
const EITHER = (attacker: string, defender: string) => `((${attacker}) or (${defender}))`;

describe("who did it", () => {
  const MOVED = (rating: string) =>
    EITHER(
      `to-move = attacker and attacker-rating ${rating}`,
      `to-move = defender and defender-rating ${rating}`,
    );
  const LOST = (rating: string) =>
    EITHER(
      `defender-result = won and attacker-rating ${rating}`,
      `outcome = lost and defender-rating ${rating}`,
    );
  it.each([
    [
      "resigned in a drawn position, rated above 2400",
      `ended-by = resignation and final-verdict = drawn and ${LOST("> 2400")}`,
    ],
    ["a grandmaster resigned", `${LOST(">= 2500")} and ended-by = resignation`],
    ["flagged, rated under 2000", `ended-by = time and ${LOST("< 2000")}`],
    ["mated, rated above 2400", "ended-by = mate and outcome = lost and defender-rating > 2400"],
    ["blundered, rated above 2400", `error != none and ${MOVED("> 2400")}`],
    [
      "missed a win, rated above 2400",
      "to-move = attacker and verdict = won and error != none and attacker-rating > 2400",
    ],
    [
      "erred against a grandmaster",
      `error != none and ${EITHER(
        "to-move = attacker and defender-rating >= 2500",
        "to-move = defender and attacker-rating >= 2500",
      )}`,
    ],
    ["blunders, players over 2400", "error != none and (white-rating > 2400 or black-rating > 2400)"],
    ["Philidor, rated above 2400", "philidor and (white-rating > 2400 or black-rating > 2400)"],
    ["Black resigned, rated above 2400", "ended-by = resignation and result = 1-0 and black-rating > 2400"],
    // whose time ran out is told by whoever is named, and by nobody else
    ["won on time", "ended-by = time"],
    ["White won on time", "ended-by = time and result = 1-0"],
    ["defender won on time", "ended-by = time and defender-result = won"],
    [
      "won on time, rated above 2400",
      `ended-by = time and ${EITHER(
        "outcome = lost and attacker-rating > 2400",
        "defender-result = won and defender-rating > 2400",
      )}`,
    ],
    // a check is given by somebody where that is said
    ["held without a single check", "outcome = held and never (kind = check)"],
    ["held without giving a check", "outcome = held and never (to-move = defender and kind = check)"],
    ["held without checking", "outcome = held and never (to-move = defender and kind = check)"],
    ["held without being checked", "outcome = held and never (to-move = defender and in-check)"],
    [
      "held without a check by the attacker",
      "outcome = held and never (to-move = attacker and kind = check)",
    ],
    // the moves are spoken of, and not the game
    ["defender had one legal move and it lost", "to-move = defender and legal = 1 and verdict = won"],
    ["defender had two legal moves, and both lose", "to-move = defender and legal = 2 and verdict = won"],
    [
      "defender had one legal move and it drew",
      "to-move = defender and legal = 1 and verdict = drawn and blunder-potential = 0",
    ],
    ["defender had one legal move and lost", "to-move = defender and legal = 1 and outcome = lost"],
  ])("%s", (text, meant) => {
    expect(read(text)).toBe(meant);
  });

  it("a check without anybody is offered as that of the side before it", () => {
    const [{ guesses }] = readingsOf("held without a single check", known, names);
    expect(guesses.map(({ other }) => formatQuestion(other))).toContain(
      "outcome = held and never (to-move = defender and kind = check)",
    );
  });

  it("what is said of a side in capitals is nobody's name", () => {
    expect(read("White Won")).toBe("result = 1-0");
    expect(read("Black Defended")).toBe("attacker = white");
    expect(read("White Rook on d7")).toBe(`attacker = black and ${KING("rook", "d7")}`);
    expect(read("black Short")).toBe('black = "Short"');
  });
});

describe("the same said otherwise", () => {
  it.each([
    // what ends a part parts it, whatever the sign
    ["attacker white; defender drew", "attacker white, defender drew"],
    ["both 2700+; defender lost", "both 2700+, defender lost"],
    ["Black to play; only move", "Black to play, only move"],
    ["Blitz. Attacker to play. Mate in 5.", "blitz, attacker to play, mate in 5"],
    ["Zugzwang! Attacker won", "zugzwang, attacker won"],
    ["def. Marlow", "def Marlow"],
    // every way to name a side stands wherever a pattern has that side
    ["attacking side hung his rook", "attacker hung his rook"],
    ["lower-rated attacking side won", "lower-rated attacker won"],
    ["2700+ defending side lost Philidor", "2700+ defender lost Philidor"],
    ["the side with the bishop forks king and rook", "the attacker forks king and rook"],
    ["fork or skewer by the stronger side", "fork or skewer by the attacker"],
    ["stronger side to move and win, black king on g8", "attacker to move and win, black king on g8"],
    // numbers in words and in digits
    ["attacker erred three times or more", "attacker erred 3 times or more"],
    // capitals of titles
    ["Grandmasters Over 2600 On The Defending Side", "grandmasters over 2600 on the defending side"],
    ["Marlow Defended With His King In The Corner", "Marlow defended with his king in the corner"],
    // the circumstances of a game stand anywhere
    ["Marlow lost as the defender in blitz", "blitz, Marlow lost as the defender"],
    ["Philidor, attacker to play in blitz", "Philidor, attacker to play, pace = blitz"],
    ["Cochrane for whole ending", "Cochrane for the whole ending"],
    ["rated above 2400, resigned", "a player over 2400 resigned"],
    ["one move draws, defender to play", "defender to play, one move draws"],
  ])("%s", (text, other) => {
    const words = (question: string) => question.replace(/[()]/g, "").split(/ and /).sort();
    expect(words(read(text))).toEqual(words(read(other)));
  });

  it.each([
    [
      "defender never blundered in a drawn position",
      "to-move = defender and error != none and verdict = drawn",
    ],
    [
      "attacker made no mistakes in the Philidor position",
      "to-move = attacker and error != none and philidor",
    ],
    ["defender never erred in time trouble", "to-move = defender and error != none and clock < 60"],
  ])("no mistake there is none of those, and not none at all: %s", (text, never) => {
    expect(read(text)).toBe(`never (${never})`);
  });

  it("what somebody played in is no place of mistakes", () => {
    expect(read("attacker made no mistakes in blitz")).toBe("attacker-errors = 0 and pace = blitz");
  });

  it.each([
    ["defender found the only winning move", /what the attacker does/],
    ["attacker's king left the corner", /what the defender does/],
    ["attacker overlooked the only drawing move", /what the defender does/],
  ])("what one side alone can do is not said of the other: %s", (text, message) => {
    expect(fault(text).message).toMatch(message);
  });

  it("an opponent is whoever is named", () => {
    expect(read("stalemate trick against a 2500+ defender")).toBe(
      "stalemate-resource and defender-rating >= 2500",
    );
    expect(read("White never had a winning position")).toBe(
      "(attacker = white and never (verdict = won)) or (attacker != white and never (verdict = lost))",
    );
  });

  it("a side of which nothing is said is not lost", () => {
    expect(fault("defender in blitz").message).toMatch(/"defender".*lost/);
    expect(read("defender in blitz held")).toBe("pace = blitz and outcome = held");
    expect(read("Marlow attacker 2005-2015")).toBe('attacker-name contains "Marlow" and year = 2005..2015');
  });

  it("no check wins: none of those that there are", () => {
    expect(read("no check wins for the attacker")).toBe(
      "to-move = attacker and verdict = won and not holding = check",
    );
  });
});

describe("two of a kind", () => {
  const MISSED = (distance: number) =>
    `to-move = attacker and verdict = won and dtm = ${distance} and error != none`;
  it.each([
    ["missed mate in 3 and then mate in 5", `(${MISSED(3)}) then (${MISSED(5)})`],
    ["mate in 3 missed and then mate in 5", `(${MISSED(3)}) then (${MISSED(5)})`],
    ["missed mate in two and mate in three", `somewhere (${MISSED(2)}) and somewhere (${MISSED(3)})`],
    [
      "mate in two and mate in three",
      "somewhere (verdict = won and dtm = 2) and somewhere (verdict = won and dtm = 3)",
    ],
    [
      "missed a win and then a draw",
      "(to-move = attacker and verdict = won and error != none) then " +
        "(to-move = defender and verdict = drawn and error != none)",
    ],
    [
      "missed a win and the draw was agreed",
      "to-move = attacker and verdict = won and error != none and ended-by = agreed",
    ],
    [
      "missed a win and drew",
      "to-move = attacker and verdict = won and error != none and defender-result = drew",
    ],
  ])("%s", (text, meant) => {
    expect(read(text)).toBe(meant);
  });

  it("what a verb was taken to be said of too is told", () => {
    const [{ mended }] = readingsOf("missed mate in 3 and then mate in 5", known, names);
    expect(mended).toEqual([{ words: "mate in 5", as: "missed mate in 5" }]);
  });

  it.each([
    ["king on e6 and king on e8", "king", "e6", "e8"],
    ["kings on e6 and e8", "king", "e6", "e8"],
    ["rook on a7, rook on f1", "rook", "a7", "f1"],
  ])("one position has two kings and two rooks: %s", (text, piece, one, two) => {
    const way = (his: string, its: string) => `(${KING(piece, his)} and ${KING(`attacker-${piece}`, its)})`;
    expect(read(text)).toBe(`${way(one, two)} or ${way(two, one)}`);
  });
});

describe("pieces and squares as scores write them", () => {
  const MEN = [
    KING("attacker-king", "e6"),
    KING("attacker-rook", "a7"),
    KING("bishop", "d5"),
    KING("king", "e8"),
    KING("rook", "f1"),
  ].join(" and ");
  it.each([
    ["Kf8, Philidor", `${KING("king", "f8")} and philidor`],
    ["white to move, Kf8, Rd7", `turn = white and ${KING("king", "f8")} and ${KING("rook", "d7")}`],
    ["Ke6 Bd5 Ra7 against Ke8 Rf1", MEN],
    ["White: Ke6, Ra7, Bd5; Black: Ke8, Rf1", `attacker = white and ${MEN}`],
    ["black Kf8 and white Kf6", read("black king on f8 and white king on f6")],
  ])("%s", (text, meant) => {
    expect(read(text)).toBe(meant);
  });

  it.each(["missed Rd7", "Rd7 was the only move", "won after Kf6", "Kf8 loses"])(
    "a move is none of them: %s",
    (text) => {
      expect(fault(text).message).toMatch(/where a move goes/);
    },
  );

  it.each([
    "rook sac that leads to stalemate",
    "rook sacrifice leading to stalemate",
    "rook sac for stalemate",
  ])("%s", (text) => {
    expect(read(text)).toBe("to-move = attacker and stalemate-resource");
  });
  it("a trick that was overlooked was the defender's", () => {
    expect(read("rook sac that leads to stalemate was overlooked")).toBe(
      "to-move = defender and stalemate-resource and error != none",
    );
  });
});

describe("slips", () => {
  it.each([
    ["atacker missed a win", "attacker missed a win", [["atacker", "attacker"]]],
    ["Atackers who missed a win", "attackers who missed a win", [["Atackers", "attackers"]]],
    [
      "defnder held, pinned bishp",
      "defender held, pinned bishop",
      [
        ["defnder", "defender"],
        ["bishp", "bishop"],
      ],
    ],
    [
      "the atacker's bishp was lost",
      "the attacker's bishop was lost",
      [
        ["atacker", "attacker"],
        ["bishp", "bishop"],
      ],
    ],
    ["philidro held", "philidor held", [["philidro", "philidor"]]],
  ])("%s", (text, right, slips) => {
    const [{ question, mended }] = readingsOf(text, known, names);
    expect(formatQuestion(question)).toBe(read(right));
    expect(mended).toEqual(slips.map(([words, as]) => ({ words, as })));
  });

  it.each([
    // another word of the language, a name, and one that may be several
    "a match that was drawn",
    "drawn in the last week",
    "games that Atacker won",
    "defender frobnicated",
  ])("none is made up: %s", (text) => {
    expect(() => read(text)).toThrow(QueryError);
  });
});

describe("whose king or rook it is", () => {
  const EDGE =
    "(attacker-king-board-file = a or attacker-king-board-file = h or attacker-king-board-rank = 1 or attacker-king-board-rank = 8)";
  it.each([
    // the side stands within what was done
    ["attacker lost the rook and his king was on the edge", `captured = "attacker's rook" and ${EDGE}`],
    ["attacker lost the bishop and his king was on the edge", `captured = "attacker's bishop" and ${EDGE}`],
    [
      "defender lost the rook and his king was on the edge",
      'captured = "defender\'s rook" and final-verdict = won and king-rank = 1',
    ],
    ["won with his king on the edge", `outcome = lost and mostly ${EDGE}`],
    // a colour or a player may have either side
    [
      "white lost and his king was on h8",
      `result = 0-1 and ((attacker = white and ${KING("attacker-king", "h8")}) or (attacker != white and ${KING("king", "h8")}))`,
    ],
    [
      "marlow lost and his king was on the edge",
      `loser contains "marlow" and ((attacker-name contains "marlow" and ${EDGE}) or (defender-name contains "marlow" and king-rank = 1))`,
    ],
  ])("%s", (text, canonical) => {
    expect(read(text)).toBe(canonical);
  });
});

describe("steps of a course between commas", () => {
  it.each([
    ["drawn, then lost, then drawn", "(verdict = drawn) then (verdict = won) then (verdict = drawn)"],
    ["drawn, lost, then drawn", "(verdict = drawn) then (verdict = won) then (verdict = drawn)"],
    ["won, drawn, won", "(verdict = won) then (verdict = drawn) then (verdict = won)"],
    ["won, then drawn, won again", "(verdict = won) then (verdict = drawn) then (verdict = won)"],
    ["was lost, then held", "verdict = won and outcome = held"],
    ["Philidor, Cochrane, then Szén", "philidor then rear-pin then szen"],
    ["won, drawn", "outcome = lost or defender-result = drew"],
  ])("%s", (text, canonical) => {
    expect(read(text)).toBe(canonical);
  });
});

describe("what can be of the game or of the position", () => {
  it.each([
    [
      "king on h8, won?",
      `${KING("king", "h8")} and verdict = won`,
      `${KING("king", "h8")} and outcome = lost`,
    ],
    ["is Philidor drawn?", "philidor and verdict = drawn", "philidor and defender-result = drew"],
    ["kings on the same file", "kings-files-apart = 0", "king-board-file = attacker-king-board-file"],
  ])("%s", (text, canonical, other) => {
    const [{ question, guesses }] = readingsOf(text, known, names);
    expect(formatQuestion(question)).toBe(canonical);
    expect(guesses.map((guess) => formatQuestion(guess.other))).toContain(other);
  });
});

describe("what no fact tells", () => {
  it.each([
    ["bishop given up for the rook", /first capture ends/],
    ["defender gave up the rook for the bishop", /first capture ends/],
    ["the winner's king was on the edge", /by its side/],
    ["easy draws", /how easy/],
    ["the last move was a blunder", /last of a game/],
    ["king in the other corner", /which corner/],
    ["white lost right after a bishop move", /right before the end/],
    ["right after a bishop move", /has to be told/],
    ["played on a Sunday", /day of the week/],
    ["attacker offered a draw", /offers of a draw/],
    ["drawn without a single inaccuracy", /counts as no mistake/],
    ["since 12 March 2014", /compared by the day/],
  ])("%s", (text, message) => {
    expect(fault(text).message).toMatch(message);
  });

  it("every question that is offered instead is understood", () => {
    const hints = [
      ...NO_FACTS.map(({ refused }) => refused![1]),
      fault("right after a bishop move").hint,
      fault("white lost right after a bishop move").hint,
      fault("two blunders after Philidor").hint,
      fault("White reached the Philidor").hint,
    ];
    const offered = hints.flatMap((hint) =>
      [...hint.matchAll(/(\w+ ~ )?"([^"]+)"/g)].map(([whole, fact, question]) => (fact ? whole : question)),
    );
    expect(offered.length).toBeGreaterThan(40);
    for (const question of offered) expect(() => read(question), question).not.toThrow();
  });
});
