// A lesson for other programs and for a book: as Markdown with its drawings beside it, as PGN with the text as comments,
// and as EPD. All are made from the page's own body, so that they say what the page says.

import { gfm } from "@joplin/turndown-plugin-gfm";
import { parseHTML } from "linkedom";
import Turndown from "turndown";

import type { Exercise } from "../../exercises/exercise.js";
import { epdLine } from "../../pgn/game/epd.js";
import { positionAsGame, writeGame } from "../../pgn/game/write.js";
import { plainLine } from "../../plain-text.js";
import { capital, sentence } from "../../position/wording.js";
import type { EndingAt } from "./game-story.js";
import { annotatedGame } from "../annotated-game.js";
import { joinedPieces } from "../rule-tree.js";
import { exercisesEpd, exercisesPgn } from "../exercise-files.js";

/** A lesson as it was filled. */
export interface FilledLesson {
  readonly title: string;
  /** HTML of the page's body, pieces by their English letters. */
  readonly body: string;
  readonly exercises: readonly Exercise[];
  /** The games of its blocks, in order. */
  readonly games: readonly EndingAt[];
}

export interface LessonFiles {
  readonly markdown: string;
  readonly pgn: string;
  readonly epd: string;
  /** Each drawing as SVG, with its caption; named by its place, "01". */
  readonly drawings: readonly { readonly name: string; readonly svg: string; readonly caption: string }[];
}

/** A board of the lesson with what is said before it. */
interface Position {
  readonly fen: string;
  readonly section: string;
  readonly said: readonly string[];
  readonly caption: string;
}

type Element = NonNullable<ReturnType<ReturnType<typeof parseHTML>["document"]["querySelector"]>>;

const textOf = (element: Element): string => plainLine(element.textContent).replace(/\s+/g, " ").trim();

/** What a figure shows on paper: of several widths of the same the first, which may be in pieces. */
function shownOf(figure: Element): Element[] {
  const [first, ...more] = figure.querySelectorAll("svg");
  const kind = first?.getAttribute("class");
  return [first, ...more.filter((one) => kind && one.getAttribute("class") === kind)].filter((one) => one);
}

/** What the drawings of a page are, in order, each with a name. */
function drawingsOf(figures: readonly Element[]): LessonFiles["drawings"] {
  const digits = Math.max(2, String(figures.length).length);
  return figures.map((figure, n) => ({
    name: String(n + 1).padStart(digits, "0"),
    svg: joinedPieces(shownOf(figure).map(({ outerHTML }) => outerHTML)),
    caption: textOf(figure.querySelector("figcaption") ?? figure),
  }));
}

/** The boards of the text in order; those of games and of exercises are left to these. */
function positionsOf(root: Element): Position[] {
  const positions: Position[] = [];
  let section = "";
  let said: string[] = [];
  for (const element of root.querySelectorAll("h1, h2, h3, p, li, figure")) {
    if (element.closest(".game, .hint, .solutions, .names")) continue;
    const name = element.tagName.toLowerCase();
    if (/^h\d$/.test(name)) {
      section = textOf(element);
      said = [];
    } else if (name !== "figure") said.push(textOf(element));
    else if (!element.querySelector("figcaption.task")) {
      const drawings = shownOf(element);
      const own = drawings[0]?.getAttribute("data-fen");
      const boards = own
        ? [{ fen: own, caption: textOf(element.querySelector("figcaption") ?? element) }]
        : drawings.flatMap((drawing) =>
            [...drawing.querySelectorAll("[data-fen]")].map((board) => ({
              fen: board.getAttribute("data-fen")!,
              caption: sentence(capital(board.getAttribute("data-caption") ?? "")),
            })),
          );
      for (const board of boards) {
        positions.push({ ...board, section, said });
        said = [];
      }
    }
  }
  return positions;
}

/** The page's body as Markdown, its drawings as pictures in a folder beside it. */
function markdownOf(body: string, drawings: LessonFiles["drawings"], folder: string): string {
  const turndown = new Turndown({ headingStyle: "atx", codeBlockStyle: "fenced", emDelimiter: "*" });
  turndown.use(gfm);
  let drawn = 0;
  turndown.addRule("drawing", {
    filter: "figure",
    replacement() {
      const { name, caption } = drawings[drawn++];
      return `\n\n![${caption.replace(/[[\]]/g, "\\$&")}](${folder}/${name}.svg)\n\n${caption}\n\n`;
    },
  });
  return `${turndown.turndown(body)}\n`;
}

/** A lesson as files; `folder` is where the Markdown looks for the drawings. */
export function lessonFiles({ title, body, exercises, games }: FilledLesson, folder: string): LessonFiles {
  const { document } = parseHTML(`<!doctype html><html><body><main>${body}</main></body></html>`);
  const root = document.querySelector("main")!;
  const drawings = drawingsOf([...root.querySelectorAll("figure")]);
  const positions = positionsOf(root);
  return {
    drawings,
    markdown: markdownOf(body, drawings, folder),
    pgn: [
      ...positions.map(({ fen, section, said, caption }, n) => {
        const comment = [...said, caption].filter((part) => part !== "").join(" ");
        return writeGame(positionAsGame(fen, { title, round: n + 1, comment, white: section }));
      }),
      ...games.map(({ full }) => writeGame(annotatedGame(full))),
      exercisesPgn(exercises, title),
    ].join(""),
    epd:
      positions
        .map(
          ({ fen, section, caption }, n) =>
            `${epdLine(fen, [
              { opcode: "id", operands: [`${title}, ${section}, ${n + 1}`], text: true },
              { opcode: "c0", operands: caption === "" ? [] : [caption], text: true },
            ])}\n`,
        )
        .join("") + exercisesEpd(exercises, `${title}, exercises`),
  };
}
