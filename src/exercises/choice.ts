// The choice among candidates: no two alike, spread over set-ups, squares and themes, the same for the same seed.

import { ATTACKER_KING, DEFENDER_KING, FIRST_PIECE, type Placement } from "../chess/placement.js";
import { Likeness } from "../geometry/likeness.js";
import { POOL } from "./candidates.js";
import type { ExercisesAsked } from "./exercise.js";
import { pictureOf } from "./pictures.js";
import type { Drawn, Pool } from "./pool.js";
import { type Refusal, RefusalCount, type Refused } from "./refusals.js";
import { seedOf } from "./tasks.js";
import type { Theme } from "./themes/theme.js";
import type { Weighed, Weigher } from "./weighing.js";

/** Placements at most this many king's steps apart are one exercise. */
const ALIKE_STEPS = 1;
/** Part of a set that one theme may lead, where others are to be had; not less than the second number. */
const THEME_PART = 1 / 5;
const THEME_LEAST = 2;
/** Exercises of a set in which all but one piece of the attacker's stand alike, where others are to be had. */
const FRAME_MOST = 2;

/** Exercises of a set in which the kings stand alike and one theme leads, for each so many of its size, where others are to be had. */
const LIKE_IDEAS = 12;

/** One that was chosen, with its themes. */
export interface ChosenOne {
  readonly one: Weighed;
  readonly themes: readonly Theme[];
}

/** What was chosen, and why others were not. */
export interface Choice {
  readonly chosen: readonly ChosenOne[];
  readonly refused: Refused;
}

/** Positions of games before those of the table, each in a random order. */
function* shuffled(pools: readonly Pool[], seed: number): Generator<Drawn> {
  for (const isOfGames of [true, false])
    for (const pool of pools) if (pool.isOfGames === isOfGames) yield* pool.inOrder(seed);
}

/** Rows of candidates in an order in which verdicts alternate. */
function interleaved(rows: readonly Weighed[][]): Weighed[][] {
  const byVerdict = new Map<number, Weighed[][]>();
  for (const row of rows) {
    const { verdict } = row[0];
    byVerdict.set(verdict, [...(byVerdict.get(verdict) ?? []), row]);
  }
  const groups = [...byVerdict.values()];
  const most = Math.max(0, ...groups.map(({ length }) => length));
  return Array.from({ length: most }, (_, n) => groups.flatMap((group) => group.slice(n, n + 1))).flat();
}

/** The picture without the attacker's first piece: kings and the rest, which make a position what it is. */
const formationOf = ({ squares, attackerToMove }: Placement): string =>
  pictureOf({ squares: squares.filter((_, n) => n !== FIRST_PIECE), attackerToMove });

/** The picture with the move that is its answer, once without each piece: what is left alike makes it the same exercise. */
const answeredAlike = ({ placement: { squares, attackerToMove }, answer }: Weighed): string[] =>
  answer === undefined
    ? []
    : squares.slice(FIRST_PIECE).map((_, piece) => {
        const others = squares.filter((_, n) => n !== FIRST_PIECE + piece);
        return `${piece} ${pictureOf({ squares: [...others, ...answer], attackerToMove })}`;
      });

/** How the two kings stand to each other, with the theme that leads. */
const ideaKey = ({ squares, attackerToMove }: Placement, theme: Theme): string =>
  `${pictureOf({ squares: [squares[ATTACKER_KING], squares[DEFENDER_KING]], attackerToMove })} ${theme}`;

/** What has been chosen so far. */
class Chosen {
  readonly all: ChosenOne[] = [];
  /** Those that were put aside since their theme has had its part, or they have none. */
  readonly aside: ChosenOne[] = [];
  private readonly likenesses: Likeness[] = [];
  private readonly afterWaiting = new Set<number>();
  private readonly endings = new Set<number>();
  private readonly pictures = new Set<string>();
  private readonly led = new Map<Theme, number>();
  private readonly verdicts = new Map<number, number>();
  private readonly frames = new Map<string, number>();
  private readonly ideas = new Map<string, number>();
  private readonly answered = new Set<string>();

  constructor(
    private readonly asked: ExercisesAsked,
    private readonly weigher: Weigher,
    private readonly look: (one: Weighed) => readonly Theme[] | Refusal,
    private readonly refused: RefusalCount,
  ) {}

  get isFull(): boolean {
    return this.all.length >= this.asked.size;
  }

  private isNew(one: Weighed): boolean {
    const isTwin = () =>
      this.afterWaiting.has(one.key) ||
      this.likenesses.some(
        (likeness) =>
          likeness.placement.attackerToMove === one.placement.attackerToMove &&
          likeness.of(one.key, ALIKE_STEPS) <= ALIKE_STEPS,
      );
    return !this.pictures.has(pictureOf(one.placement)) && !isTwin();
  }

  private take(chosen: ChosenOne, after: ReadonlySet<number>): void {
    const { one, themes } = chosen;
    this.all.push(chosen);
    for (const key of after) this.afterWaiting.add(key);
    this.likenesses.push(new Likeness(one.placement, false));
    this.pictures.add(pictureOf(one.placement));
    if (one.from) this.endings.add(one.from.ending);
    if (themes.length > 0) {
      this.led.set(themes[0], (this.led.get(themes[0]) ?? 0) + 1);
      const idea = ideaKey(one.placement, themes[0]);
      this.ideas.set(idea, (this.ideas.get(idea) ?? 0) + 1);
    }
    for (const way of answeredAlike(one)) this.answered.add(way);
    const formation = formationOf(one.placement);
    this.frames.set(formation, (this.frames.get(formation) ?? 0) + 1);
    this.verdicts.set(one.verdict, (this.verdicts.get(one.verdict) ?? 0) + 1);
  }

