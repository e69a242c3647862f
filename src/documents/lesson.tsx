// A lesson: each block of an outline filled with what the table, the catalogue and the games have to say.

import type { Color } from "chessops";
import { renderToString } from "preact-render-to-string";

import type { Material } from "../chess/material.js";
import { LongsideError } from "../errors.js";
import type { Connection } from "../store/connection.js";
import type { Exclusion } from "../store/exclusions.js";
import { columnStoreOf } from "../store/column-store.js";
import { EVERYTHING, type Question, aboutEndings, formatQuestion } from "../query/language/ast.js";
import type { Catalogue } from "../query/language/catalogue.js";
import { Evaluation } from "../query/engine/evaluate.js";
import { parseQuestion } from "../query/language/parse.js";
import { factNamed } from "../query/language/vocabulary.js";
import { aboutGames } from "../query/engine/placement-test.js";
import type { Tables } from "../tablebase/tables.js";
import { errorInWords, moveNumber, namesText, playersText, valueInWords } from "./annotated-game.js";
import { reasonsToLeave } from "../statistics/cases.js";
import { errorsBy } from "../statistics/errors.js";
import {
  type Candidate,
  type Exercise,
  ExerciseMaker,
  candidatesFromTable,
  questionFor,
} from "../exercises/exercises.js";
import { TASKS } from "../exercises/tasks.js";
import { Mapper } from "../position/map.js";
import { Study } from "../statistics/moves-made.js";
import type { Prober } from "../position/probe.js";
import type { PositionAnswer } from "../query/engine/rows.js";
import { type FullEnding, readEnding } from "../query/engine/show.js";
import { slides } from "../position/slide.js";
import { readSplit } from "../query/engine/splits.js";
import { type Outcomes, survey } from "../survey/survey.js";
import { arrowBetween, diagramsSvg, readArrows, readRings } from "./diagram.js";
import { TURNS, mapSvg, slidesSvg } from "./drawings.js";
import { ExerciseBoards, ExerciseSolutions } from "./exercise-set.js";
import type { Block } from "./outline.js";
import { Figure } from "./printed-page.js";
import { errorTable } from "./report.js";
import { TableView, percentText } from "./tables.js";

/** What a lesson is made with. */
export interface LessonMeans {
  /** None where there is no database: what needs games then fails with a hint. */
  readonly db: Connection | undefined;
  readonly target: Material;
  readonly tables: Tables;
  readonly prober: Prober;
  readonly catalogue: Catalogue;
  readonly setUps: string | null;
  readonly leaveOut: readonly Exclusion[];
  readonly threads: number;
  readonly seed: number;
}

const moveText = ({ fen, move }: Pick<PositionAnswer, "fen" | "move">): string =>
  `${moveNumber(fen)} ${move}`;

/** Errors told of one game, and half-moves shown from the position to look at. */
const MOST_ERRORS = 6;
const MOVES_SHOWN = 12;

/** A game's verdict story: the position to look at, what was played from there, and every error. */
const GameStory = ({ full, ply }: { full: FullEnding; ply: number }) => {
  const { ending, positions, game } = full;
  const at = positions.findIndex((position) => position.ply === ply);
  const look = positions[at];
  const errors = positions.flatMap((position, n) => {
    const said = errorInWords(position, positions[n + 1]);
    return said ? [`${moveText(position)}? ${said}`] : [];
  });
  const played = positions.slice(at, at + MOVES_SHOWN).flatMap((position, n) => {
    if (position.move === null) return [];
    const bad = position.error !== null && position.error !== "none" ? "?" : "";
    const text = moveText(position);
    return [`${n === 0 || position.fen.split(" ")[1] === "w" ? text : position.move}${bad}`];
  });
  const title = playersText(game);
  const where = [game.event, game.date].filter((part) => part !== null && part !== undefined).join(", ");
  const captured = ending.captured === null ? "" : ` (the ${ending.captured})`;
  return (
    <div class="game">
      <h4>
        {title}
        {where && <>, {where}</>}
      </h4>
      <Figure
        name="board"
        svg={diagramsSvg(
          [
            {
              fen: look.fen,
              turn: true,
              arrows: arrowBetween(look.fen, positions[at + 1]?.fen),
              caption: [
                `${look.move === null ? "the last position" : moveText(look)}: ${valueInWords(look)}`,
              ],
            },
          ],
          1,
          title,
        )}
      />
      <p>
        {played.join(" ")}
        {at + MOVES_SHOWN < positions.length ? " …" : ""}
      </p>
      <p>
        The ending begins with move {positions[0].fen.split(" ")[5]}: {valueInWords(positions[0])}.{" "}
        {errors.length === 0 && "Nobody gives anything away. "}
        {errors.slice(0, MOST_ERRORS).map((error) => `${error}. `)}
        {errors.length > MOST_ERRORS && `And ${errors.length - MOST_ERRORS} more errors. `}
        It ended with move {positions.at(-1)!.fen.split(" ")[5]}: {ending.endedBy}
        {captured}; the defender {ending.outcome === "open" ? "— the game has no result" : ending.outcome}.
      </p>
    </div>
  );
};

