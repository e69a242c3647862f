// What comes one after another in a question in words: "A, then B", "A right after B", "after A, B".

import { type Question, join, levelOf } from "./ast.js";
import type { Item, Place } from "./items.js";
import { type Part, allOf, comesAtTheEnd, part, sortOf } from "./joining.js";
import { type Step, answered, continued, hasNoOrder, inFirstMoves, inOrder, nearTheEnd } from "./moments.js";
import type { Phrase } from "./lexicon/phrase.js";
import { NoFact, QueryError } from "./query-error.js";
import { Units } from "./units.js";

/** Reads courses, units in an order: see composer.ts. */
export abstract class Courses extends Units {
  protected course(): Part | undefined {
    const opening = this.items[this.p];
    if (opening?.kind === "after" || opening?.kind === "before") {
      // "after a check the defender blundered"
      ++this.p;
      const other = this.unit();
      if (!other) return undefined;
      this.next("comma");
      if (this.kind === undefined) throw this.half(opening);
      const first = this.unit();
      return first && this.ordered(first, other, opening);
    }
    const first = this.unit();
    if (!first) return undefined;
    const near = this.items[this.p];
    if (near?.kind === "within-of" && levelOf(first.node) === "position") {
      ++this.p;
      const of = this.unit();
      if (!of || levelOf(of.node) !== "position") return undefined;
      return continued(of, [{ part: first.node, within: near.moves }]);
    }
    if (near?.kind === "before" || near?.kind === "after") {
      ++this.p;
      // the other side's move, unless somebody is named or it says "its own"
      const next = this.items[this.p];
      const said = next ? this.text.slice(near.at, next.at + next.length) : "";
      // "after a bishop check", but "after giving check"
      const isNamed = next?.kind === "condition" && (next.bound.kind ?? next.bound.next) !== undefined;
      const isDone = next !== undefined && /^\w+ing\b/i.test(this.text.slice(next.at));
      if ((near.moves !== undefined || (isNamed && !isDone)) && !/\bown\b/i.test(said))
        this.subject = { kind: "nobody" };
      const other = this.unit();
      return other && this.ordered(first, other, near);
    }
    const firstItem = this.lastCondition;
    let start = first;
    const then: Step[] = [];
    const also: Part[] = [];
    for (;;) {
      let joint = this.p;
      if (this.items[joint]?.kind === "comma") ++joint;
      if (this.items[joint]?.kind === "and") ++joint;
      if (this.items[joint]?.kind === "then") ++joint;
      else if (!this.leavesAt(joint) && !this.returnsAt(joint)) break;
      this.p = joint;
      const within = this.items[this.p];
      if (within?.kind === "within") ++this.p;
      if (this.leavesAt(this.p)) {
        const left = then.at(-1)?.part ?? start.node;
        if (levelOf(left) !== "position" || also.length > 0) return undefined;
        const isOwn = this.leavesAt(this.p) === "defender";
        ++this.p;
        // by a move of its own: with the defender to move, and gone with the next
        if (isOwn) {
          const moves = join("and", [left, this.conditions.read("to-move = defender")]);
          if (then.length > 0) then[then.length - 1] = { ...then[then.length - 1], part: moves };
          else start = part(moves);
        }
        const said = within?.kind === "within" ? within.moves : null;
        then.push({ part: { kind: "not", part: left }, within: isOwn ? 1 : said });
        continue;
      }
      if (this.returnsAt(this.p)) {
        const left = then.at(-1)?.part;
        if (left?.kind !== "not" || also.length > 0) return undefined;
        ++this.p;
        const moves = within?.kind === "within" ? within.moves : null;
        then.push({ part: this.withMore(part(left.part)).node, within: moves });
        continue;
      }
      const one = this.step();
      if (!one) return undefined;
      // "reached it, then lost": what is about the whole ending comes after everything
      const goesOn = levelOf(first.node) === "position" || first.node.kind === "sequence";
      // "left it and then lost within five moves": of leaving it
      if (one.soon && levelOf(one.soon.result) === "position" && goesOn && also.length === 0) {
        then.push({ part: one.soon.result, within: one.soon.moves });
        continue;
      }
      if (one.soon && also.length === 0) {
        const near = nearTheEnd(continued(start, then).node, one.soon.moves, this.conditions);
        if (!near) throw this.withoutOrder();
        start = part(near);
        then.length = 0;
        also.push(part(one.soon.result, true));
        continue;
      }
      const early = goesOn ? inFirstMoves(one.node, this.conditions) : undefined;
      if (early && also.length === 0) then.push({ part: early, within: null });
      else if (levelOf(one.node) === "position" && goesOn && also.length === 0)
        then.push({ part: one.node, within: within?.kind === "within" ? within.moves : null });
      else if (hasNoOrder(one.node) || (levelOf(one.node) === "position" && hasNoOrder(first.node)))
        throw this.withoutOrder();
      // "winning, then a draw, then winning again": the game's result would come last
      else if (goesOn && also.length === 0 && this.goesOnAt(this.p) && this.lastOfPosition()) {
        const moves = within?.kind === "within" ? within.moves : null;
        then.push({ part: this.lastOfPosition()!, within: moves });
      }
      // "drawn, then lost": one game has one result, so that positions are meant
      else if (sortOf(first.node) === "result" && sortOf(one.node) === "result") {
        const [before, after] = [firstItem, this.lastCondition].map((item) => item && this.ofPosition(item));
        if (!before || also.length > 0) return undefined;
        start = part(before);
        // "lost, then held": only the game is held
        if (after) then.push({ part: after, within: null });
        else also.push(one);
      } else also.push(one);
    }
    const course = continued(start, then);
    return also.length > 0 ? allOf([course, ...also]) : course;
  }