  /** Takes one if it is like none that was taken before; `mixing` puts aside what there is enough of. */
  private tryToTake(chosen: ChosenOne, mixing: boolean): boolean {
    const { one, themes } = chosen;
    if (one.from && this.endings.has(one.from.ending)) return false;
    if (!this.isNew(one)) {
      this.refused.add("same picture as another");
      return false;
    }
    if (mixing && this.hasEnoughOf(one, themes)) {
      this.aside.push(chosen);
      return false;
    }
    const after = this.weigher.afterWaiting(one);
    if (this.all.some((other) => after.has(other.one.key))) {
      this.refused.add("same picture as another");
      return false;
    }
    this.take(chosen, after);
    return true;
  }

  /** Whether a theme leads its part of the set already, or a verdict has half of what is to be judged. */
  private hasEnoughOf(one: Weighed, themes: readonly Theme[]): boolean {
    const { task, size, themes: wanted } = this.asked;
    // as many to hold as to win, as many won as drawn
    if ((this.verdicts.get(one.verdict) ?? 0) >= Math.ceil(size / 2) && (task === "judge" || task === "find"))
      return true;
    if (task === "judge") return false;
    if (this.isAnsweredAlike(one)) return true;
    if (this.likeFormations(one) >= FRAME_MOST) return true;
    if (this.likeIdeas(one, themes) >= Math.ceil(size / LIKE_IDEAS)) return true;
    if (themes.length === 0) return true;
    const most =
      wanted === undefined
        ? Math.max(THEME_LEAST, Math.ceil(size * THEME_PART))
        : Math.ceil(size / wanted.length);
    return (this.led.get(themes[0]) ?? 0) >= most;
  }

  /** Takes the first of a row that is like none that was taken before; those before it leave the row as well. */
  takeFrom(row: Weighed[]): void {
    const { themes: wanted } = this.asked;
    while (row.length > 0) {
      const one = row.shift()!;
      const found = this.look(one);
      if (typeof found === "string") {
        this.refused.add(found);
        continue;
      }
      // what was asked for names the exercise, whatever else there is in it
      const asked = wanted?.filter((theme) => found.includes(theme));
      if (asked?.length === 0) {
        this.refused.add("no such theme");
        continue;
      }
      const themes = [...new Set([...(asked ?? []), ...found])];
      if (this.tryToTake({ one, themes }, true)) return;
    }
  }

  /** Takes of what was put aside, those with themes first, and of these what the set has least of. */
  takeAside(): void {
    const left = new Set(this.aside);
    const weightOf = ({ one, themes }: ChosenOne) =>
      themes.length === 0
        ? Infinity
        : (this.isAnsweredAlike(one) ? 1 : 0) +
          this.likeIdeas(one, themes) +
          this.likeFormations(one) +
          (this.asked.themes ? (this.led.get(themes[0]) ?? 0) : 0);
    while (!this.isFull && left.size > 0) {
      const chosen = [...left].reduce((best, next) => (weightOf(next) < weightOf(best) ? next : best));
      left.delete(chosen);
      this.tryToTake(chosen, false);
    }
    this.aside.length = 0;
  }

  /** Whether one that was taken has the same move for an answer, and all but one piece where this one has them. */
  private isAnsweredAlike(one: Weighed): boolean {
    return answeredAlike(one).some((way) => this.answered.has(way));
  }

  private likeFormations({ placement }: Weighed): number {
    return this.frames.get(formationOf(placement)) ?? 0;
  }

  private likeIdeas({ placement }: Weighed, themes: readonly Theme[]): number {
    return themes.length === 0 ? 0 : (this.ideas.get(ideaKey(placement, themes[0])) ?? 0);
  }
}

/**
 * Chooses up to `size` candidates of some pools. Two are alike, and never both chosen, if one is the other turned, mirrored or moved
 * over the board, or at most one king's step from it, or comes from it by a waiting move of each side, or if both come
 * from the same game. `look` gives the themes of one that is about to be taken, or says why it is not.
 */
export function choose(
  pools: readonly Pool[],
  asked: ExercisesAsked,
  weigher: Weigher,
  look: (one: Weighed) => readonly Theme[] | Refusal,
): Choice {
  const refused = new RefusalCount();
  // positions of games first, with one answer first; the table's make up for what is missing
  const waves = Array.from({ length: 4 }, () => new Map<string, Weighed[]>());
  let pool = 0;
  let last = NaN;
  for (const { candidate, hash } of shuffled(pools, seedOf(asked.seed, asked.task))) {
    // twins have the same hash
    if (hash === last) continue;
    last = hash;
    const weighed = weigher.weigh(candidate, asked);
    if (typeof weighed === "string") {
      refused.add(weighed);
      continue;
    }
    const strata = waves[(weighed.from ? 0 : 2) + (weighed.keeping === 1 || asked.task === "judge" ? 0 : 1)];
    const stratum = strata.get(weighed.stratum);
    if (stratum) stratum.push(weighed);
    else strata.set(weighed.stratum, [weighed]);
    if (++pool >= POOL * asked.size) break;
  }
  const chosen = new Chosen(asked, weigher, look, refused);
  for (const strata of waves) {
    const rows = interleaved([...strata.values()]);
    while (!chosen.isFull && rows.some((row) => row.length > 0))
      for (const row of rows) if (!chosen.isFull) chosen.takeFrom(row);
  }
  if (!asked.varied) chosen.takeAside();
  return { chosen: chosen.all, refused: refused.all() };
}
