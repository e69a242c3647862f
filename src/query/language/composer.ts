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
import { parseCanonical } from "./canonical.js";
import {
  BEGINS,
  type ConditionItem,
  type Guess,
  type Item,
  type Place,
  attackersColour,
  attackersColours,
  colouredPiece,
  isAttackersPiece,
  orderIn,
} from "./items.js";
import {
  type Part,
  type Step,
  allOf,
  answered,
  areRivals,
  comesAtTheEnd,
  continued,
  counted,
  gathered,
  goingWith,
  hasNoOrder,
  inFirstMoves,
  inOrder,
  isOpenCourse,
  negated,
  never,
  part,
  sinceReached,
  sortOf,
  withoutRepeatedNames,
} from "./joining.js";
import { ItemMeanings } from "./item-meanings.js";
import { type Subject, subjectOf } from "./meanings.js";
import { hasWords } from "./neighbours.js";
import { NoFact, QueryError, tooDeep } from "./query-error.js";
import type { Quantifier } from "./vocabulary.js";

/** Brackets and negations inside each other. */
const DEEPEST = 50;
/** Guesses of one question that are told; each is the question read again. */
const MOST_GUESSES = 8;

/** Puts the items of one way through a question together. */
export class Composer extends ItemMeanings {
  private depth = 0;
  private attackers: "white" | "black" | undefined;
  private lastCondition: ConditionItem | undefined;

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
    [this.ended, this.resulted, this.somebodySaid] = [false, false, false];
    this.lastCondition = this.turned = this.unused = undefined;
    const read = this.question();
    if (!read || this.p < this.items.length) return undefined;
    if (this.unused) throw this.lostColour(this.unused);
    const asksForAll =
      orderIn(this.items) !== undefined || this.items.some(({ kind }) => kind === "question");
    if (isEverything(read.node) && !asksForAll) return undefined;
    return withoutRepeatedNames(read.node);
  }

  private question(): Part | undefined {
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
    return allOf(gathered(lists));
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
    // "games with …"
    this.next("with");
    for (;;) {
      const one = this.course();
      if (!one) return undefined;
      const before = parts.at(-1);
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
      const reached = reply
        ? reply
        : soon
          ? soon
          : one.later && goesOn
            ? continued(earlier, [{ part: one.node, within: null }])
            : joined === "and"
              ? sinceReached(before, one)
              : undefined;
      if (reached) parts[parts.length - 1] = reached;
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

  private course(): Part | undefined {
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
      if (this.items[joint]?.kind !== "then") break;
      this.p = joint + 1;
      const within = this.items[this.p];
      if (within?.kind === "within") ++this.p;
      const one = this.step();
      if (!one) return undefined;
      // "reached it, then lost": what is about the whole ending comes after everything
      const goesOn = levelOf(first.node) === "position" || first.node.kind === "sequence";
      const early = goesOn ? inFirstMoves(one.node, this.conditions) : undefined;
      if (early && also.length === 0) then.push({ part: early, within: null });
      else if (levelOf(one.node) === "position" && goesOn && also.length === 0)
        then.push({ part: one.node, within: within?.kind === "within" ? within.moves : null });
      else if (hasNoOrder(one.node) || (levelOf(one.node) === "position" && hasNoOrder(first.node)))
        throw this.withoutOrder();
      // "drawn, then lost": one game has one result, so that positions are meant
      else if (sortOf(first.node) === "result" && sortOf(one.node) === "result") {
        const [before, after] = [firstItem, this.lastCondition].map((item) => item && this.ofPosition(item));
        if (!before || !after || also.length > 0) return undefined;
        start = part(before);
        then.push({ part: after, within: null });
      } else also.push(one);
    }
    const course = continued(start, then);
    return also.length > 0 ? allOf([course, ...also]) : course;
  }

  /** What comes behind "then", with everything that is said of the same position: "then Philidor with the attacker to move". */
  private step(): Part | undefined {
    let one = this.unit();
    while (one && levelOf(one.node) === "position") {
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

  /** One condition, or several of one sort between which one may choose. */
  private unit(): Part | undefined {
    let one = this.one();
    if (!one) return undefined;
    while (this.kind === "or") {
      const from = this.p;
      const before = { subject: this.subject, guesses: this.guessed.length };
      ++this.p;
      const other = this.one();
      if (!other || sortOf(other.node) !== sortOf(one.node)) {
        this.p = from;
        this.subject = before.subject;
        this.guessed.length = before.guesses;
        break;
      }
      one = { ...part(join("or", [one.node, other.node]), one.result), list: true };
    }
    return one;
  }

  private one(): Part | undefined {
    if (++this.depth > DEEPEST) throw tooDeep(this.text, this.items[this.p]?.at ?? 0, DEEPEST);
    try {
      const item = this.items[this.p];
      let found: Part | undefined;
      if (item === undefined || item.kind === "within") return undefined;
      if (item.kind === "not" || item.kind === "without") {
        ++this.p;
        // "without A or B" is without either
        const denied = this.denied();
        // "no checks the whole time": at no time
        const isNo = item.kind === "without" || /^no$/i.test(this.text.slice(item.at, item.at + item.length));
        const node = denied?.node;
        found =
          node && isNo && node.kind === "scoped" && node.quantifier === "throughout"
            ? part(never(node.part))
            : node && part(item.kind === "not" ? negated(node) : never(node));
      } else if (item.kind === "quantifier") {
        ++this.p;
        const of = item.quantifier === "never" ? this.unit() : this.one();
        found = of && this.quantified(item.quantifier, of);
      } else if (item.kind === "times") {
        // "twice missed a win"
        ++this.p;
        const of = this.one();
        found = of && counted(of, item.compared, this.conditions);
      } else if (item.kind === "open") {
        ++this.p;
        found = this.question();
        if (!found || !this.next("close")) return undefined;
      } else found = this.condition();
      return found && this.behind(found);
    } finally {
      --this.depth;
    }
  }

  /** What is denied: "without blitz and bullet" is without either. */
  private denied(): Part | undefined {
    let one = this.unit();
    while (one && this.kind === "and" && this.items[this.p + 1]?.kind === "condition") {
      const from = this.p;
      ++this.p;
      const other = this.unit();
      if (!other || sortOf(other.node) !== sortOf(one.node) || sortOf(one.node) === "result") {
        this.p = from;
        break;
      }
      one = part(join("or", [one.node, other.node]));
    }
    return one;
  }

  /** A condition with whoever is spoken of before it. */
  private condition(): Part | undefined {
    const item = this.items[this.p];
    if (item?.kind === "who") {
      ++this.p;
      this.subject = item.subject;
      this.somebodySaid = true;
      const next = this.items[this.p];
      // only a defender holds, whatever it is
      const role = next?.kind === "condition" ? next.phrase.of : undefined;
      const named =
        item.subject.kind === "name"
          ? parseCanonical(`${role ? `${role}-name` : "player"} ~ ${item.subject.name}`)
          : undefined;
      if (next !== undefined && (BEGINS.has(next.kind) || next.kind === "with") && next.kind !== "within") {
        if (next.kind === "with") ++this.p;
        if (isAttackersPiece(item, this.items[this.p], this.text)) this.turned = this.items[this.p];
        const piece = colouredPiece(item, this.items.slice(this.p, this.p + 2), this.text);
        // the attacker's colour is told once of the whole, where it is one
        const owner = piece && !this.attackers ? `attacker = ${attackersColour(piece)}` : undefined;
        if (item.subject.kind === "colour") this.unused = piece ? undefined : item;
        if (piece && !piece.isAttackers && piece.colour === this.attackers) this.turned = piece.condition;
        const of = this.one();
        if (!of) return undefined;
        const also = named ?? (owner && this.conditions.read(owner));
        return also ? part(join("and", [also, of.node]), of.result) : of;
      }
      // somebody's name by itself asks for that player; a side of whom nothing is said says nothing
      if (named) return part(named);
      return undefined;
    }
    if (item?.kind === "question") {
      ++this.p;
      if (item.error) throw item.error;
      return part(item.question);
    }
    if (item?.kind !== "condition") return undefined;
    ++this.p;
    this.lastCondition = item;
    const found = this.meaning(item);
    return found && item.quantifier !== undefined ? this.quantified(item.quantifier, found, item) : found;
  }

  /** What stands behind a condition and belongs to it: how long, or when. */
  private behind(found: Part): Part | undefined {
    let whole = found;
    for (;;) {
      const comma = this.items[this.p]?.kind === "comma" && this.items[this.p + 1]?.kind === "by" ? 1 : 0;
      const item = this.items[this.p + comma];
      if (item?.kind === "by") {
        // said of whom behind the condition
        this.p += comma + 1;
        const again = this.lastBy(item.subject, whole);
        if (!again) return undefined;
        whole = again;
      } else if (item?.kind === "condition" && item.phrase.by !== undefined) {
        // "missed by a defender rated over 2500"
        ++this.p;
        const again = this.lastBy(subjectOf(item.bound[item.phrase.by]), whole);
        const also = again && this.parsed(item, String(item.phrase.means));
        if (!also) return undefined;
        whole = part(join("and", [again.node, also]), again.result);
      } else if (item?.kind === "for" && levelOf(whole.node) === "position") {
        ++this.p;
        whole = part({ kind: "run", part: whole.node, moves: item.moves });
      } else if (item?.kind === "times" && levelOf(whole.node) === "position") {
        ++this.p;
        whole = counted(whole, item.compared, this.conditions)!;
      } else if (item?.kind === "within" && comesAtTheEnd(whole.node)) {
        // "agreed drawn within 20 moves": of the ending
        ++this.p;
        const short = this.conditions.read(`length <= ${item.moves}`);
        whole = part(join("and", [whole.node, short]), whole.result);
      } else if (item?.kind === "within" && isOpenCourse(whole.node) && this.lastSays(/\bfrom\b/i)) {
        // "driven from the centre to the edge within 12 moves"
        ++this.p;
        const { then } = whole.node;
        const last = { ...then[then.length - 1], within: item.moves };
        whole = { ...whole, node: { ...whole.node, then: [...then.slice(0, -1), last] } };
      } else if (item?.kind === "within" && levelOf(whole.node) === "position") {
        ++this.p;
        whole = part({ kind: "first", part: whole.node, within: item.moves, of: null });
      } else if (
        item?.kind === "quantifier" &&
        (levelOf(whole.node) === "position" ||
          /^(?:throughout|finally|ever|later)$/.test(item.quantifier) ||
          // "winning along the way": the position, not the game
          (item.quantifier === "somewhere" && this.lastCondition && this.ofPosition(this.lastCondition))) &&
        (this.endsHere(this.p + 1) || hasWords(item, this.text))
      ) {
        ++this.p;
        const quantified = this.quantified(item.quantifier, whole, this.lastCondition);
        if (!quantified) return undefined;
        whole = quantified;
      } else return whole;
    }
  }

  /** Whether the words of the last condition say something. */
  private lastSays(words: RegExp): boolean {
    const last = this.lastCondition;
    return last !== undefined && words.test(this.text.slice(last.at, last.at + last.length));
  }

  /** The condition before, done by somebody; undefined where it is about nobody else than before. */
  private lastBy(subject: Subject, whole: Part): Part | undefined {
    const last = this.lastCondition;
    if (!last || last.bound.who !== undefined) return undefined;
    this.subject = subject;
    this.somebodySaid = true;
    const again = this.meaning(last);
    if (!again || levelOf(again.node) !== levelOf(whole.node)) return undefined;
    // "drawn for Black": a colour that changes nothing would be lost
    return subject.kind !== "side" && sameness(again.node) === sameness(whole.node) ? undefined : again;
  }

  private quantified(quantifier: string, of: Part, item?: ConditionItem): Part | undefined {
    // right after what stands before it, and at the beginning where nothing does
    if (quantifier === "atonce") {
      const entry = this.quantified("entry", of, item);
      return entry && levelOf(of.node) === "position" ? { ...entry, atOnce: of.node } : entry;
    }
    // "did the defender ever win": some moment is what is asked for anyway
    if (quantifier === "ever") return of;
    if (quantifier === "later") {
      if (levelOf(of.node) === "position") return { ...of, later: true };
      // "ten moves later": no length of the ending
      return of.result ? of : undefined;
    }
    // "lost in the end" is about the game
    if (quantifier === "finally")
      return levelOf(of.node) === "position" ? this.quantified("end", of, item) : of;
    if (levelOf(of.node) === "position")
      return part({ kind: "scoped", quantifier: quantifier as Quantifier, part: of.node });
    // "Carlsen never lost this" is about games
    if (quantifier === "never" && of.result && this.subject.kind === "name") {
      const plays = this.conditions.read(`player ~ ${this.subject.name}`);
      return part(join("and", [plays, never(of.node)]));
    }
    // "always drawn" is about positions, though "drawn" alone is about the game
    const source = item ?? this.items[this.p - 1];
    if (source?.kind === "condition" && source.phrase.or) {
      const other = this.parsed(source, source.phrase.or[0][0]);
      if (other && levelOf(other) === "position")
        return part({ kind: "scoped", quantifier: quantifier as Quantifier, part: other });
    }
    if (quantifier === "never") return part(never(of.node));
    return quantifier === "somewhere" || quantifier === "end" ? of : undefined;
  }
}
