// The question language: what is said in words means what its canonical form says, what is printed reads back the same,
// whom a word is about, errors shown in their place.

import fc from "fast-check";
import { describe, expect, it } from "vitest";

import { type Question, aboutEndings, formatQuestion } from "../../src/query/language/ast.js";
import { canonicalName, standardCatalogue } from "../../src/query/language/catalogue.js";
import { QueryError } from "../../src/query/language/query-error.js";
import type { Phrase } from "../../src/query/language/lexicon/phrase.js";
import { PHRASES } from "../../src/query/language/lexicon/phrases.js";
import { parseQuestion, readingsOf } from "../../src/query/language/parse.js";
import { vocabularyWords } from "../../src/query/language/categories.js";
import { spelled } from "../../src/query/language/phrase-examples.js";
import { FACTS, QUANTIFIERS } from "../../src/query/language/vocabulary.js";

const catalogue = standardCatalogue();
const parse = (text: string) => parseQuestion(text, catalogue.known);
const canonical = (text: string) => formatQuestion(aboutEndings(parse(text)));

describe("questions", () => {
  it.each([
    ["defender drew with the rook on the long side", "defender-result = drew and mostly (rook-side = long)"],
    [
      "the defender held, rook on the short side, defender to move",
      "outcome = held and somewhere (rook-side = short and to-move = defender)",
    ],
    [
      "second-rank defence for 30 moves against a stronger player",
      "held second-rank-defence for 30 moves and rating-difference > 0",
    ],
    ["reached Szén", "somewhere (szen)"],
    ["Cochrane or Schmidt", "somewhere (rear-pin or second-rank-defence)"],
    ["year 2010..2015 and white ~ vast", 'year = 2010..2015 and white contains "vast"'],
    ["defender-rating between 2200 and 2500", "defender-rating = 2200..2500"],
    ["never (rook on the short side)", "never (rook-side = short)"],
    ["at entry attacker to move", "entry (to-move = attacker)"],
    [
      "throughout (verdict = drawn), final verdict won",
      "throughout (verdict = drawn) and final-verdict = won",
    ],
    ["king on the b-file, rook on the third rank", "somewhere (king-board-file = b and rook-board-rank = 3)"],
    [
      "outcome = lost or (outcome = held and year > 2000)",
      "outcome = lost or (outcome = held and year > 2000)",
    ],
    ["not (outcome = lost)", "not outcome = lost"],
    ["ended by fifty moves", "ended-by = fifty moves"],
    ["", "everything"],
  ])("%s", (text, wanted) => {
    expect(canonical(text)).toBe(wanted);
    expect(canonical(wanted)).toBe(wanted);
  });

  it.each([
    ["dfender drewz", 0, /defender/],
    ["outcome = hold", 10, /held/],
    ["rook on the lon side", 12, /long/],
    ["king-rank <", 11, /number/],
    ["rook-side > long", 10, /= or !=/],
    ["(outcome = held", 0, /closing bracket/],
    ["outcome = held)", 14, /not opened/],
    ["year 2015..2010", 5, /2010..2015/],
    ["white = Orrin Vastrel", 14, /quote/],
    ["outcome = held, ", 16, /words/],
  ])("points at the fault in: %s", (text, at, hint) => {
    try {
      parse(text);
      expect.fail("it was understood");
    } catch (thrown) {
      expect(thrown).toBeInstanceOf(QueryError);
      const fault = thrown as QueryError;
      expect(fault.at).toBe(at);
      expect(fault.hint).toMatch(hint);
      expect(fault.pointer().split("\n")[1].indexOf("^")).toBe(at);
    }
  });

  const names = {
    isPlayer: (text: string) => /^(?:(?:orla )?marlow|brandt)$/i.test(text),
    isEvent: (text: string) => /^harbour league$/i.test(text),
    isSite: (text: string) => /^tarn$/i.test(text),
  };

  it("nothing that people say stands twice with the same meaning", () => {
    const said = PHRASES.flatMap(({ say, means }) =>
      say.map((text) => `${text} => ${JSON.stringify(means)}`),
    );
    expect(said.filter((one, place) => said.indexOf(one) !== place)).toEqual([]);
  });
  it.each(PHRASES.map(({ say }) => [spelled(say[0]), say] as const))(
    "every way to say %s means the same",
    (_, patterns) => {
      const read = (text: string) =>
        readingsOf(text, catalogue.known, names).map(({ question }) => formatQuestion(question));
      // what needs a number that its fact can have, or somebody to be about, is read in sentences below
      const readable = patterns
        .map((pattern) => spelled(pattern))
        .filter((text) => {
          try {
            return read(text).length > 0;
          } catch {
            return false;
          }
        });
      const [first] = readable;
      for (const text of readable) expect(read(text), text).toContain(read(first)[0]);
    },
  );

  it("nearly every way to say something is read by itself", () => {
    // some are said of a player or a colour alone, and need one
    const needsNobody = (means: Phrase["means"]) =>
      typeof means === "string"
        ? means !== "everything"
        : Boolean(means.nobody ?? means.side ?? means.defender);
    const saying = PHRASES.filter(
      ({ means, refusedUnsaid, refusedAlone }) => !refusedUnsaid && !refusedAlone && needsNobody(means),
    );
    const unread = saying
      .flatMap(({ say }) => say.map((pattern) => spelled(pattern)))
      .filter((text) => {
        try {
          return readingsOf(text, catalogue.known, names).length === 0;
        } catch {
          return true;
        }
      });
    expect(unread.length, unread.join("\n")).toBeLessThan(30);
  });

  it.each([
    ["defender held the second-rank defence", "outcome = held and second-rank-defence"],
    ["White won against a stronger player", "result = 1-0 and black-rating > white-rating"],
    [
      "attacker errs, held against a stronger player",
      "to-move = attacker and error != none and outcome = held and rating-difference > 0",
    ],
    ["Philidor, Szén or Cochrane, attacker won", "(philidor or szen or rear-pin) and outcome = lost"],
    ["Philidor or Szén and defender held", "(philidor or szen) and outcome = held"],
    ["games of 2012 and 2015", "year = 2012 or year = 2015"],
    ["defender to move, a draw", "to-move = defender and verdict = drawn"],
    ["White erred", "turn = white and error != none"],
    ["rook on the long side for ten moves", "held (rook-side = long) for 10 moves"],
    [
      "held the second-rank defence for 30 moves against a stronger player",
      "held second-rank-defence for 30 moves and rating-difference > 0",
    ],
    ["held second-rank defence for at least 10 moves", "held second-rank-defence for 10 moves"],
    [
      "Szén within 5 moves of Philidor, defender held",
      "philidor then within 5 moves szen and outcome = held",
    ],
    [
      "Philidor, then second-rank defence, defender held",
      "philidor then second-rank-defence and outcome = held",
    ],
    ["a waiting move by the defender", "to-move = defender and waiting-move"],
    ["left Szén by check, defender lost", "left szen by (kind = check) and outcome = lost"],
    ["the bishop pins the rook, in check", "rook-pin = diagonal and in-check"],
    ["king cut off on the second rank", "king-cut-off = rank and attacker-rook-board-rank = 2"],
    ["held for 30 moves", "outcome = held and length >= 30"],
    ["reached Szén from the third-rank defence", "third-rank-defence then within 10 moves szen"],
    [
      "reached Szén from the third-rank defence within 3 moves",
      "third-rank-defence then within 3 moves szen",
    ],
    [`left "rear pin" by the king's move`, "left rear-pin by (kind = king)"],
    ["reached szen by a rook's move", "reached szen by (kind = rook)"],
    ["reached Szén", "szen"],
    ["first error within 5 moves of entering Philidor", "first (error != none) within 5 moves of philidor"],
    ["first error within 1 move of the start", "first (error != none) within 1 move of entry"],
    ["first-rank defence", "first-rank-defence"],
    ["not rear pin then within 2 moves philidor", "not (rear-pin then within 2 moves philidor)"],
    [
      "third rank then (king on edge, defender to move) then Szén, attacker won",
      "third-rank-defence then (king-rank = 1 and to-move = defender) then szen and outcome = lost",
    ],
    [
      "like 8/2R5/8/1r6/4b3/4k3/8/3K4 b - - 0 1 within 3 steps, drew",
      'like "8/2R5/8/1r6/4b3/4k3/8/3K4 b" within 3 and defender-result = drew',
    ],
    ["defender errs with a waiting move", "to-move = defender and error != none and waiting-move"],
    ["kind check, possible = mate block", "kind = check and possible = mate block"],
    ["defender lost in the Philidor position", "outcome = lost and philidor"],
    [
      "second-rank defence for 30 moves against a stronger player",
      "held second-rank-defence for 30 moves and rating-difference > 0",
    ],
    ["attacker won against a stronger player", "outcome = lost and rating-difference < 0"],
    [
      "attacker won, Philidor, against a stronger player",
      "outcome = lost and philidor and rating-difference < 0",
    ],
    ["everything, attacker white", "attacker = white"],
    ["not everything", "not everything"],
    ["white Vastrel", 'white = "Vastrel"'],
    ["white 'Vastrel, Orla'", 'white = "Vastrel, Orla"'],
    ["event “Tarn Cup”", 'event = "Tarn Cup"'],
    ["rook on the king's file", "rook-side = king's file"],
    ["missed a win in 2010", "to-move = attacker and verdict = won and error != none and year = 2010"],
    ["defender-rating < attacker-rating", "defender-rating < attacker-rating"],
    ["mostly (rook on the long side)", "mostly (rook-side = long)"],
  ])("reads %s", (said, plain) => {
    expect(formatQuestion(parse(said))).toBe(plain);
  });

  it.each([
    ["king-file = 7", /king-file is never that: it is from 1 to 4/, /turned/],
    ["king-rank = 12", /never that/, /ranks 1 to 4/],
    ["white vastrel", /vastrel/, /./],
    ["second-rank defence hekd", /"hekd"/, /second-rank-defence\. did you mean "second-rank defence held"/],
    ["rook on the lomg side", /"lomg"/, /rook on the long side/],
    ["queen against rook", /Q v R is another ending/, /--target "Q v R"/],
    ["defender-rating > pace", /cannot be compared/, /numbers/],
  ])("refuses %s with a hint", (said, message, hint) => {
    expect(() => parse(said)).toThrow(message);
    try {
      parse(said);
    } catch (thrown) {
      expect((thrown as QueryError).hint).toMatch(hint);
    }
  });

  it("offers what remains of a question without what is not understood, slips mended", () => {
    const hint = (text: string) => {
      try {
        readingsOf(text, standardCatalogue().known);
      } catch (thrown) {
        return (thrown as QueryError).hint;
      }
      return "understood";
    };
    expect(hint("defender hekd in blitz")).toBe('did you mean "defender held in blitz"?');
    expect(hint("defender hwld, zzz qqq, in blitz")).toContain(
      'without "zzz qqq": "defender held, in blitz"',
    );
    // a part of a condition left out would be another one
    for (const text of [
      "bishop pinned for at zzz ten moves",
      "games with two queens",
      "not zzz, defender drew",
    ])
      expect(hint(text)).not.toContain("without");
    // an example holds the word that was asked about
    expect(hint("the rook went away")).toMatch(/what is said with "away": "[^"]*away/);
  });

  it.each([
    ["black king on the edge", "attacker = white and somewhere (king-rank = 1)"],
    ["white king in the corner", "attacker = black and somewhere (corner-steps = 0)"],
    ["white rook pinned", "attacker = black and somewhere (rook-pin != none)"],
    [
      "white bishop on d5",
      "attacker = white and somewhere (bishop-board-rank = 5 and bishop-board-file = d)",
    ],
    ["weaker side threw it away", "somewhere (to-move = defender and error != none)"],
    ["White threw it away", "somewhere (turn = white and error != none)"],
  ])("the colour of a piece, and who did something, are never lost: %s", (text, canonical) => {
    expect(formatQuestion(aboutEndings(readingsOf(text, standardCatalogue().known)[0].question))).toBe(
      canonical,
    );
  });

  it("offers a name that a misspelt one may be, and no question that nothing answers", () => {
    const hint = (said: string, answers: (question: string) => boolean) => {
      const known = {
        ...names,
        near: (word: string) => (word === "Marlov" ? ["Marlow"] : []),
        answers: (question: Question) => answers(formatQuestion(question)),
      };
      try {
        readingsOf(said, catalogue.known, known);
      } catch (thrown) {
        return (thrown as QueryError).hint;
      }
      return undefined;
    };
    expect(hint("Marlov drew", () => true)).toBe('did you mean "Marlow drew"?');
    expect(hint("Marlov drew", () => false)).not.toContain("Marlow");
    expect(hint("defender hekd", () => true)).toContain('"defender held"');
    expect(hint("defender hekd", (question) => question !== "outcome = held")).not.toContain("held");
  });

  it("a negation by itself speaks of the whole ending, beside a condition of the same position", () => {
    const scoped = (said: string) => formatQuestion(aboutEndings(parse(said)));
    expect(scoped("not Philidor")).toBe("never (philidor)");
    expect(scoped("defender held, not Philidor")).toBe("outcome = held and never (philidor)");
    expect(scoped("Philidor, not in check")).toBe("somewhere (philidor and not in-check)");
  });

  it.each([
    ["won", ["outcome = lost", "verdict = won"]],
    ["drawn", ["defender-result = drew", "verdict = drawn"]],
    [
      "rook on the seventh rank",
      [
        "rook-board-rank = 7",
        "rook-rank = 7",
        "(attacker = black and rook-board-rank = 7) or (attacker = white and rook-board-rank = 2)",
      ],
    ],
  ])("tells what else %s can mean", (said, meanings) => {
    const [reading] = readingsOf(said, catalogue.known);
    const others = reading.guesses.map(({ other }) => formatQuestion(other));
    expect([formatQuestion(reading.question), ...others]).toEqual(meanings);
  });

  it("finds names however they are written, and whom they are about", () => {
    const read = (text: string) => formatQuestion(readingsOf(text, catalogue.known, names)[0].question);
    expect(read("Marlow drew")).toBe('player contains "Marlow" and result = 1/2-1/2');
    expect(read("marlow against brandt")).toBe('player contains "marlow" and player contains "brandt"');
    expect(read("Orla Marlow defending")).toBe('defender-name contains "Orla Marlow"');
    expect(read("Brandt erred")).toBe('mover contains "Brandt" and error != none');
    expect(read("Harbour League games")).toBe('event contains "Harbour League"');
    // an event does not defend, though it may bear a player's name
    expect(() => read("Harbour League defending")).toThrow(/nobody of that name/);
    expect(read("played in Tarn")).toBe('site contains "Tarn"');
  });

  it("every name is one thing only", () => {
    const names = [
      ...FACTS.map((fact) => fact.name),
      ...catalogue.setUps.map((one) => canonicalName(one.name)),
      ...Object.keys(QUANTIFIERS),
    ];
    expect(new Set(names).size).toBe(names.length);
  });

  const leaf: fc.Arbitrary<Question> = fc.oneof(
    fc.constantFrom(...FACTS).chain((fact): fc.Arbitrary<Question> => {
      const compare = (value: string | number) => ({
        kind: "compare" as const,
        fact,
        operator: "=" as const,
        value,
      });
      if (fact.type === "number")
        return fc.integer({ min: fact.least ?? 0, max: fact.most ?? 3000 }).map(compare);
      if (fact.type === "flag") return fc.constantFrom(0, 1).map(compare);
      if (fact.type === "text") return fc.stringMatching(/^[A-Za-z"'\\][A-Za-z ,."'\\]{0,10}$/).map(compare);
      return fc.constantFrom(...fact.values!.map((value) => value.stored)).map(compare);
    }),
    fc.constantFrom(...new Set(catalogue.known.values())),
  );
  const tree = fc.letrec<{ node: Question }>((tie) => ({
    node: fc.oneof(
      { maxDepth: 4 },
      leaf,
      fc.record({ kind: fc.constant("not" as const), part: tie("node") }),
      fc.record({
        kind: fc.constantFrom("and" as const, "or" as const),
        parts: fc.array(tie("node"), { minLength: 2, maxLength: 3 }),
      }),
    ),
  })).node;

  it("printed in canonical form, any question reads back the same", () => {
    fc.assert(
      fc.property(tree, (question) => {
        const text = formatQuestion(question);
        expect(formatQuestion(parse(text))).toBe(formatQuestion(parse(formatQuestion(parse(text)))));
        // nothing is lost but repetitions and brackets that change nothing
        const said = (one: string) =>
          [...new Set(one.split(/ and | or |\(|\)|not /))].filter((part) => part !== "").sort();
        expect(said(formatQuestion(parse(text)))).toEqual(said(text));
      }),
      { numRuns: 1000 },
    );
  });

  it("any words of the vocabulary are understood or refused", () => {
    const words = [
      ...vocabularyWords(),
      "szen",
      "philidor",
      "10",
      "2010",
      "(",
      ")",
      ",",
      "=",
      "defender-rating",
    ];
    fc.assert(
      fc.property(fc.array(fc.constantFrom(...words), { maxLength: 40 }), (said) => {
        try {
          expect(readingsOf(said.join(" "), catalogue.known).length).toBeGreaterThan(0);
        } catch (thrown) {
          expect(thrown).toBeInstanceOf(QueryError);
        }
      }),
      { numRuns: 500 },
    );
  });

  it.each([
    ["reached (".repeat(400), /./],
    ["(".repeat(2000), /./],
    ["not ".repeat(600), /./],
    [Array(1000).fill("year = 2000").join(" or "), /more than 4,000 characters/],
    [Array.from({ length: 150 }, (_, n) => `year = ${1800 + n}`).join(" or "), /more than 100 conditions/],
    ["(".repeat(3000) + "year = 2000" + ")".repeat(3000), /more than 4,000 characters/],
    ["rook and ".repeat(220), /more than 200 words/],
    ["not (".repeat(60) + "szen" + ")".repeat(60), /too deep|deep/],
  ])("long nonsense is refused: %.20s", (text, message) => {
    expect(() => parse(text)).toThrow(message);
  });

  it.each(["constructor", "__proto__", "defender constructor", "constructor = 3", "toString lost"])(
    "refuses %s, which every object of the language knows",
    (said) => {
      expect(() => parse(said)).toThrow(QueryError);
    },
  );

  it("any text is understood or refused with a place inside it", () => {
    fc.assert(
      fc.property(fc.string({ maxLength: 60 }), (text) => {
        try {
          parse(text);
        } catch (thrown) {
          expect(thrown).toBeInstanceOf(QueryError);
          expect((thrown as QueryError).at).toBeLessThanOrEqual(text.length);
        }
      }),
      { numRuns: 1000 },
    );
  });
});
