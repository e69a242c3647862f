// Blocks that show games: one by its number, or several that answer a question.

import { shownPlies } from "../../query/engine/shown.js";
import { renderToString } from "preact-render-to-string";

import { type Question, aboutEndings } from "../../query/language/ast.js";
import { factNamed } from "../../query/language/vocabulary.js";
import { Evaluation } from "../../query/engine/evaluate.js";
import { readEnding } from "../../query/engine/show.js";
import { exclusionsOf } from "../../statistics/exclusions.js";
import { type ColumnStore, columnStoreOf } from "../../store/column-store.js";
import type { Connection } from "../../store/connection.js";
import type { Exclusion } from "../../store/exclusions.js";
import { type EndingAt, GameStory, MOMENTS } from "./game-story.js";
import { type LessonMeans, badBlock, gamesFor, needed, questionOf, wholeNumber } from "./means.js";
import { momentsOf } from "./moments.js";
import type { Block } from "./outline.js";

/** The ending that a block names, at its ply or the one to look at. Throws `bad-block`, `no-such-ending`. */
export function endingAt(means: LessonMeans, block: Block): EndingAt {
  needed(block, "ending");
  const full = readEnding(gamesFor(means, block), wholeNumber(block, "ending", 0, 2 ** 31));
  const { look, firstPly, lastPly } = full.ending;
  const ply = block.values.ply === undefined ? look.ply : Number(block.values.ply);
  if (!full.positions.some((one) => one.ply === ply))
    throw badBlock(block, `ending ${block.values.ending} has the plies ${firstPly} to ${lastPly}`);
  return { full, ply };
}

export function gameBlock(means: LessonMeans, block: Block): string {
  const shown = endingAt(means, block);
  means.games.push(shown);
  return renderToString(<GameStory {...shown} prober={means.prober} />);
}

/**
 * How endings that answer a question are ordered: by the ratings of both players, by the positions that the question asks
 * for, or by the only moves that were found in them.
 */
const ORDERS = ["strongest", "longest", "telling"] as const;
type Order = (typeof ORDERS)[number];

/** More only moves than these tell no more. */
const TELLING = 4;
/** Legal moves with which an only move was a choice. */
const CHOICE = 5;

/** Moves of an ending that alone kept the result and were played, by the side that had it to keep. */
function onlyMovesFound(store: ColumnStore, ending: number): number {
  const column = (name: string) => store.column(name).values;
  const [keeping, legal, error] = [column("keeping"), column("legal"), column("error")];
  const [verdict, turn] = [column("verdict"), column("attacker-to-move")];
  let found = 0;
  for (let p = store.starts[ending]; p < store.starts[ending + 1]; ++p) {
    const keeps = verdict[p] === 0 ? turn[p] === 0 : verdict[p] > 0 === (turn[p] === 1);
    if (keeps && keeping[p] === 1 && legal[p] >= CHOICE && error[p] === 0) ++found;
  }
  return found;
}

/** Endings that are looked at for each one wanted, to find some that have moments to stop at. */
const LOOKED_AT = 12;
/** So many moments make a game worth telling. */
const WORTH_TELLING = 2;
/** With more errors than these a game is no model of anything. */
const MOST_ERRORS = 5;

/** How much there is to tell of an ending from a position on; of a lost one nothing, where it does not show how it was lost. */
function worthOf({ full: { ending, positions }, ply }: EndingAt): number {
  const from = Math.max(
    0,
    positions.findIndex((position) => position.ply === ply),
  );
  const moments = momentsOf(positions, from, MOMENTS);
  const isUnexplained = ending.outcome === "lost" && !moments.some(({ kind }) => kind === "error");
  if (isUnexplained && positions[from].verdict === "drawn") return 0;
  const errors = positions.filter(({ error }) => error !== null && error !== "none").length;
  return Math.min(errors > MOST_ERRORS ? 1 : WORTH_TELLING, moments.length);
}

/** The first endings that answer a question, those with something to tell before others, each at the position that shows it. */
export function endingsFor(
  db: Connection,
  question: Question,
  size: number,
  leaveOut: readonly Exclusion[],
  order: Order = "strongest",
): EndingAt[] {
  const store = columnStoreOf(db);
  const evaluation = new Evaluation(db);
  const mask = evaluation.endings(question);
  const excluded = exclusionsOf(db, leaveOut);
  const about = aboutEndings(question);
  const scoped = (about.kind === "and" ? about.parts : [about]).find((part) => part.kind === "scoped");
  const asked = order === "longest" && scoped ? evaluation.positions(scoped.part) : undefined;
  const ratings = (["white-rating", "black-rating"] as const).map((name) =>
    evaluation.endingValues(factNamed(name)!),
  );
  const places: { n: number; length: number; strength: number }[] = [];
  for (let n = 0; n < mask.length; ++n) {
    if (!mask[n] || excluded[n] >= 0) continue;
    let length = 0;
    if (order === "longest")
      for (let p = store.starts[n]; p < store.starts[n + 1]; ++p) length += asked?.[p] ?? 1;
    if (order === "telling") length = Math.min(TELLING, onlyMovesFound(store, n));
    const strength = Number(ratings[0][n] ?? 0) + Number(ratings[1][n] ?? 0);
    places.push({ n, length, strength });
  }
  const looked = places
    .sort((a, b) => b.length - a.length || b.strength - a.strength || a.n - b.n)
    .slice(0, LOOKED_AT * size)
    .map(({ n }) => {
      const full = readEnding(db, store.ids[n]);
      const one = { full, ply: shownPlies(evaluation, question, n)[0] ?? full.ending.look.ply };
      return { one, worth: worthOf(one) };
    });
  return looked
    .sort((a, b) => b.worth - a.worth)
    .slice(0, size)
    .map(({ one }) => one);
}

export function gamesBlock(means: LessonMeans, block: Block): string {
  const order = ORDERS.find((one) => one === (block.values.order ?? "strongest"));
  if (!order) throw badBlock(block, `"order" is one of ${ORDERS.join(", ")}`);
  const size = wholeNumber(block, "size", 2);
  const db = gamesFor(means, block);
  const asked = [block.values.question, block.values.else].flatMap((text) =>
    text === undefined ? [] : [questionOf(means, { ...block, values: { question: text } })],
  );
  let found: EndingAt[] = [];
  for (const question of asked.length > 0 ? asked : [questionOf(means, block)])
    if (found.length === 0) found = endingsFor(db, question, size, means.leaveOut, order);
  means.games.push(...found);
  return renderToString(
    found.length === 0 ? (
      <p class="note">No game of the database is like that.</p>
    ) : (
      <>
        {found.map((one) => (
          <GameStory {...one} prober={means.prober} />
        ))}
      </>
    ),
  );
}
