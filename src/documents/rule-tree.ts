// A rule as a small tree: its conditions one below the other, "yes" to what it then says, "no" to the next, with boards of what
// it is right about and of its exceptions. Black on white, told apart by lines and words, so that grey print loses nothing.

import { boardInWords, diagramBody, diagramSize, escapeXml } from "./diagram.js";
import { linesOf } from "./text-lines.js";

/** A board at a leaf, with the lines under it. */
interface TreeBoard {
  readonly fen: string;
  /** The rule has it otherwise: it gets a dashed frame. */
  readonly isException: boolean;
  readonly caption: readonly string[];
}

/** A leaf: what must be met to come to it, in words, and what the rule says there. */
export interface TreeLeaf {
  /** Nothing for the last one, which takes the rest. */
  readonly when: string;
  readonly says: string;
  /** Placements that come here, and those of them that the rule is right about. */
  readonly of: number;
  readonly right: number;
  readonly boards: readonly TreeBoard[];
}

/** Said in the place of a tree where no rule with conditions is worth it, before how all of them come out. */
export const NO_RULE = "No rule is worth keeping in mind";

/** Wide has the leaves beside the conditions, for paper and screens; narrow has them below, for a telephone. */
export const TREE_SHAPES = ["wide", "narrow"] as const;
export type TreeShape = (typeof TREE_SHAPES)[number];

/** How the page differs from paper. */
export interface TreeLook {
  /** Draws a board, its corner at the origin. */
  readonly board: (fen: string) => { readonly body: string; readonly width: number; readonly height: number };
  /** Where a board leads. */
  readonly linkOf: (fen: string) => string;
}

const INK = "#000";
const FONT = `font-family="Georgia, 'Liberation Serif', 'Times New Roman', serif"`;
const LINE = 18;
const SIZE = 14;
/** Mean width of a letter, a little more than it is. */
const LETTER = 7.6;
const PAD = 10;
const BOARD = 124;
const GAP = 28;
/** Letters of a line under a board. */
const CAPTION = 21;

/** Where things stand in each shape, from left to right. */
const SHAPES = {
  wide: { width: 690, box: { x: 2, width: 222 }, leaf: 272, text: 108, trunk: 30 },
  narrow: { width: 340, box: { x: 2, width: 336 }, leaf: 44, text: 290, trunk: 20 },
} as const;

const textAt = (x: number, y: number, text: string, more = "") =>
  `<text x="${x}" y="${y}" font-size="${SIZE}" fill="${INK}"${more}>${escapeXml(text)}</text>`;

/** An arrow along straight lines through some points; the last stretch goes right or down. */
function arrowAlong(points: readonly (readonly [number, number])[]): string {
  const [[x0], [x, y]] = points.slice(-2);
  const head = x > x0 ? `M${x} ${y}l-8 -4.5v9z` : `M${x} ${y}l-4.5 -8h9z`;
  const path = points.map(([px, py], n) => `${n === 0 ? "M" : "L"}${px} ${py}`).join("");
  return `<path class="tree-line" d="${path}" fill="none" stroke="${INK}" stroke-width="1.2"/><path class="tree-head" d="${head}" fill="${INK}"/>`;
}

/** What is said of a leaf: "won", and of how many that is right. */
function saidOf({ of, right }: TreeLeaf, letters: number): string[] {
  const all = of.toLocaleString("en");
  if (of === 0) return ["no position"];
  if (right === of) return linesOf(`all ${all} positions`, letters);
  const share = ((100 * right) / of).toFixed(1);
  return linesOf(`${share === "100.0" ? "99.9" : share} % of ${all} positions`, letters);
}

/** Numbers of the trees made, since several on one page must not share names. */
let trees = 0;

/** A tree as it is drawn: what belongs to each leaf, from one height to another. */
interface Drawn {
  readonly id: string;
  readonly width: number;
  readonly pieces: readonly {
    readonly from: number;
    readonly to: number;
    readonly body: string;
    /** The leaf in words. */
    readonly said: string;
  }[];
}

