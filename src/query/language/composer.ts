// Putting the items of a question in words together: which condition belongs to which joining word, whom each is about,
// and what a word means where it can mean several things.
//
//   question = list { "," list }                 "," binds weakest
//   list     = all { "or" all }
//   all      = course { [ "and" | "with" ] course }
//   course   = unit { "then" [ within n moves ] unit } | unit within n moves of unit | unit ( "before" | "after" ) unit
//   unit     = one { "or" one of the same sort }
//   one      = [ quantifier | "not" | n "times" ] ( "(" question ")" | condition ) [ quantifier | "for" n "moves" | n "times" ]

import { type Question, isEverything, join, levelOf, sameness } from "./ast.js";
import { Courses } from "./courses.js";
import { BEGINS, type ConditionItem, type Guess, type Item, attackersColours, orderIn } from "./items.js";
import {
  type Part,
  allOf,
  alsoGoingWith,
  areRivals,
  gathered,
  goingWith,
  isLasting,
  noneOfThese,
  part,
  withoutRepeatedNames,
} from "./joining.js";
import { answered, continued, inSteps, sinceReached } from "./moments.js";
import { QueryError } from "./query-error.js";

/** Guesses of one question that are told; each is the question read again. */
const MOST_GUESSES = 8;

/** Puts the items of one way through a question together. */
export class Composer extends Courses {
  /** What was taken for one of several things it can mean in the question that was composed last. */
  guesses(question: Question): readonly Guess[] {
    const guesses: Guess[] = [];
    for (const { item, or, about } of this.guessed.slice(0, MOST_GUESSES)) {
      // the same words with another of their meanings
      const other = this.with(item, or);
      if (!other || sameness(other) === sameness(question)) continue;
      const { at, length } = item;
      guesses.push({ words: this.text.slice(at, at + length), at, length, other, about });
    }
    return guesses;
  }

  /** The question with another meaning of one of its items; undefined where that can't be. */
  private with(item: ConditionItem, or: number): Question | undefined {
    this.taken.set(item, or);
    try {
      return this.compose();
    } catch (thrown) {
      if (!(thrown instanceof QueryError)) throw thrown;
      return undefined;
    } finally {
      this.taken.delete(item);
    }
  }

  /** The question; undefined where the items make none. Throws `QueryError` where a part can't be meant. */
  compose(): Question | undefined {
    const colours = attackersColours(this.items, this.text);
    if (colours.length === 0) return this.composed(undefined);
    // "black king on g1, white king on g3": whichever of them is the attacker's
    const either = colours.flatMap((colour) => {
      const question = this.composed(colour);
      const owner = this.conditions.read(`attacker = ${colour}`);
      return question ? [join("and", [owner, question])] : [];
    });
    return either.length === 0 ? undefined : join("or", either);
  }

  /** The question, where pieces are spoken of by their colours and the attacker has this one. */
  private composed(attackers: "white" | "black" | undefined): Question | undefined {
    this.attackers = attackers;
    [this.p, this.depth] = [0, 0];
    this.subject = { kind: "nobody" };
    this.guessed.length = 0;
    [this.ended, this.resulted, this.somebodySaid, this.behindPlacement] = [false, false, false, false];
    this.lastSide = this.lastCondition = this.turned = this.unused = this.idle = undefined;
    const read = this.question();
    if (!read || this.p < this.items.length) return undefined;
    if (this.unused) throw this.lostColour(this.unused);
    if (this.idle) throw this.lostSide(this.idle);
    const asksForAll =
      orderIn(this.items) !== undefined || this.items.some(({ kind }) => kind === "question");
    if (isEverything(read.node) && !asksForAll) return undefined;
    return withoutRepeatedNames(read.node);
  }

  protected question(): Part | undefined {
    const lists: Part[] = [];
    // behind words that say nothing: "old games, before 1970"
    this.next("comma");
    for (;;) {
      const one = this.list();
      if (!one) return undefined;
      lists.push(one);
      if (!this.next("comma")) break;
      while (this.next("comma"));
      // ", please", or a question in words that is still being typed; canonical form stops in the middle of a condition there
      if (this.kind === undefined && this.endsInWords()) break;
      // ", and", ", then" and ", or" are as they would be without the comma
      if (this.items[this.p]?.kind === "and") ++this.p;
      else if (this.items[this.p]?.kind === "or") {
        ++this.p;
        const other = this.list();
        if (!other) return undefined;
        lists[lists.length - 1] = { ...part(join("or", [one.node, other.node])), list: true };
        if (!this.next("comma")) break;
      }
    }
    return allOf(gathered(inSteps(lists, this.conditions)));
  }

