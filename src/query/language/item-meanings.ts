// What a single item of a question in words means where it stands: whom it is about, which of its meanings the words around
// it speak for, and which others are to be offered.

import type { Question } from "./ast.js";
import {
  type ConditionItem,
  type Item,
  ItemCursor,
  asksWho,
  attackersPieces,
  isOwnPieceOf,
  ofAttackers,
  saysDistance,
  saysTurn,
  withOwnersInPlace,
} from "./items.js";
import { type Part, isCircumstance, part } from "./joining.js";
import { type Subject, byEither, filledIn, meantBy, subjectOf } from "./meanings.js";
import { endsBeside, isOfOtherSide, ownerBefore, ownerBehind, pieceBefore } from "./neighbours.js";
import { NoFact, QueryError } from "./query-error.js";
import type { ReadConditions } from "./read-conditions.js";

/** Taken of a condition with several meanings: the first, though the words around it speak for another. */
const FIRST_MEANING = -1;

/** Goes through the items of one way through a question, and says what each means. */
export class ItemMeanings extends ItemCursor {
  protected subject: Subject = { kind: "nobody" };
  protected readonly guessed: {
    readonly item: ConditionItem;
    readonly or: number;
    readonly about: string;
  }[] = [];
  protected somebodySaid = false;
  /** A condition about a rook or king that was said to be the attacker's. */
  protected turned: Item | undefined;
  /** A colour that was spoken of, and no condition is about it yet. */
  protected unused: Item | undefined;
  /** Of the condition at hand: which of its other meanings to take. */
  protected readonly taken = new Map<Item, number>();
  /** A side of which nothing has been said yet: behind it stood only circumstances of the game. */
  protected idle: Item | undefined;
  protected ended = false;
  protected resulted = false;
  /** Whose move it is has been said, without a word about the game. */
  private readonly ofPositions: boolean;
  /** How far the mate is has been said. */
  private readonly ofDistance: boolean;

  constructor(
    items: readonly Item[],
    protected readonly conditions: ReadConditions,
    protected readonly text: string,
  ) {
    super(withOwnersInPlace(items));
    this.ofPositions = saysTurn(items);
    this.ofDistance = saysDistance(items);
  }

  /** What a word about the game means of a position: "drawn", "lost". */
  protected ofPosition(item: ConditionItem): Question | undefined {
    const verdict = item.phrase.or?.find(([means]) => means.startsWith("verdict = "));
    return verdict && this.parsed(item, verdict[0]);
  }