function drawTree(leaves: readonly TreeLeaf[], shape: TreeShape, look?: TreeLook): Drawn {
  const id = `t${trees++}`;
  const { width, box, leaf: left, text: textWidth, trunk } = SHAPES[shape];
  const isWide = shape === "wide";
  const parts: string[] = [];
  let boards = 0;
  const drawBoard = ({ fen, isException, caption }: TreeBoard, x: number, y: number): number => {
    const size = diagramSize({ fen, coordinates: false });
    const drawn = look?.board(fen) ?? {
      body: diagramBody({ fen, coordinates: false }, `${id}-dark${boards++}`),
      ...size,
    };
    const scale = BOARD / drawn.width;
    const lines = caption.flatMap((line) => linesOf(line, CAPTION));
    const said = `${caption.join(". ")}. ${boardInWords(fen)}`;
    const frame = isException
      ? `<rect class="tree-line" x="${x - 3}" y="${y - 3}" width="${BOARD + 6}" height="${(drawn.height * scale + 6).toFixed(1)}" fill="none" stroke="${INK}" stroke-width="1.2" stroke-dasharray="5 3"/>`
      : "";
    const board = `<g transform="translate(${x} ${y}) scale(${scale.toFixed(4)})">${drawn.body}</g>`;
    const inside = `<title>${escapeXml(said)}</title>${frame}${board}`;
    const height = drawn.height * scale;
    parts.push(
      `<g data-fen="${escapeXml(fen)}" data-caption="${escapeXml(caption.join(". "))}">${
        look
          ? `<a href="${escapeXml(look.linkOf(fen))}" aria-label="${escapeXml(said)}"><rect x="${x}" y="${y}" width="${BOARD}" height="${height.toFixed(1)}" fill="none" pointer-events="all"/>${inside}</a>`
          : inside
      }</g>`,
    );
    lines.forEach((line, n) =>
      parts.push(textAt(x, Math.round(y + height + 18 + n * LINE), line, ' font-style="italic"')),
    );
    return height + 6 + lines.length * LINE;
  };
  const pieces: Drawn["pieces"][number][] = [];
  let y = 4;
  leaves.forEach((leaf, n) => {
    const from = n === 0 ? 0 : y - 1;
    const isLast = n === leaves.length - 1;
    const when = leaf.when !== "" ? leaf.when : leaves.length === 1 ? "all positions" : "otherwise";
    const lines = linesOf(when, Math.floor((box.width - 2 * PAD) / LETTER));
    const boxHeight = lines.length * LINE + 2 * PAD;
    if (!isLast)
      parts.push(
        `<rect class="tree-line" x="${box.x}" y="${y}" width="${box.width}" height="${boxHeight}" rx="4" fill="none" stroke="${INK}" stroke-width="1.2"/>`,
      );
    lines.forEach((line, m) =>
      parts.push(textAt(box.x + PAD, y + PAD + 13 + m * LINE, line, isLast ? ' font-style="italic"' : "")),
    );
    const said = saidOf(leaf, Math.floor(textWidth / LETTER));
    let bottom: number;
    if (isWide) {
      const middle = y + PAD + LINE / 2;
      const from = isLast ? box.x + PAD + when.length * LETTER + 8 : box.x + box.width;
      parts.push(
        arrowAlong([
          [from, middle],
          [left - 6, middle],
        ]),
      );
      if (!isLast) parts.push(textAt(from + 10, middle - 5, "yes", ' font-style="italic"'));
      parts.push(textAt(left, middle + 5, leaf.says, ' font-weight="bold"'));
      said.forEach((line, m) => parts.push(textAt(left, middle + 5 + (m + 1) * LINE, line)));
      const heights = leaf.boards.map((board, m) =>
        drawBoard(board, left + textWidth + 8 + m * (BOARD + GAP), y + 3),
      );
      bottom = Math.max(y + boxHeight, middle + 14 + said.length * LINE, ...heights.map((h) => y + h)) + 12;
    } else {
      const top = isLast ? y + boxHeight - 6 : y + boxHeight + 26;
      if (!isLast) {
        parts.push(
          arrowAlong([
            [left + 10, y + boxHeight],
            [left + 10, top - 2],
          ]),
        );
        parts.push(textAt(left + 20, y + boxHeight + 17, "yes", ' font-style="italic"'));
      }
      parts.push(
        `<text x="${left}" y="${top + 16}" font-size="${SIZE}" fill="${INK}"><tspan font-weight="bold">${escapeXml(leaf.says)}</tspan> ${escapeXml(said.join(" "))}</text>`,
      );
      const heights = leaf.boards.map((board, m) => drawBoard(board, left + m * (BOARD + GAP), top + 30));
      bottom = Math.max(top + 24, ...heights.map((h) => top + 26 + h)) + 12;
    }
    if (!isLast) {
      const end = bottom + (isWide ? 8 : 14);
      parts.push(
        arrowAlong([
          [trunk, y + boxHeight],
          [trunk, end],
        ]),
      );
      parts.push(textAt(isWide ? trunk + 10 : trunk + 8, end - 4, "no", ' font-style="italic"'));
      y = Math.round(end + 2);
    } else y = Math.round(bottom);
    const { says } = leaf;
    const asked =
      leaf.when === ""
        ? n === 0
          ? "Always"
          : "Otherwise"
        : `${n === 0 ? "If" : "Otherwise, if"} ${leaf.when}`;
    pieces.push({ from, to: isLast ? y : y - 1, body: parts.splice(0).join(""), said: `${asked}: ${says}.` });
  });
  return { id, width, pieces };
}