  /** Whether another step of a course begins at a place. */
  private goesOnAt(place: number): boolean {
    const from = this.items[place]?.kind === "comma" ? place + 1 : place;
    return this.items[this.items[from]?.kind === "and" ? from + 1 : from]?.kind === "then";
  }

  /** What the last condition means of a position, where it is about the game. */
  private lastOfPosition(): Question | undefined {
    return this.lastCondition && this.ofPosition(this.lastCondition);
  }

  /** What a place says of how what stands before it came to an end; undefined where it says nothing of that. */
  private leavesAt(place: number): Phrase["leaves"] {
    const item = this.items[place];
    return item?.kind === "condition" ? item.phrase.leaves : undefined;
  }

  /** Whether a place says that what was left came back. */
  private returnsAt(place: number): boolean {
    const item = this.items[place];
    return item?.kind === "condition" && item.phrase.returns === true;
  }

  /** What comes behind "then", with everything that is said of the same position: "then Philidor with the attacker to move". */
  private step(): Part | undefined {
    const one = this.unit();
    return one && this.withMore(one);
  }

  /** A step with what else is said of its position. */
  private withMore(step: Part): Part {
    let one = step;
    while (levelOf(one.node) === "position") {
      const from = this.p;
      const before = { subject: this.subject, guesses: this.guessed.length };
      this.next("with");
      const next = this.items[this.p];
      const also =
        next?.kind === "condition" || next?.kind === "who" || next?.kind === "not" ? this.unit() : undefined;
      if (!also || levelOf(also.node) !== "position") {
        this.p = from;
        this.subject = before.subject;
        this.guessed.length = before.guesses;
        break;
      }
      one = part(join("and", [one.node, also.node]));
    }
    return one;
  }

  /** One thing before or after another. Throws `NoFact` where the order is no fact. */
  private ordered(
    first: Part,
    other: Part,
    { kind, moves, at, length }: Place & { readonly kind: "before" | "after"; readonly moves?: number },
  ): Part | undefined {
    if ((kind === "after" || moves !== undefined) && hasNoOrder(first.node)) throw this.withoutOrder();
    if (kind === "before" && hasNoOrder(other.node)) throw this.withoutOrder();
    if (moves !== undefined && levelOf(first.node) !== "position" && comesAtTheEnd(first.node))
      throw this.noFact(
        "what came right before the end of the game is no fact",
        `what came at some time before it is: "${this.text.slice(0, at)}${kind}${this.text.slice(at + length)}"`,
      );
    const [earlier, later] = kind === "after" ? [other, first] : [first, other];
    const next = moves === 1 ? answered(earlier, later, this.conditions) : undefined;
    return next ?? inOrder(first, other, kind, moves ?? null);
  }

  /** "Right after a bishop move" and no more. */
  private half({ at, length }: Item): QueryError {
    const words = this.text
      .slice(at)
      .trim()
      .replace(/[\s,;.?!]+$/, "");
    const when = this.text.slice(at, at + length);
    return new QueryError(
      this.text,
      at,
      length,
      `what came ${when} it has to be told`,
      `ask what came then: "mistake ${words}"`,
    );
  }

  /** Something before or after what is counted, or lasts. */
  private withoutOrder(): NoFact {
    return this.noFact(
      "whether something came before or after what is counted or lasted is no fact",
      'single moments come in order: "Philidor, then a mistake", "Philidor, then Szén"; or leave the order out: "Philidor and two mistakes"',
    );
  }

  private noFact(message: string, hint: string): NoFact {
    return new NoFact(this.text, 0, this.text.length, message, hint);
  }
}
