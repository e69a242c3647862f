// The block of the attacker's tries: what each of the most dangerous moves threatens, why the natural reply fails, what the
// right one does; and what the set-up turns into over the whole table.

import type { Chess } from "chessops/chess";
import { renderToString } from "preact-render-to-string";

import { makeFen } from "chessops/fen";

import { placementFen, readFen } from "../../chess/fen.js";
import { squareName } from "../../chess/squares.js";
import type { Prober, Probe } from "../../position/probe.js";
import type { ProbedMove } from "../../position/valued.js";
import { temptsNobody } from "../../position/temptation.js";
import { capital, numberWord, sentence, withEnd } from "../../position/wording.js";
import { setUpInWords } from "../../query/language/set-up-words.js";
import { Regions } from "../../survey/regions.js";
import { changesOver } from "../../survey/changes.js";
import { diagramsSvg } from "../diagram.js";
import { Figure } from "../printed-page.js";
import { type LessonMeans, heldFor, needed, questionOf, wholeNumber } from "./means.js";
import type { Block } from "./outline.js";
import { listed, shareInWords } from "./sentences.js";
import { threatInWords } from "./threat.js";
import { uprightFen } from "./upright.js";

/** Tries that are shown. */
const SHOWN = 3;

/** Positions of the set-up in which tries are looked for, beside the one of the lesson. */
const LOOKED_AT = 40;
/** Replies that hold, at most, where a try asks for an exact answer. */
const EXACT = 2;

/** A move of the attacker that tests, the position before it and after it. */
interface Try {
  readonly fen: string;
  readonly move: ProbedMove;
  readonly after: Chess;
  /** Replies that hold, and all replies. */
  readonly hold: number;
  readonly legal: number;
}

/** Quiet moves that give nothing away and leave few replies that hold, those that leave the fewest first. */
function triesIn(fen: string, prober: Prober): Try[] {
  const position = readFen(fen);
  const { moves } = prober.values(position);
  return moves
    .filter((move) => !position.board.occupied.has(move.to) && !temptsNobody(position, move))
    .map((move): Try => {
      const after = position.clone();
      after.play({ from: move.from, to: move.to });
      const replies = prober.values(after).moves;
      const hold = replies.filter(({ verdict }) => verdict !== "won").length;
      return { fen, move, after, hold, legal: replies.length };
    })
    .filter(({ hold, legal, after }) => hold > 0 && hold <= EXACT && legal > hold + 1 && !after.isCheck())
    .sort((a, b) => a.hold - b.hold || b.legal - a.legal || (a.move.san < b.move.san ? -1 : 1));
}

/** A try with all that is known of the position after it. */
interface Told {
  readonly one: Try;
  readonly probe: Probe;
}

/** Tries from the lesson's position first, then from others of the set-up: each with a threat and a natural move that fails. */
function toldTries(fens: readonly string[], prober: Prober, size: number): Told[] {
  const told: Told[] = [];
  const asked = new Set<string>();
  for (const fen of fens) {
    if (told.length >= size) break;
    for (const one of triesIn(fen, prober)) {
      const probe = prober.probe(makeFen(one.after.toSetup()));
      const { threat, tempting } = probe.explanation;
      if (!threat || tempting.length === 0 || tempting[0].line.length === 0) continue;
      // the same piece for both sides, and the same kind of threat, is the same lesson
      const natural = prober.values(one.after).moves.find(({ san }) => san === tempting[0].san)!;
      if (temptsNobody(one.after, natural)) continue;
      const reply = probe.moves.find(({ verdict }) => verdict === probe.verdict)!;
      if (reply.san.includes("x")) continue;
      const key = `${one.move.san[0]} ${reply.san[0]} ${"mates" in threat ? "mate" : threat.wins}`;
      if (asked.has(key)) continue;
      asked.add(key);
      told.push({ one, probe });
      break;
    }
  }
  return told;
}

/** The lesson's position, and others that fit its question: drawn, the attacker to move. */
async function startsOf(means: LessonMeans, block: Block, fen: string): Promise<string[]> {
  if (block.values.question === undefined) return [fen];
  const drawn = (await heldFor(means, block)).slice(0, LOOKED_AT);
  return [fen, ...drawn.map((placement) => uprightFen(placementFen(placement, means.target, "white")))];
}

