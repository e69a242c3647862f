// The map of changes: set-ups as circles, as large as they are frequent, and arrows for what the attacker can force them into,
// as thick as it is often. And the order of learning as bars.

import type { SetUpChange } from "../statistics/changes.js";
import { type ChangeArrow, type Changes, arrowsOf } from "../survey/changes.js";
import { escapeXml } from "./diagram.js";
import { linesOf } from "./text-lines.js";

const WIDTH = 860;
const INK = "#1d1d1b";
const ARROW = "#6b6459";
const COSTLY = "#9a3b26";
/** In how many of a hundred changes the draw must be lost for an arrow to be in the colour of what costs. */
const DEAR = 10;
const PAPER = "#fdfcf8";
const FONT = `font-family="Georgia, 'Times New Roman', serif"`;
/** Letters of a line of a name. */
const NAME_LETTERS = 11;
/** Games from which on it is said how often a change cost the draw. */
const ENOUGH = 10;

interface Node {
  readonly name: string;
  readonly x: number;
  readonly y: number;
  readonly radius: number;
}

/** Where the games of an arrow are found, and how many endings answer there. */
export interface ArrowLink {
  readonly from: string;
  readonly to: string;
  readonly endings: number;
  readonly link: string;
}

/** An arrow of the map with what games say of it. */
export interface MapArrow extends ChangeArrow {
  readonly change: SetUpChange | undefined;
  readonly linked: ArrowLink | undefined;
  /** In how many of a hundred such changes in games the draw was lost; undefined where there are too few to say. */
  readonly cost: number | undefined;
}

/** The arrows of a map, for each set-up the strongest. */
export const mapArrows = ({ table, games = [], links = [] }: ChangeMap): MapArrow[] =>
  arrowsOf(table).map((arrow) => {
    const isIt = (one: { readonly from: string; readonly to: string }) =>
      one.from === arrow.from && one.to === arrow.to;
    const change = games.find(isIt);
    const cost =
      change && change.of >= ENOUGH ? Math.round((100 * (change.of - change.count)) / change.of) : undefined;
    return { ...arrow, change, linked: links.find(isIt), cost };
  });

/** An arrow in a sentence or two: what the table says, what games say, and where it leads. */
function arrowInWords({ from, to, share, change, linked }: MapArrow): string {
  const table = `From ${from} into ${to}: forced by ${inHundred(share)} of the attacker's moves.`;
  const kept = change && change.of > 0 ? `; the draw was kept in ${change.count} of ${change.of}` : "";
  const games = change
    ? ` In games ${change.changes} ${change.changes === 1 ? "time" : "times"}${kept}.`
    : "";
  if (!linked) return table + games;
  const { endings } = linked;
  const shown =
    endings === 0
      ? "No ending shows"
      : endings === 1
        ? "Open the ending that shows"
        : `Open the ${endings} endings that show`;
  return `${table}${games} ${shown} it from one look to the next.`;
}

/** A share as people say it: "14 of 100". */
export const inHundred = (share: number) => `${Math.round(100 * share)} of 100`;

/** What a map is drawn from. */
export interface ChangeMap {
  readonly table: readonly Changes[];
  /** For each set-up, in the table or not, its placements that are not won. */
  readonly sizes: Readonly<Record<string, number>>;
  /** How often a change was made in games, and what it cost. */
  readonly games?: readonly SetUpChange[] | undefined;
  /** Where the games of arrows are found. */
  readonly links?: readonly ArrowLink[] | undefined;
}

/** The place of something on the map, by its middle. */
interface Box {
  readonly x: number;
  readonly y: number;
  readonly width: number;
  readonly height: number;
}
/** Parts of an arrow at which its label may stand: near its beginning first, where few arrows cross. */
const PLACES = [0.3, 0.38, 0.24, 0.46, 0.54, 0.62, 0.7, 0.18, 0.78, 0.12, 0.86];
/** Height of a line of a label, and width of a letter. */
const LABEL_HEIGHT = 18;
const LETTER = 7.2;

/** The radius at which a set-up's name stands inside its circle. */
const roomFor = (name: string): number =>
  8 + (LETTER / 2) * Math.max(...linesOf(name, NAME_LETTERS).map((line) => line.length));

/** Whether a box lies over part of a circle. */
function liesOver({ x, y, width, height }: Box, circle: Node): boolean {
  const dx = Math.max(0, Math.abs(x - circle.x) - width / 2);
  const dy = Math.max(0, Math.abs(y - circle.y) - height / 2);
  return Math.hypot(dx, dy) < circle.radius;
}

