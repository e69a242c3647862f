// One condition of a question in words: whom it is about, what is denied of it, and what stands behind it and belongs to it.

import { type Question, join, levelOf, sameness } from "./ast.js";
import { parseCanonical } from "./canonical.js";
import {
  BEGINS,
  type ConditionItem,
  type Item,
  attackersColour,
  colouredPiece,
  isAttackersPiece,
} from "./items.js";
import {
  type Part,
  comesAtTheEnd,
  counted,
  isCircumstance,
  isLasting,
  negated,
  never,
  part,
  sortOf,
} from "./joining.js";
import { isOpenCourse } from "./moments.js";
import { ItemMeanings } from "./item-meanings.js";
import { type Subject, subjectOf } from "./meanings.js";
import { hasWords } from "./neighbours.js";
import { tooDeep } from "./query-error.js";
import type { Quantifier } from "./vocabulary.js";

/** Brackets and negations inside each other. */
const DEEPEST = 50;

/** Reads units, the grammar's smallest parts: see composer.ts. */
export abstract class Units extends ItemMeanings {
  protected depth = 0;
  /** The attacker's colour, where pieces are spoken of by their colours. */
  protected attackers: "white" | "black" | undefined;
  protected lastCondition: ConditionItem | undefined;

  /** A question in brackets. */
  protected abstract question(): Part | undefined;