/** "2. Rd8+ Kc7 3. …: White mates in 4". */
const lineInWords = (number: number, black: boolean, line: readonly string[], end: string): string => {
  const moves = line.map((san, n) => {
    const whites = black ? n % 2 === 1 : n % 2 === 0;
    const move = number + Math.floor((n + (black ? 1 : 0)) / 2);
    return whites ? `${move}. ${san}` : n === 0 ? `${move}... ${san}` : san;
  });
  return withEnd(moves.join(" "), end);
};

/** What a try asks, in three sentences. */
function tryInWords({ probe }: Told, own: string | undefined): string {
  const { explanation, moves } = probe;
  const [natural] = explanation.tempting;
  const holds = moves.filter(({ verdict }) => verdict === probe.verdict);
  // what is said of several replies must be true of each
  const shared = holds[0].setUps.filter((name) => holds.every(({ setUps }) => setUps.includes(name)));
  const into =
    own !== undefined && shared.includes(own)
      ? "keep the set-up"
      : shared.length > 0
        ? `lead to ${setUpInWords(shared[0])}`
        : "";
  const right =
    holds.length === 1
      ? `Only 1... ${holds[0].san} holds${into === "" ? "" : `, and ${into.replace(/^(keep|lead)/, "$1s")}`}`
      : `Both 1... ${listed(holds.map(({ san }) => san))} hold${into === "" ? "" : `, and ${into}`}`;
  return [
    `it ${threatInWords(explanation.threat)}`,
    `The natural 1... ${natural.san}? fails: ${lineInWords(2, false, natural.line, natural.end)}`,
    right,
  ]
    .map((part) => sentence(capital(part)))
    .join(" ");
}

/** What the set-up turns into when the attacker tests it, over the whole table. */
async function changesInWords(means: LessonMeans, block: Block): Promise<string | null> {
  const { target, catalogue, threads } = means;
  const name = catalogue.named(questionOf(means, block))?.name;
  if (name === undefined) return null;
  const regions = await Regions.ofCatalogue(target, catalogue, threads);
  const found = changesOver(regions, regions.regions).find(({ setUp }) => setUp === name);
  if (!found || found.moves === 0) return null;
  const { moves, stay, captures, into, nameless } = found;
  const left = moves - stay - captures;
  const kept = `against ${shareInWords(stay / moves)} of the attacker's quiet moves the defender can stay in the set-up`;
  if (left / moves < 0.01) return sentence(capital(kept));
  const named = into.filter((one) => one.moves / left >= 0.1).slice(0, 3);
  const where =
    named.length === 0
      ? "after the others it has to be left"
      : `otherwise it mostly changes into ${listed(
          named.map(({ setUp }) => setUpInWords(setUp)),
          "or",
        )}`;
  const blank = nameless / left > 0.3 ? "; often no set-up has a name for what comes next" : "";
  return [kept, `${where}${blank}`].map((one) => sentence(capital(one))).join(" ");
}

export async function triesBlock(means: LessonMeans, block: Block): Promise<string> {
  const { prober } = means;
  const fen = uprightFen(needed(block, "fen"));
  const size = wholeNumber(block, "size", SHOWN, 9);
  const told = toldTries(await startsOf(means, block, fen), prober, size);
  const changes = block.values.question === undefined ? null : await changesInWords(means, block);
  const own = means.catalogue.named(questionOf(means, block))?.name;
  return renderToString(
    <>
      {changes && <p>{changes}</p>}
      {told.length === 0 ? (
        <p>The attacker has no quiet move that asks for an exact answer.</p>
      ) : (
        <>
          <p>
            {capital(numberWord(told.length))} {told.length === 1 ? "try asks" : "tries ask"} for an exact
            answer; each board shows the position after White's move, and the arrow a reply that holds.
          </p>
          {told.map((each) => {
            const { after, move } = each.one;
            const reply = prober.values(after).moves.find(({ verdict }) => verdict === each.probe.verdict)!;
            const diagram = {
              fen: each.probe.fen,
              turn: true,
              arrows: [{ from: reply.from, to: reply.to }],
            };
            const title = `After 1. ${move.san}`;
            // one below the other, so that a page may end between them
            return (
              <div class="beside try">
                <div>
                  <p>
                    White has played 1. {move.san}, from {squareName(move.from)}. {tryInWords(each, own)}
                  </p>
                </div>
                <Figure svg={diagramsSvg([diagram], 1, title)}>{title}.</Figure>
              </div>
            );
          })}
        </>
      )}
    </>,
  );
}