/** Where on its arrow a label stands free of circles and other labels; if nowhere, of circles; else near its beginning. */
function freePlace(
  label: string,
  circles: readonly Node[],
  taken: readonly Box[],
  pointAt: (part: number) => { readonly x: number; readonly y: number },
): Box {
  const boxes = PLACES.map((part) => ({
    ...pointAt(part),
    width: LETTER * label.length + 6,
    height: LABEL_HEIGHT,
  }));
  const outside = boxes.filter((box) => !circles.some((circle) => liesOver(box, circle)));
  const isFree = (box: Box) =>
    taken.every(
      (other) =>
        Math.abs(box.x - other.x) >= (box.width + other.width) / 2 ||
        Math.abs(box.y - other.y) >= (box.height + other.height) / 2,
    );
  return outside.find(isFree) ?? outside[0] ?? boxes[0];
}

/** The map of changes as SVG: the set-ups of a table, and what they are forced into. */
export function changeMapSvg(map: ChangeMap): string {
  const { table, sizes, links = [] } = map;
  const drawnArrows = mapArrows(map);
  const named = new Set([
    ...table.map(({ setUp }) => setUp),
    ...drawnArrows.flatMap(({ from, to }) => [from, to]),
  ]);
  const circles = Object.entries(sizes).filter(([setUp]) => named.has(setUp));
  const most = Math.max(...Object.values(sizes));
  const centre = { x: WIDTH / 2, y: 465 };
  const nodes = new Map<string, Node>(
    circles.map(([setUp, held], n) => {
      const angle = (2 * Math.PI * n) / circles.length - Math.PI / 2;
      return [
        setUp,
        {
          name: setUp,
          x: centre.x + 330 * Math.cos(angle),
          y: centre.y + 310 * Math.sin(angle),
          radius: Math.max(36 + 24 * Math.sqrt(held / most), roomFor(setUp)),
        },
      ];
    }),
  );
  /** They come behind everything else, so that nothing lies over them. */
  const labels: string[] = [];
  const taken: Box[] = [];
  const drawn = drawnArrows
    .sort((a, b) => a.share - b.share)
    .map((arrow) => {
      const { share, linked, cost = 0 } = arrow;
      const [from, to] = [nodes.get(arrow.from)!, nodes.get(arrow.to)!];
      const [dx, dy] = [to.x - from.x, to.y - from.y];
      const length = Math.hypot(dx, dy);
      // arrows there and back bend to different sides
      const bend = 0.12;
      const control = { x: (from.x + to.x) / 2 - dy * bend, y: (from.y + to.y) / 2 + dx * bend };
      const end = (node: Node, margin: number) => {
        const [cx, cy] = [control.x - node.x, control.y - node.y];
        const away = Math.hypot(cx, cy);
        return {
          x: node.x + (cx / away) * (node.radius + margin),
          y: node.y + (cy / away) * (node.radius + margin),
        };
      };
      const [start, stop] = [end(from, 2), end(to, 11)];
      const width = Math.max(1, Math.min(7, 24 * share));
      const colour = cost >= DEAR ? COSTLY : ARROW;
      const label = `${Math.round(100 * share)}${cost > 0 ? ` · costs ${cost}` : ""}`;
      const at = freePlace(label, [...nodes.values()], taken, (t) => {
        const on = (a: number, b: number, c: number) => (1 - t) ** 2 * a + 2 * t * (1 - t) * b + t ** 2 * c;
        return { x: on(start.x, control.x, stop.x), y: on(start.y, control.y, stop.y) };
      });
      taken.push(at);
      const title = escapeXml(arrowInWords(arrow));
      labels.push(
        `<text class="${cost >= DEAR ? "share dear" : "share"}" x="${at.x.toFixed(1)}" y="${(at.y + 5).toFixed(1)}" text-anchor="middle" font-size="14" fill="${colour}" stroke="${PAPER}" stroke-width="7" stroke-linejoin="round" paint-order="stroke" pointer-events="none">${label}</text>`,
      );
      const path = `M${start.x.toFixed(1)} ${start.y.toFixed(1)} Q${control.x.toFixed(1)} ${control.y.toFixed(1)} ${stop.x.toFixed(1)} ${stop.y.toFixed(1)}`;
      const drawn = `<path class="${cost >= DEAR ? "arrow dear" : "arrow"}" d="${path}" fill="none" stroke="${colour}" stroke-width="${width.toFixed(1)}" opacity="${length > 0 ? Math.min(1, 0.35 + 6 * share).toFixed(2) : 1}" marker-end="url(#${cost >= DEAR ? "dear" : "plain"})"/>`;
      // a finger is wider than an arrow
      const touch = `<path d="${path}" fill="none" stroke="#000" stroke-opacity="0" stroke-width="22" pointer-events="stroke"/>`;
      const inside = linked
        ? `<a href="${escapeXml(linked.link)}" aria-label="${title}"><title>${title}</title>${touch}${drawn}</a>`
        : `<title>${title}</title>${drawn}`;
      return `<g data-from="${escapeXml(arrow.from)}" data-to="${escapeXml(arrow.to)}">${inside}</g>`;
    });
  const discs = [...nodes.values()].map(({ name, x, y, radius }) => {
    const lines = linesOf(name, NAME_LETTERS);
    const text = lines
      .map(
        (line, n) =>
          `<text x="${x.toFixed(1)}" y="${(y + 4.5 + 14 * (n - (lines.length - 1) / 2)).toFixed(1)}" text-anchor="middle" font-size="13" fill="${INK}">${escapeXml(line)}</text>`,
      )
      .join("");
    return `<g><circle cx="${x.toFixed(1)}" cy="${y.toFixed(1)}" r="${radius.toFixed(1)}" fill="${PAPER}" stroke="${INK}"/>${text}</g>`;
  });
  const marker = (id: string, colour: string) =>
    `<marker id="${id}" viewBox="0 0 10 10" refX="3" refY="5" markerWidth="9" markerHeight="9" markerUnits="userSpaceOnUse" orient="auto"><path d="M0 0 10 5 0 10z" fill="${colour}"/></marker>`;
  return `<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 ${WIDTH} 870" width="${WIDTH}" height="870" ${FONT} class="change-map" role="${links.length > 0 ? "group" : "img"}" aria-label="What set-ups turn into"><defs>${marker("plain", ARROW)}${marker("dear", COSTLY)}</defs><rect width="${WIDTH}" height="870" fill="${PAPER}"/><text class="map-title" x="24" y="34" font-size="21" fill="${INK}">What turns into what</text><text x="24" y="56" font-size="13" font-style="italic" fill="${INK}">Circles are set-ups, as large as they are frequent; arrows are what the attacker can force, as thick as it is often:</text><text x="24" y="73" font-size="13" font-style="italic" fill="${INK}">a figure says with how many of 100 moves, the three strongest from each.</text><text x="24" y="90" font-size="13" font-style="italic" fill="${INK}">“Costs 12”: in games 12 of 100 such changes lost the draw.</text>${drawn.join("")}${discs.join("")}${labels.join("")}</svg>\n`;
}

