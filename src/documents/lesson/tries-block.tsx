// The block of the attacker's tries: what each of the most dangerous moves threatens, why the natural reply fails, what the
// right one does; and what the set-up turns into over the whole table.

import type { Chess } from "chessops/chess";
import { renderToString } from "preact-render-to-string";

import { makeFen } from "chessops/fen";

import { readFen } from "../../chess/fen.js";
import type { Prober, Probe } from "../../position/probe.js";
import type { ProbedMove } from "../../position/valued.js";
import { temptsNobody } from "../../position/temptation.js";
import { capital, sentence } from "../../position/wording.js";
import { Regions } from "../../survey/regions.js";
import { changesOver } from "../../survey/changes.js";
import { diagramsSvg } from "../diagram.js";
import { Figure } from "../printed-page.js";
import { type LessonMeans, needed, questionOf, wholeNumber } from "./means.js";
import type { Block } from "./outline.js";
import { listed, numberWord, shareInWords } from "./sentences.js";
import { threatInWords } from "./threat.js";
import { uprightFen } from "./upright.js";

/** Tries that are shown. */
const SHOWN = 3;

/** One move of the side that tests, and the position after it. */
interface Try {
  readonly move: ProbedMove;
  readonly after: Chess;
  readonly probe: Probe;
}

/** Quiet moves that give nothing away, those that leave the fewest replies first; one of several that ask the same. */
function triesIn(position: Chess, prober: Prober): Try[] {
  const { moves } = prober.values(position);
  const tries = moves
    .filter((move) => !position.board.occupied.has(move.to) && !temptsNobody(position, move))
    .map((move) => {
      const after = position.clone();
      after.play({ from: move.from, to: move.to });
      return { move, after, probe: prober.probe(makeFen(after.toSetup())) };
    })
    .filter(({ probe }) => probe.legal > 0 && probe.keeping > 0 && probe.keeping < probe.legal)
    .sort(
      (a, b) =>
        a.probe.keeping / a.probe.legal - b.probe.keeping / b.probe.legal ||
        (a.move.san < b.move.san ? -1 : 1),
    );
  const seen = new Set<string>();
  return tries.filter(({ probe, move }) => {
    // the same piece with the same holding replies is the same try
    const asks = `${move.san[0]} ${probe.explanation.keeping.join(" ")}`;
    if (seen.has(asks)) return false;
    seen.add(asks);
    return true;
  });
}

/** "2. Rd8+ Kc7 3. …: White mates in 4". */
const lineInWords = (number: number, black: boolean, line: readonly string[], end: string): string => {
  const moves = line.map((san, n) => {
    const whites = black ? n % 2 === 1 : n % 2 === 0;
    const move = number + Math.floor((n + (black ? 1 : 0)) / 2);
    return whites ? `${move}. ${san}` : n === 0 ? `${move}... ${san}` : san;
  });
  return line.length === 0 ? end : `${moves.join(" ")}: ${end}`;
};

/** What a try asks, in three sentences. */
function tryInWords({ move, probe, after }: Try, before: readonly string[]): string {
  const { explanation, moves } = probe;
  const threat = threatInWords(explanation.threat);
  const check = after.isCheck() ? "gives check" : null;
  const begins = `1. ${move.san} ${threat ?? check ?? "waits"}`;
  const holds = moves.filter(({ verdict }) => verdict === probe.verdict);
  const [natural] = explanation.tempting;
  const fails = natural
    ? `The natural 1... ${natural.san}? fails: ${lineInWords(2, false, natural.line.slice(0, 5), natural.end)}`
    : null;
  const setUps = holds[0].setUps;
  const into =
    setUps.length === 0
      ? ""
      : setUps.some((name) => before.includes(name))
        ? ", which keeps the set-up"
        : `, which changes into the ${setUps[0]}`;
  const right =
    holds.length === 1
      ? `Only 1... ${holds[0].san} holds${into}`
      : `Right is 1... ${listed(
          holds.slice(0, 3).map(({ san }) => san),
          "or",
        )}${into}`;
  return [begins, fails, right]
    .filter((part) => part !== null)
    .map((part) => sentence(capital(part)))
    .join(" ");
}

/** What the set-up turns into when the attacker tests it, over the whole table. */
async function changesInWords(means: LessonMeans, block: Block): Promise<string | null> {
  const { target, catalogue, threads } = means;
  const name = catalogue.named(questionOf(means, block))?.name;
  if (name === undefined) return null;
  const regions = await Regions.ofCatalogue(target, catalogue, threads);
  const defenders = regions.regions.filter(({ side }) => side === "defender");
  const found = changesOver(regions, defenders).find(({ setUp }) => setUp === name);
  if (!found || found.moves === 0) return null;
  const { moves, stay, captures, into, nameless } = found;
  const left = moves - stay - captures;
  const kept = `against ${shareInWords(stay / moves)} of the attacker's quiet moves the defender can stay in the set-up`;
  if (left / moves < 0.01) return sentence(capital(kept));
  const named = into.filter((one) => one.moves / left >= 0.1).slice(0, 3);
  const where =
    named.length === 0
      ? `after the others it has to leave it`
      : `where it has to leave it, it goes over mostly to ${listed(
          named.map(({ setUp }) => `the ${setUp}`),
          "or",
        )}`;
  const blank = nameless / left > 0.3 ? "; often no set-up has a name for what comes next" : "";
  return [kept, `${where}${blank}`].map((one) => sentence(capital(one))).join(" ");
}

export async function triesBlock(means: LessonMeans, block: Block): Promise<string> {
  const { prober } = means;
  const fen = uprightFen(needed(block, "fen"));
  const position = readFen(fen);
  const { setUps, verdict, sideToMove } = prober.probe(fen);
  const size = wholeNumber(block, "size", SHOWN, 9);
  const tries =
    sideToMove === "attacker" && verdict === "drawn" ? triesIn(position, prober).slice(0, size) : [];
  const changes = block.values.question === undefined ? null : await changesInWords(means, block);
  return renderToString(
    <>
      {changes && <p>{changes}</p>}
      {tries.length === 0 ? (
        <p>
          No move of the attacker sets a problem here: every reply that does not give something away holds.
        </p>
      ) : (
        <>
          <p>
            From the first diagram White has {numberWord(tries.length)}{" "}
            {tries.length === 1 ? "try that asks" : "tries that ask"} for an exact answer.
          </p>
          {tries.map((one) => {
            const after = makeFen(one.after.toSetup());
            const holds = prober
              .values(one.after)
              .moves.find(({ verdict: value }) => value === one.probe.verdict)!;
            return (
              <div class="beside">
                <Figure
                  svg={diagramsSvg(
                    [{ fen: after, turn: true, arrows: [{ from: holds.from, to: holds.to }] }],
                    1,
                    `After 1. ${one.move.san}`,
                  )}
                >
                  After 1. {one.move.san}
                </Figure>
                <div>
                  <p>{tryInWords(one, setUps)}</p>
                </div>
              </div>
            );
          })}
        </>
      )}
    </>,
  );
}