/** Pieces of a tree that lie below each other, as one SVG. */
function svgOf(
  { width, pieces }: Pick<Drawn, "width" | "pieces">,
  id: string,
  shape: TreeShape,
  title: string,
  isGroup: boolean,
): string {
  const [from, to] = [pieces[0].from, pieces.at(-1)!.to];
  const height = to - from;
  const described = pieces.map(({ said }) => said).join(" ");
  return (
    `<svg xmlns="http://www.w3.org/2000/svg" class="rule-tree ${shape}" viewBox="0 ${from} ${width} ${height}" width="${width}" height="${height}" ${FONT} role="${isGroup ? "group" : "img"}" aria-labelledby="${id}-title ${id}-desc">` +
    `<title id="${id}-title">${escapeXml(title)}</title><desc id="${id}-desc">${escapeXml(described)}</desc>` +
    `${isGroup ? "" : `<rect y="${from}" width="${width}" height="${height}" fill="#fff"/>`}${pieces.map(({ body }) => body).join("")}</svg>\n`
  );
}

/** A rule's tree as SVG. */
export function ruleTreeSvg(
  leaves: readonly TreeLeaf[],
  shape: TreeShape,
  title: string,
  look?: TreeLook,
): string {
  const drawn = drawTree(leaves, shape, look);
  return svgOf(drawn, drawn.id, shape, title, look !== undefined);
}

/** The same with an SVG for each leaf, to stand below each other without a gap: so a tree may go on on the next page. */
export function ruleTreePieces(leaves: readonly TreeLeaf[], shape: TreeShape, title: string): string[] {
  const { id, width, pieces } = drawTree(leaves, shape);
  return pieces.map((piece, n) => svgOf({ width, pieces: [piece] }, `${id}-${n}`, shape, title, false));
}

/** Pieces of one tree as a drawing by itself. */
export function joinedPieces(svgs: readonly string[]): string {
  if (svgs.length === 1) return svgs[0];
  let y = 0;
  let width = 0;
  const parts = svgs.map((svg) => {
    const [, wide, high] = /viewBox="\S+ \S+ (\S+) (\S+)"/.exec(svg)!.map(Number);
    const at = y;
    y += high;
    width = Math.max(width, wide);
    return svg.replace("<svg ", `<svg y="${at}" `);
  });
  return `<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 ${width} ${y}" width="${width}" height="${y}">${parts.join("")}</svg>\n`;
}

/** Trees of several rules one below the other, each with its title, for a drawing by itself. */
export function ruleTreesSvg(
  trees: readonly { readonly title: string; readonly leaves: readonly TreeLeaf[] }[],
): string {
  const margin = 24;
  const heading = 40;
  const { width } = SHAPES.wide;
  let y = margin;
  const parts = trees.map(({ title, leaves }) => {
    const svg = ruleTreeSvg(leaves, "wide", title);
    const at = y;
    y += heading + Number(/viewBox="0 0 \d+ (\d+)"/.exec(svg)![1]) + margin;
    return (
      `<text x="${margin}" y="${at + 20}" font-size="20" fill="${INK}" ${FONT}>${escapeXml(title)}</text>` +
      svg.replace("<svg ", `<svg x="${margin}" y="${at + heading}" `)
    );
  });
  const whole = width + 2 * margin;
  return `<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 ${whole} ${y}" width="${whole}" height="${y}"><rect width="${whole}" height="${y}" fill="#fff"/>${parts.join("")}</svg>\n`;
}