/** The order of learning as SVG: a bar for what is kept after each set-up. */
export function orderSvg(
  start: { readonly says: string; readonly kept: number },
  order: readonly { readonly setUp: string; readonly kept: number }[],
  held: number,
): string {
  const rows = [
    { says: start.says, kept: start.kept },
    ...order.map(({ setUp, kept }, n) => ({ says: `${n + 1} · ${setUp}`, kept })),
  ];
  const height = 84 + 26 * rows.length;
  const scale = 330;
  const bars = rows.map(({ says, kept }, n) => {
    const y = 76 + 26 * n;
    const share = kept / held;
    return `<text x="24" y="${y + 13}" font-size="13" fill="${INK}">${escapeXml(says)}</text><rect x="330" y="${y + 3}" width="${(scale * share).toFixed(1)}" height="12" fill="#bdb6a8"/><text x="${(338 + scale * share).toFixed(1)}" y="${y + 13}" font-size="12" fill="${INK}">${(100 * share).toFixed(1)} of 100</text>`;
  });
  return `<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 ${WIDTH} ${height}" width="${WIDTH}" height="${height}" ${FONT} role="img" aria-label="The order of learning"><rect width="${WIDTH}" height="${height}" fill="${PAPER}"/><text x="24" y="34" font-size="21" fill="${INK}">In what order to learn them</text><text x="24" y="56" font-size="13" font-style="italic" fill="${INK}">learn, and then so many of the drawn placements that a set-up names can be kept against quiet moves</text>${bars.join("")}</svg>\n`;
}