/** Fills the blocks of one lesson, and keeps its exercises for the end. */
export class LessonFiller {
  private readonly exercises: Exercise[] = [];

  constructor(private readonly means: LessonMeans) {}

  /** The HTML in the place of a block. */
  readonly fill = async (block: Block): Promise<string> => {
    switch (block.name) {
      case "board":
        return this.board(block);
      case "map":
        return this.map(block);
      case "slides":
        return this.slides(block);
      case "survey":
        return this.survey(block);
      case "games":
        return this.games(block);
      case "game":
        return this.game(block);
      case "errors":
        return this.errors(block);
      case "exercises":
        return this.exercisesOf(block);
    }
  };

  /** The solutions of every exercise of the lesson; nothing where there is none. */
  solutions(): string {
    if (this.exercises.length === 0) return "";
    return renderToString(
      <section class="solutions">
        <h2>Solutions</h2>
        <ExerciseSolutions exercises={this.exercises} />
      </section>,
    );
  }

  private need({ name, values }: Block, field: string): string {
    const value = values[field];
    if (value === undefined)
      throw new LongsideError("bad-block", { block: name, cause: `it needs a line "${field}: …"` });
    return value;
  }

  private number(block: Block, field: string, usual: number, most = 200): number {
    const value = block.values[field];
    if (value === undefined) return usual;
    const number = Number(value);
    if (!Number.isInteger(number) || number < 1 || number > most)
      throw new LongsideError("bad-block", {
        block: block.name,
        cause: `"${field}" is a whole number from 1 to ${most}`,
      });
    return number;
  }

  private gamesFor(block: Block): Connection {
    if (!this.means.db)
      throw new LongsideError("bad-block", {
        block: block.name,
        cause: "there is no database to take games from",
      });
    return this.means.db;
  }

  private question(block: Block): Question {
    return parseQuestion(block.values.question ?? "", this.means.catalogue.known);
  }

  /** The ending that a block names, and the ply it says or the one to look at. */
  private ending(block: Block): { full: FullEnding; ply: number } {
    this.need(block, "ending");
    const full = readEnding(this.gamesFor(block), this.number(block, "ending", 0, 2 ** 31));
    const { look, firstPly, lastPly } = full.ending;
    const ply = block.values.ply === undefined ? look.ply : Number(block.values.ply);
    if (!full.positions.some((one) => one.ply === ply))
      throw new LongsideError("bad-block", {
        block: block.name,
        cause: `ending ${block.values.ending} has the plies ${firstPly} to ${lastPly}`,
      });
    return { full, ply };
  }

  private game(block: Block): string {
    return renderToString(<GameStory {...this.ending(block)} />);
  }

  private board(block: Block): string {
    const { below, arrows, rings, caption, ending } = block.values;
    if (below !== undefined && below !== "white" && below !== "black")
      throw new LongsideError("bad-block", { block: "board", cause: `"below" is white or black` });
    let fen: string;
    if (ending === undefined) {
      fen = this.need(block, "fen");
    } else {
      const { full, ply } = this.ending(block);
      fen = full.positions.find((one) => one.ply === ply)!.fen;
    }
    // refuses what is no position
    this.means.prober.probe(fen);
    return renderToString(
      <Figure
        name="board"
        svg={diagramsSvg(
          [
            {
              fen,
              turn: true,
              below: below as Color | undefined,
              arrows: arrows === undefined ? [] : readArrows(arrows),
              marks: rings === undefined ? undefined : readRings(rings),
              caption: caption === undefined ? [] : [caption],
            },
          ],
          1,
          caption ?? "A position",
        )}
      />,
    );
  }