  /** Whether a comma that was just read ends a question in words, with nothing but idle words behind it. */
  private endsInWords(): boolean {
    const { at } = this.items[this.p - 1];
    return this.items.every(({ kind }) => kind !== "question") || /\w/.test(this.text.slice(at));
  }

  private list(): Part | undefined {
    const parts: Part[] = [];
    do {
      const one = this.all();
      if (!one) return undefined;
      parts.push(one);
    } while (this.next("or"));
    const nodes = parts.map(({ node }) => node);
    return parts.length === 1 ? parts[0] : { ...part(join("or", nodes)), list: true };
  }

  private all(): Part | undefined {
    const parts: Part[] = [];
    let joined: "and" | "with" | undefined;
    // "resigned with the king in the corner": in the last position
    let wasEnd = false;
    let wasWith = false;
    // "games with …"
    this.next("with");
    for (;;) {
      const from = this.p;
      const one = this.course();
      if (!one) return undefined;
      const before = parts.at(-1);
      const none =
        before && joined === undefined && this.isSaidIn(from)
          ? noneOfThese(before.node, one.node, this.conditions)
          : undefined;
      // "drew a winning ending": two results with nothing between them are no choice
      if (before && joined === undefined && areRivals(before.node, one.node)) return undefined;
      // "Philidor, and the king later ran into the open"
      const earlier = before?.node.kind === "change" ? part(before.node.part) : before;
      const goesOn = earlier && (levelOf(earlier.node) === "position" || earlier.node.kind === "sequence");
      const soon =
        earlier && goesOn && one.atOnce
          ? (answered(earlier, part(one.atOnce), this.conditions) ??
            continued(earlier, [{ part: one.atOnce, within: 1 }]))
          : undefined;
      const reply = before && one.answer ? answered(before, one, this.conditions) : undefined;
      const last = one.there && before && isLasting(before.node) ? before.node : undefined;
      const there = last && allOf([part({ kind: "scoped", quantifier: "end", part: last }), one]);
      const reached = there
        ? there
        : reply
          ? reply
          : soon
            ? soon
            : one.later && goesOn
              ? continued(earlier, [{ part: one.node, within: null }])
              : joined === "and"
                ? sinceReached(before, one, this.conditions)
                : undefined;
      // "lost with the king on h8 and the rook on g8": both, of the same positions
      const goesWith: Part | undefined = joined === "and" && wasWith ? alsoGoingWith(before, one) : undefined;
      wasWith = joined === "with" || goesWith !== undefined;
      const whole = none ?? reached ?? goesWith;
      if (whole) parts[parts.length - 1] = whole;
      else parts.push(joined === "with" ? goingWith(before, one, wasEnd) : one);
      wasEnd = this.ended;
      joined = undefined;
      while (this.kind === "and" || this.kind === "with") {
        joined = this.kind;
        ++this.p;
      }
      if (joined === undefined && !BEGINS.has(this.items[this.p]?.kind)) break;
    }
    return allOf(parts);
  }

  /** Whether an item says where or when what stands before it was so: "in a drawn position". */
  private isSaidIn(place: number): boolean {
    const [before, item] = [this.items[place - 1], this.items[place]];
    const said = before && item ? this.text.slice(before.at + before.length, item.at + item.length) : "";
    return /^\W*(?:in|after|under|while|when|during|from)\b/i.test(said);
  }

  /** A side of which nothing is said: it must not be lost. */
  private lostSide({ at, length }: Item): QueryError {
    const side = this.text.slice(at, at + length);
    const message = `nothing is said of "${side}" here, so that it would be lost`;
    return new QueryError(
      this.text,
      at,
      length,
      message,
      'say what it did: "defender held", "attacker to move"',
    );
  }

  /** A colour of which nothing is said that could be White's or Black's: it must not be lost. */
  private lostColour({ at, length }: Item): QueryError {
    const colour = this.text.slice(at, at + length);
    return new QueryError(
      this.text,
      at,
      length,
      `what follows is the same for both colours, so that "${colour}" would be lost`,
      `say which side ${colour} has, "${colour} attacking" or "${colour} defending", or "${colour} to move"`,
    );
  }
}