  /** One condition, or several of one sort between which one may choose. */
  protected unit(): Part | undefined {
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
        const isBehindWith = this.items[this.p - 1]?.kind === "with";
        ++this.p;
        // "without A or B" is without either
        const denied = this.denied();
        // "no checks the whole time": at no time
        const isNo = item.kind === "without" || /^no$/i.test(this.text.slice(item.at, item.at + item.length));
        const node = denied?.node;
        const isNeither = this.says(item, /^neither$/i);
        // "won with neither a check nor a mistake" is won without any
        const isWithout = isNeither && isBehindWith && node !== undefined && !isLasting(node);
        const deny = item.kind === "without" || isWithout ? never : negated;
        found =
          node && isNo && node.kind === "scoped" && node.quantifier === "throughout"
            ? part(never(node.part))
            : node && part(deny(node));
        if (found && isNeither) found = this.nor(found, deny);
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
      if (found && /^without\b/i.test(this.text.slice(item.at))) found = this.without(found);
      return found && this.behind(found);
    } finally {
      --this.depth;
    }
  }

  /** Whether the words of an item are these. */
  private says({ at, length }: Item, words: RegExp): boolean {
    return words.test(this.text.slice(at, at + length).trim());
  }

  /** More that is denied behind "neither", of other sorts: "neither a check nor zugzwang". */
  private nor(first: Part, deny: (node: Question) => Question): Part {
    let all = first;
    while (this.kind === "or" && this.says(this.items[this.p], /^nor$/i)) {
      const from = this.p;
      ++this.p;
      const other = this.unit();
      if (!other) {
        this.p = from;
        break;
      }
      all = part(join("and", [all.node, deny(other.node)]));
    }
    return all;
  }

  /** More that is denied behind "without", of other sorts: "without a capture or a mate". */
  private without(first: Part): Part {
    let all = first;
    while (this.kind === "or") {
      const from = this.p;
      const { at, length } = this.items[from];
      const next = this.items[from + 1];
      // a thing, and not what somebody did: "won without a check or resigned"
      const isThing = next && /^\W*(?:an?|any|another)\s+$/i.test(this.text.slice(at + length, next.at));
      if (!isThing || (next.kind !== "condition" && next.kind !== "question")) break;
      ++this.p;
      const other = this.unit();
      if (!other) {
        this.p = from;
        break;
      }
      all = part(join("and", [all.node, never(other.node)]));
    }
    return all;
  }

  /** What is denied: "without blitz and bullet" is without either. */
  private denied(): Part | undefined {
    let one = this.unit();
    while (one && this.kind === "and" && this.items[this.p + 1]?.kind === "condition") {
      const from = this.p;
      // "not by agreement but by repetition"
      const { at, length } = this.items[from];
      if (/\bbut\b/i.test(this.text.slice(at, at + length))) break;
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
      this.lastSide = undefined;
      this.somebodySaid = true;
      const aside = this.aside();
      if (aside) return aside;
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
        // "lost as the defender in blitz": no defender of whom blitz is said
        if (item.subject.kind === "side" && isCircumstance(of.node)) this.idle = item;
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

  /** What is said of somebody between two commas, before what was done: "the defender, short of time, found the only move". */
  private aside(): Part | undefined {
    if (this.kind !== "comma") return undefined;
    const from = this.p;
    const before = { subject: this.subject, guesses: this.guessed.length };
    ++this.p;
    const said = this.sideOf(before.subject) ?? this.unit();
    if (said && this.next("comma")) {
      this.subject = before.subject;
      const of = this.one();
      if (of) return part(join("and", [said.node, of.node]), of.result);
    }
    this.p = from;
    this.subject = before.subject;
    this.guessed.length = before.guesses;
    return undefined;
  }

  /** Which side a colour or a player had, where no more is said between two commas: "White, who had the bishop, lost". */
  private sideOf(subject: Subject): Part | undefined {
    const item = this.items[this.p];
    if (item?.kind !== "who" || item.subject.kind !== "side" || this.items[this.p + 1]?.kind !== "comma")
      return undefined;
    const { side } = item.subject;
    const other = { white: "black", black: "white" } as const;
    const means =
      subject.kind === "colour"
        ? `attacker = ${side === "attacker" ? subject.colour : other[subject.colour]}`
        : subject.kind === "name"
          ? `${side}-name ~ ${subject.name}`
          : undefined;
    if (means === undefined) return undefined;
    ++this.p;
    this.unused = undefined;
    return part(this.conditions.read(means));
  }

  /** What stands behind a condition and belongs to it: how long, or when. */
  private behind(found: Part): Part | undefined {
    let whole = found;
    for (;;) {
      const next = this.items[this.p + 1]?.kind;
      // "held him off, for eight moves"
      const belongs = next === "by" || (next === "for" && levelOf(whole.node) === "position");
      const comma = this.items[this.p]?.kind === "comma" && belongs ? 1 : 0;
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
        this.p += comma + 1;
        whole = part({ kind: "run", part: whole.node, moves: item.moves });
      } else if (item?.kind === "times" && levelOf(whole.node) === "position") {
        ++this.p;
        whole = counted(whole, item.compared, this.conditions)!;
      } else if (item?.kind === "within" && comesAtTheEnd(whole.node)) {
        // "agreed drawn within 20 moves": of the ending
        ++this.p;
        const short = this.conditions.read(`length <= ${item.moves}`);
        const soon = { result: whole.node, moves: item.moves, isNext: this.says(item, /\bnext\b/i) };
        whole = { ...part(join("and", [whole.node, short]), whole.result), soon };
      } else if (item?.kind === "within" && isOpenCourse(whole.node) && this.lastSays(/\bfrom\b/i)) {
        // "driven from the centre to the edge within 12 moves"
        ++this.p;
        const { then } = whole.node;
        const last = { ...then[then.length - 1], within: item.moves };
        whole = { ...whole, node: { ...whole.node, then: [...then.slice(0, -1), last] } };
      } else if (item?.kind === "within" && levelOf(whole.node) === "position") {
        ++this.p;
        const soon = { result: whole.node, moves: item.moves };
        whole = { ...part({ kind: "first", part: whole.node, within: item.moves, of: null }), soon };
      } else if (
        item?.kind === "quantifier" &&
        (levelOf(whole.node) === "position" ||
          /^(?:throughout|finally|ever|later)$/.test(item.quantifier) ||
          // "resigned at the end"
          (item.quantifier === "end" && comesAtTheEnd(whole.node)) ||
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
