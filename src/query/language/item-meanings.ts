// What a single item of a question in words means where it stands: whom it is about, which of its meanings the words around
// it speak for, and which others are to be offered.

import { type Question, join } from "./ast.js";
import {
  type ConditionItem,
  type Item,
  ItemCursor,
  asksWho,
  attackersPieces,
  ofAttackers,
  saysDistance,
  saysOwnPiece,
  saysTurn,
  withOwnersInPlace,
} from "./items.js";
import { type Part, isCircumstance, isLasting, part } from "./joining.js";
import { type Subject, byEither, filledIn, meantBy, subjectOf } from "./meanings.js";
import {
  asksVerdict,
  endsBeside,
  isOfOtherSide,
  ownerBefore,
  ownerBehind,
  pieceBefore,
} from "./neighbours.js";
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
  /** The condition before says how a position stands. */
  protected behindPlacement = false;
  /** The side that a condition began with after whoever was named last: "attacker lost the rook". */
  protected lastSide: Subject | undefined;
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
    // "drawn, before move 30 the defender erred": it belongs to what follows
    const place = this.items.indexOf(item);
    const follows = this.items[place + 1]?.kind;
    const opens = this.items[place - 1]?.kind === "comma" && (follows === "who" || follows === "condition");
    const around = {
      taken,
      ended: this.ended && !opens,
      resulted: this.resulted && !opens,
      ofPositions:
        !wasSaid &&
        (this.ofPositions ||
          (this.ofDistance && phrase.or?.[0][0] === "verdict = won") ||
          (this.behindPlacement && asksVerdict(item, this.text))),
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
    if (text === undefined || phrase.leaves || phrase.returns) return undefined;
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
    const node = this.ofOwner(item, text, subject);
    if (!node) return undefined;
    this.noteSide(item);
    this.behindPlacement = isLasting(node);
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
    // "it is the defender's move and he gives check"
    const goesOn = /^\W+(?:and|but)\s+(?:he|she|it|they)\b/i.test(this.text.slice(item.at + item.length));
    const turn = bound.whose ?? /^to-move = (attacker|defender)$/.exec(text)?.[1];
    if (turn !== undefined && goesOn) this.subject = subjectOf(turn);
    if (bound.who !== undefined) {
      this.subject = subject;
      this.somebodySaid = true;
    }
    if (phrase.of && (subject.kind === "nobody" || subject.kind === "side" || subject.kind === "both"))
      this.subject = { kind: "side", side: phrase.of };
    else if (phrase.unsaid && subject.kind === "nobody" && (taken ?? FIRST_MEANING) === FIRST_MEANING)
      this.subject = { kind: "side", side: phrase.unsaid };
    // "mated on the edge before move 30": both are said of the end
    this.ended =
      phrase.end === true || /^ended-by = /.test(text) || (around.ended && phrase.atEnd !== undefined);
    this.resulted = phrase.result === true || (around.resulted && phrase.atResult !== undefined);
    const behind = this.text.slice(item.at + item.length);
    const whole = {
      ...part(node, phrase.result === true),
      ofPosition: this.ofPosition(item),
      again: /^\s+again\b/i.test(behind),
      there:
        (phrase.end === true || phrase.result === true) &&
        /^\s+there\b(?!\s+(?:is|are|was|were)\b)/i.test(behind),
    };
    return phrase.answer ? { ...whole, answer: true } : whole;
  }

  /** A condition of a piece of whoever it was said to be: of the attacker's, or where a colour or a player has it, of either side's. */
  private ofOwner(item: ConditionItem, text: string, subject: Subject): Question | undefined {
    const owner = this.turned === item ? subjectOf("attacker") : this.pronounOf(item);
    if (owner?.kind === "side" && owner.side === "attacker") return this.ofAttackersPiece(item, text);
    const ofDefenders = this.parsed(item, text, subject);
    if (owner?.kind !== "colour" && owner?.kind !== "name") return ofDefenders;
    // "White lost and his king was on h8": White has either side
    const ofAttackers = this.ofAttackersPiece(item, text);
    if (!ofDefenders || !ofAttackers) return undefined;
    const [attacks, defends] =
      owner.kind === "colour"
        ? [`attacker = ${owner.colour}`, `attacker != ${owner.colour}`]
        : [`attacker-name ~ ${owner.name}`, `defender-name ~ ${owner.name}`];
    return join("or", [
      join("and", [this.conditions.read(attacks), ofAttackers]),
      join("and", [this.conditions.read(defends), ofDefenders]),
    ]);
  }

  /** Whom "his" means before a piece; undefined where no such word stands there. */
  private pronounOf(item: ConditionItem): Subject | undefined {
    return saysOwnPiece(item, this.text) ? (this.lastSide ?? this.subject) : undefined;
  }

  /** Remembers the side that a condition begins with; the owner of a piece gives way to whoever did something. */
  private noteSide(item: ConditionItem): void {
    if (item.side === undefined) return;
    const isOwner = /^\S+(?:\s+side)?['’]s?\b/i.test(this.text.slice(item.at));
    if (!isOwner || this.subject.kind === "nobody") this.lastSide = subjectOf(item.side);
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