  protected meaning(item: ConditionItem): Part | undefined {
    const { phrase, bound } = item;
    let subject = bound.who === undefined ? this.subject : subjectOf(bound.who);
    const wasSaid = bound.who !== undefined || this.somebodySaid;
    const taken = this.taken.get(item);
    if (phrase.ofNext && subject.kind === "nobody") {
      const owner = ownerBehind(this.items, item, this.text) ?? ownerBefore(this.items, item, this.text);
      const either = typeof owner === "object" ? this.parsed(item, byEither(phrase, owner)) : undefined;
      if (either) return part(either);
      if (typeof owner === "string") this.subject = subject = subjectOf(owner);
    }
    const around = {
      taken,
      ended: this.ended,
      resulted: this.resulted,
      ofPositions:
        !wasSaid && (this.ofPositions || (this.ofDistance && phrase.or?.[0][0] === "verdict = won")),
      endsBeside: endsBeside(this.items, item, this.text),
      near: bound.who !== undefined || this.items[this.items.indexOf(item) - 1]?.kind === "who",
    };
    const ofGames = { ...around, ofPositions: false };
    const text = meantBy(
      phrase,
      subject,
      taken === FIRST_MEANING ? { ...ofGames, taken: undefined } : around,
    );
    if (phrase.refusedUnsaid && (subject.kind === "nobody" || subject.kind === "both"))
      throw new NoFact(this.text, item.at, item.length, ...phrase.refusedUnsaid);
    const before = this.items[this.items.indexOf(item) - 1]?.kind;
    if (phrase.refusedAlone && (before === undefined || before === "comma"))
      throw new NoFact(this.text, item.at, item.length, ...phrase.refusedAlone);
    // what comes to an end stands before it
    if (text === undefined || phrase.leaves) return undefined;
    if (isOfOtherSide(item, subject, around.near, this.text)) throw this.ofOtherSide(item, subject);
    if (subject.kind === "colour" && asksWho(phrase)) this.unused = undefined;
    if (phrase.place) {
      const piece = pieceBefore(this.items, item, this.text);
      if (piece === "move")
        throw new NoFact(
          this.text,
          item.at,
          item.length,
          "where a move goes is asked for by its notation",
          'ask move ~ "Rh8", or where a piece stood before it: "king on the h-file, rook move"',
        );
      if (piece) {
        const there = text.replaceAll("{spot.king}", `{spot.${piece}}`);
        const of = there === text ? undefined : this.parsed(item, there, subject);
        return of && part(of);
      }
    }
    const isAttackers =
      this.turned === item || (this.somebodySaid && isOwnPieceOf(item, this.subject, this.text));
    const node = isAttackers ? this.ofAttackersPiece(item, text) : this.parsed(item, text, subject);
    if (!node) return undefined;
    if (!isCircumstance(node)) this.idle = undefined;
    if (phrase.or && taken === undefined) {
      // "attacker to move, wins": the position was taken, and the game is offered
      const ofPositions = !wasSaid && text === phrase.or[0][0] && meantBy(phrase, subject, ofGames) !== text;
      const about = text.startsWith("verdict") ? "the game, not the position" : "ranks of the board";
      if (ofPositions) this.guessed.push({ item, or: FIRST_MEANING, about });
      // where a side has been named there is no doubt that the game is meant
      const sure = phrase.result === true && wasSaid;
      if (!sure) phrase.or.forEach(([, about], or) => this.guessed.push({ item, or, about }));
    }
    if (bound.who !== undefined) {
      this.subject = subject;
      this.somebodySaid = true;
    }
    if (phrase.of && (subject.kind === "nobody" || subject.kind === "side" || subject.kind === "both"))
      this.subject = { kind: "side", side: phrase.of };
    else if (phrase.unsaid && subject.kind === "nobody" && (taken ?? FIRST_MEANING) === FIRST_MEANING)
      this.subject = { kind: "side", side: phrase.unsaid };
    this.ended = phrase.end === true;
    this.resulted = phrase.result === true;
    const whole = part(node, phrase.result === true);
    return phrase.answer ? { ...whole, answer: true } : whole;
  }

  /** "Defender found the only winning move": what only the attacker can do, said of the defender. */
  private ofOtherSide({ at, length }: ConditionItem, subject: Subject): QueryError {
    const [side, other] =
      subject.kind === "side" && subject.side === "attacker"
        ? ["attacker", "defender"]
        : ["defender", "attacker"];
    return new QueryError(
      this.text,
      at,
      length,
      `"${this.text.slice(at, at + length)}" is what the ${other} does, and not the ${side}`,
      `say it of the ${other}, or what else the ${side} did: "${side} erred", "only move for the ${side}"`,
    );
  }

  /** The same of the attacker's rook or king; undefined where no fact says it of that. */
  private ofAttackersPiece(item: ConditionItem, text: string): Question | undefined {
    try {
      const means = ofAttackers(text);
      const bound = attackersPieces(item.bound);
      // a fact of the defender's piece alone
      const same =
        means === text && Object.entries(bound).every(([name, value]) => item.bound[name] === value);
      return same ? undefined : this.parsed({ ...item, bound }, means);
    } catch (thrown) {
      if (!(thrown instanceof QueryError)) throw thrown;
      return undefined;
    }
  }

  /** A condition's canonical form with everything filled in, read. */
  protected parsed(item: ConditionItem, text: string, subject: Subject = this.subject): Question | undefined {
    const filled = filledIn(text, item.bound, subject);
    return filled === undefined ? undefined : this.conditions.readAs(filled, this.text, item);
  }
}