  private map(block: Block): string {
    const mapper = new Mapper(this.need(block, "fen"), this.means.prober);
    const pieces = mapper.pieces((block.values.piece ?? "defender's rook").split(","));
    const map = pieces.length === 1 ? mapper.map(pieces[0]) : mapper.count(pieces[0], pieces[1]);
    const { won, drawn, lost } = map.counts;
    return renderToString(
      <Figure name="board" svg={mapSvg(map)}>
        Plus: won for the attacker ({won}); two bars: drawn ({drawn})
        {lost > 0 && <>; one bar: lost ({lost})</>}. The frame marks where it stands.
      </Figure>,
    );
  }

  private slides(block: Block): string {
    const { prober, catalogue } = this.means;
    return renderToString(<Figure svg={slidesSvg(slides(this.need(block, "fen"), prober, catalogue))} />);
  }

  private async survey(block: Block): Promise<string> {
    const { target, threads, setUps } = this.means;
    const asked = this.question(block);
    const foreign = aboutGames(asked);
    if (foreign)
      throw new LongsideError("bad-block", {
        block: "survey",
        cause: `"${formatQuestion(foreign)}" is about games, and a survey is about placements`,
      });
    const question = formatQuestion(asked);
    const by = block.values.by ?? null;
    const { groups, all } = await survey(target, { question, setUps, by }, threads);
    const cells = ({ counts, moves, longest }: Outcomes) => {
      const of = counts.won + counts.drawn + counts.lost;
      return {
        placements: of,
        won: of === 0 ? "–" : percentText(counts.won / of),
        drawn: of === 0 ? "–" : percentText((counts.drawn + counts.lost) / of),
        mean: counts.won === 0 ? null : moves.won / counts.won,
        longest: counts.won === 0 ? null : longest.won,
      };
    };
    const rows = (by === null ? [all] : groups).flatMap((group) =>
      TURNS.map(({ turn, side }) => ({
        value: group.value === null ? "none" : String(group.value),
        side,
        ...cells(group[turn]),
      })).filter(({ placements }) => placements > 0),
    );
    return renderToString(
      <TableView
        id="survey"
        caption={`Every position that fits ${question}`}
        columns={[
          ...(by === null ? [] : [{ name: "value", head: by, kind: "text" } as const]),
          { name: "side", head: "to move", kind: "text" },
          { name: "placements", head: "positions", kind: "count" },
          { name: "won", head: "won", kind: "count" },
          { name: "drawn", head: "not won", kind: "count" },
          { name: "mean", head: "mean win, moves", kind: "decimal" },
          { name: "longest", head: "longest", kind: "count" },
        ]}
        rows={rows}
      />,
    );
  }

  /**
   * Endings that answer, each with the ply to look at: those of the strongest players, or with the most positions of
   * the kind that the question asks for.
   */
  private chosen(
    db: Connection,
    question: Question,
    size: number,
    order: "strongest" | "longest" = "strongest",
  ): { full: FullEnding; ply: number }[] {
    const store = columnStoreOf(db);
    const evaluation = new Evaluation(db);
    const mask = evaluation.endings(question);
    const reasons = reasonsToLeave(db, this.means.leaveOut);
    const about = aboutEndings(question);
    const scoped = (about.kind === "and" ? about.parts : [about]).find((part) => part.kind === "scoped");
    const asked = scoped && evaluation.positions(scoped.part);
    const ratings = (["white-rating", "black-rating"] as const).map((name) =>
      evaluation.endingValues(factNamed(name)!),
    );
    const places: { n: number; rank: number; strength: number }[] = [];
    for (let n = 0; n < mask.length; ++n) {
      if (!mask[n] || reasons[n] >= 0) continue;
      let stay = 0;
      for (let p = store.starts[n]; p < store.starts[n + 1]; ++p) stay += asked?.[p] ?? 1;
      const strength = Number(ratings[0][n] ?? 0) + Number(ratings[1][n] ?? 0);
      places.push({ n, rank: order === "longest" ? stay : 0, strength });
    }
    return places
      .sort((a, b) => b.rank - a.rank || b.strength - a.strength || a.n - b.n)
      .slice(0, size)
      .map(({ n }) => {
        const full = readEnding(db, store.ids[n]);
        return { full, ply: evaluation.shown(question, n)[0] ?? full.ending.look.ply };
      });
  }

