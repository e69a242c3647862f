// The block of slides: the formation moved along the edge, told in a sentence, with boards where the result changes.

import { renderToString } from "preact-render-to-string";

import { placementOf, readFen } from "../../chess/fen.js";
import { DEFENDER_KING } from "../../chess/placement.js";
import { fileOf, squareName } from "../../chess/squares.js";
import type { Verdict } from "../../chess/verdict.js";
import { type Slid, slides } from "../../position/slide.js";
import { outcomeInWords } from "../../position/variations.js";
import { FILE_NAMES, fileName } from "../../position/wording.js";
import { diagramsSvg } from "../diagram.js";
import { edgeStrip } from "../drawings.js";
import { Figure } from "../printed-page.js";
import { type LessonMeans, needed } from "./means.js";
import type { Block } from "./outline.js";
import { listed } from "./sentences.js";
import { uprightFen } from "./upright.js";

/** Boards that are drawn. */
const BOARDS = 4;

/** One place of the formation: where the defender's king stands, and what it comes to. */
interface Place {
  readonly slid: Slid;
  readonly file: number;
  readonly square: string;
  readonly verdict: Verdict;
  readonly dtm: number | null;
}

function placesOf(strip: readonly Slid[], turn: "attackerToMove" | "defenderToMove"): Place[] {
  return strip.flatMap((slid) => {
    const value = slid[turn];
    if (!value) return [];
    const king = placementOf(readFen(slid.fen)).squares[DEFENDER_KING];
    return [{ slid, file: fileOf(king), square: squareName(king), verdict: value.verdict, dtm: value.dtm }];
  });
}

const SAID: Readonly<Record<Verdict, string>> = { won: "won", drawn: "drawn", lost: "lost for White" };

/** "The position is drawn on a centre or a bishop's file and won on a knight's file"; by squares where the two sides differ. */
function inWords(places: readonly Place[]): string {
  const verdicts = [...new Set(places.map(({ verdict }) => verdict))];
  if (verdicts.length === 1) return `the position is ${SAID[verdicts[0]]} wherever along the edge it stands`;
  const names = FILE_NAMES.filter((name) => places.some(({ file }) => fileName(file) === name));
  const bySide = (name: string) =>
    new Set(places.filter(({ file }) => fileName(file) === name).map(({ verdict }) => verdict));
  if (names.every((name) => bySide(name).size === 1)) {
    const parts = verdicts.map((verdict) => {
      const own = names.filter((name) => bySide(name).has(verdict)).reverse();
      // with an article, since a board has two of each, and a wide formation may have room on one alone
      const files = own.map((name) => `${name === "edge" ? "an" : "a"} ${name}`);
      return `${SAID[verdict]} on ${listed(files, "or")} file`;
    });
    return `the position is ${listed(parts)}`;
  }
  const parts = verdicts.map((verdict) => {
    const own = places.filter((place) => place.verdict === verdict).map(({ square }) => square);
    return `${SAID[verdict]} with Black's king on ${listed(own, "or")}`;
  });
  return `the position is ${listed(parts)}`;
}

/** Places to draw: the formation itself, and on either side the nearest with another result. */
function toDraw(places: readonly Place[]): Place[] {
  const own = places.findIndex(({ slid }) => slid.files === 0 && slid.ranks === 0);
  const changes = places.filter(
    ({ verdict }, n) =>
      n === own ||
      (n > 0 && places[n - 1].verdict !== verdict) ||
      (n + 1 < places.length && places[n + 1].verdict !== verdict),
  );
  return changes
    .sort((a, b) => Math.abs(places.indexOf(a) - own) - Math.abs(places.indexOf(b) - own))
    .slice(0, BOARDS)
    .sort((a, b) => a.file - b.file);
}

export function slidesBlock({ prober, catalogue }: LessonMeans, block: Block): string {
  const fen = uprightFen(needed(block, "fen"));
  const found = slides(fen, prober, catalogue);
  const strip = edgeStrip(found);
  const turns = (["attackerToMove", "defenderToMove"] as const).map((turn) => ({
    places: placesOf(strip, turn),
    side: turn === "attackerToMove" ? "White" : "Black",
  }));
  const said = turns
    .filter(({ places }) => places.length > 1)
    .map(({ places, side }) => ({ side, words: inWords(places) }));
  if (said.length === 0)
    return renderToString(
      <p>The pieces reach from one side of the board to the other: there is no file over.</p>,
    );
  const isSame = said.length > 1 && said.every(({ words }) => words === said[0].words);
  const differs = ({ places }: (typeof turns)[number]) =>
    new Set(places.map(({ verdict }) => verdict)).size > 1;
  const own = found.sideToMove === "attacker" ? turns[0] : turns[1];
  const other = found.sideToMove === "attacker" ? turns[1] : turns[0];
  const shown = differs(own) ? own : differs(other) ? other : own;
  const drawn = differs(shown) ? toDraw(shown.places) : [];
  return renderToString(
    <>
      <p>
        Move all the pieces along the edge together.{" "}
        {isSame
          ? `With either side to move, ${said[0].words}.`
          : said.map(({ side, words }) => `With ${side} to move, ${words}.`).join(" ")}
      </p>
      {drawn.length > 0 && (
        <div class="boards four">
          {drawn.map(({ slid, square, file, verdict, dtm }) => {
            const turn = shown.side === "White" ? " w " : " b ";
            const at = slid.fen.replace(/ [wb] /, turn);
            const result = outcomeInWords({ verdict, dtm }, "white");
            return (
              <Figure svg={diagramsSvg([{ fen: at, turn: true }], 1, `Black's king on ${square}`)}>
                Black's king on {square},{" "}
                {file === 0 || file === 7 ? "an edge file" : `a ${fileName(file)} file`}: {result}.
              </Figure>
            );
          })}
        </div>
      )}
    </>,
  );
}