  private games(block: Block): string {
    const { order = "strongest" } = block.values;
    if (order !== "strongest" && order !== "longest")
      throw new LongsideError("bad-block", { block: "games", cause: `"order" is strongest or longest` });
    const found = this.chosen(
      this.gamesFor(block),
      this.question(block),
      this.number(block, "size", 2),
      order,
    );
    if (found.length === 0) return renderToString(<p class="note">No game of the database is like that.</p>);
    return renderToString(
      <>
        {found.map((one) => (
          <GameStory {...one} />
        ))}
      </>,
    );
  }

  private errors(block: Block): string {
    const db = this.gamesFor(block);
    const question = this.question(block);
    const study = new Study(db, EVERYTHING, this.means.leaveOut);
    const split = readSplit("kind", []);
    const groups = errorsBy(study, split, question).filter(({ side }) => side === "defender");
    const missed: Question = {
      kind: "and",
      parts: [question, parseQuestion("to-move = defender and verdict = drawn and error != none")],
    };
    const examples = this.chosen(
      db,
      { kind: "scoped", quantifier: "somewhere", part: missed },
      this.number(block, "size", 3),
    );
    return renderToString(
      <>
        {groups.length === 0 ? (
          <p class="note">Nobody in the database had something to lose there.</p>
        ) : (
          <TableView {...errorTable("errors", "kind of move", groups, "no move")} />
        )}
        <div class="boards">
          {examples.map(({ full, ply }) => {
            const at = full.positions.findIndex((position) => position.ply === ply);
            const position = full.positions[at];
            const { explanation } = this.means.prober.probe(position.fen);
            const game = namesText(full.game);
            return (
              <Figure
                svg={diagramsSvg(
                  [
                    {
                      fen: position.fen,
                      turn: true,
                      arrows: arrowBetween(position.fen, full.positions[at + 1]?.fen),
                    },
                  ],
                  1,
                  game,
                )}
              >
                {game}: {moveText(position)}? {errorInWords(position, full.positions[at + 1])}. It holds with{" "}
                {explanation.keeping.join(", ")}.
              </Figure>
            );
          })}
        </div>
      </>,
    );
  }

  private async exercisesOf(block: Block): Promise<string> {
    const { target, tables, prober, catalogue, db, leaveOut, setUps, threads, seed } = this.means;
    const task = TASKS.find(({ name }) => name === (block.values.task ?? "hold"))?.name;
    if (!task)
      throw new LongsideError("bad-block", {
        block: "exercises",
        cause: `a task is one of ${TASKS.map(({ name }) => name).join(", ")}`,
      });
    const { among } = block.values;
    if (among !== undefined && among !== "games" && among !== "table")
      throw new LongsideError("bad-block", { block: "exercises", cause: `"among" is games or table` });
    if (among === "games") this.gamesFor(block);
    const maker = new ExerciseMaker(target, tables, prober, catalogue, db, leaveOut);
    const { fens } = block.values;
    if (fens !== undefined) {
      const given = fens.split("\n").map((fen) => ({ fen }));
      return this.numbered(maker.given(given).exercises);
    }
    const question = questionFor(this.question(block), task);
    const wanted = {
      task,
      answers: this.number(block, "answers", 1),
      size: this.number(block, "size", 9),
      seed: this.number(block, "seed", seed, 2 ** 31),
    };
    const games: Candidate[] = db && among !== "table" ? maker.candidatesFromGames(question) : [];
    let chosen = maker.choose(games, wanted);
    // where nothing else is said the table fills up what the games cannot give
    if (chosen.length < wanted.size && among !== "games" && aboutGames(question) === undefined) {
      const drawn = await candidatesFromTable(target, question, wanted, { setUps, threads });
      chosen = maker.choose([...games, ...drawn], wanted);
    }
    return this.numbered(chosen);
  }

  /** The boards of more exercises, numbered on through the lesson. */
  private numbered(chosen: readonly Exercise[]): string {
    const first = this.exercises.length;
    const numbered = chosen.map((one, n) => ({ ...one, number: first + n + 1 }));
    this.exercises.push(...numbered);
    return renderToString(<ExerciseBoards exercises={numbered} />);
  }
}
