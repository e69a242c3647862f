// Charts as SVG, drawn by a chart library: bars with intervals, survival curves, shaded boards. Black, greys and
// strokes only, so that a grey print loses nothing.

import * as Plot from "@observablehq/plot";
import { parseHTML } from "linkedom";

import type { SquareCounts } from "../statistics/errors.js";
import type { Survival, SurvivalStep } from "../statistics/estimators.js";
import type { SurvivalGroup } from "../statistics/survival.js";
import { plainText } from "../plain-text.js";
import { diagramsSvg, escapeXml } from "./diagram.js";

const FONT = "Georgia, 'Times New Roman', serif";
/** Strokes that distinguish curves without colour. */
const DASHES = ["", "8 4", "2 3", "10 3 2 3", "5 2 1 2 1 2"];
/** Curves in one picture; more cannot be distinguished. */
export const MOST_CURVES = DASHES.length;

/** A chart's SVG as text, with a title for readers who do not see it. */
function svgOf(options: Plot.PlotOptions, title: string): string {
  const { document } = parseHTML("<!doctype html><html><body></body></html>");
  const svg = Plot.plot({
    ...options,
    document: document as unknown as Document,
    style: { fontFamily: FONT, fontSize: "13px", background: "none" },
  });
  svg.setAttribute("role", "img");
  svg.setAttribute("xmlns", "http://www.w3.org/2000/svg");
  // the document's serializer leaves & and < in attributes as they are
  return plainText(svg.outerHTML).replace("<svg", `<svg aria-label="${escapeXml(title)}"`);
}

export interface Bar {
  readonly label: string;
  readonly share: number;
  readonly low: number;
  readonly high: number;
  readonly of: number;
}

/** Shares as points with their intervals, one row each, the denominator at the right. */
export function sharesChart(bars: readonly Bar[], title: string, axis: string): string {
  const shown = bars.filter(({ of }) => of > 0);
  const longest = Math.max(...shown.map(({ label }) => label.length), 4);
  const top = Math.min(1, Math.max(...shown.map(({ high }) => high), 0.05) * 1.02);
  return svgOf(
    {
      width: 640,
      height: 70 + 26 * shown.length,
      marginLeft: Math.min(260, 20 + 7.5 * longest),
      marginRight: 62,
      x: { domain: [0, 100 * top], label: axis, grid: true, labelArrow: "none" },
      y: { domain: shown.map(({ label }) => label), label: null, tickSize: 0 },
      marks: [
        Plot.barX(shown, {
          y: "label",
          x: (bar: Bar) => 100 * bar.share,
          fill: "#d0d0d0",
          stroke: "#000",
          insetTop: 3,
          insetBottom: 3,
        }),
        Plot.ruleY(shown, {
          y: "label",
          x1: (bar: Bar) => 100 * bar.low,
          x2: (bar: Bar) => 100 * bar.high,
          stroke: "#000",
          strokeWidth: 2,
        }),
        Plot.text(shown, {
          y: "label",
          frameAnchor: "right",
          dx: 58,
          textAnchor: "end",
          text: (bar: Bar) => `n ${bar.of}`,
        }),
        Plot.ruleX([0]),
      ],
    },
    title,
  );
}

/** A point of a survival curve. */
type CurvePoint = Pick<SurvivalStep, "time" | "survival" | "low" | "high">;

/** The points of a curve, from the start to the last case in sight. */
function curveOf({ steps, longest }: Survival): CurvePoint[] {
  const points: CurvePoint[] = [{ time: 0, survival: 1, low: 1, high: 1 }, ...steps];
  return [...points, { ...points.at(-1)!, time: longest }].filter(({ survival }) =>
    Number.isFinite(survival),
  );
}

function band(curve: readonly CurvePoint[]): Plot.Markish {
  // where no case is left there is no interval: the last one is drawn up to there
  const limits = curve
    .map((point, at) =>
      Number.isFinite(point.low) ? point : { ...curve[Math.max(0, at - 1)], time: point.time },
    )
    .filter(({ low }) => Number.isFinite(low));
  return Plot.areaY(limits, {
    x: "time",
    y1: (point: CurvePoint) => 100 * point.low,
    y2: (point: CurvePoint) => 100 * point.high,
    curve: "step-after",
    fill: "#000",
    fillOpacity: 0.12,
  });
}

/** A line of the key, which stands in the corner below the curves: the stroke and what it is of. */
const keyMarks = (value: string, strokeDasharray: string, y: number, end: number): Plot.Markish[] => [
  Plot.link([0], {
    x1: 0.02 * end,
    x2: 0.1 * end,
    y1: y,
    y2: y,
    stroke: "#000",
    strokeWidth: 1.8,
    strokeDasharray,
  }),
  Plot.text([value], { x: 0.11 * end, y, textAnchor: "start", text: (name: string) => name }),
];

/** Survival curves with their 95 % bands; the bands where there are at most two curves. */
export function survivalChart(groups: readonly SurvivalGroup[], title: string, axis: string): string {
  const shown = groups.slice(0, MOST_CURVES);
  const end = Math.max(...shown.map(({ survival }) => survival.longest), 1);
  const marks: Plot.Markish[] = [Plot.ruleY([0]), Plot.ruleX([0])];
  shown.forEach(({ value, survival }, n) => {
    const curve = curveOf(survival);
    if (shown.length <= 2) marks.push(band(curve));
    marks.push(
      Plot.lineY(curve, {
        x: "time",
        y: (point: CurvePoint) => 100 * point.survival,
        curve: "step-after",
        stroke: "#000",
        strokeWidth: 1.8,
        strokeDasharray: DASHES[n],
      }),
    );
    if (shown.length > 1) marks.push(...keyMarks(value, DASHES[n], 6 + 6 * (shown.length - 1 - n), end));
  });
  return svgOf(
    {
      width: 640,
      height: 370,
      marginBottom: 46,
      x: { label: axis, domain: [0, end], labelArrow: "none", labelOffset: 40 },
      y: { label: "still holding, %", domain: [0, 100], grid: true, labelArrow: "none" },
      marks,
    },
    title,
  );
}

/** Two boards in the frame: how often a piece stood on a square when the defender had a draw to lose, and in what share it was lost. */
export function squaresChart({ moves, errors }: SquareCounts, piece: string): string {
  const most = Math.max(...moves, 1);
  const rates = errors.map((count, n) => (moves[n] === 0 ? 0 : count / moves[n]));
  const worst = Math.max(...rates, 0.01);
  const board = (
    value: (square: number) => number,
    text: (square: number) => string,
    caption: readonly string[],
  ) => ({
    fen: "8/8/8/8/8/8/8/8 w - - 0 1",
    bare: true,
    caption,
    marks: new Map(
      moves.flatMap((count, square) =>
        count === 0 ? [] : [[square, { shade: value(square), text: text(square) }]],
      ),
    ),
    description: `${caption.join(". ")}.`,
  });
  return diagramsSvg(
    [
      board(
        (n) => Math.sqrt(moves[n] / most),
        (n) => String(moves[n]),
        [`where the ${piece} stood: moves`],
      ),
      board(
        (n) => rates[n] / worst,
        (n) => (errors[n] === 0 ? "0" : rates[n] < 0.01 ? "<1%" : `${Math.round(100 * rates[n])}%`),
        [`and what share of them lost the draw`],
      ),
    ],
    2,
    `Where the defender's ${piece} stood, and where it went wrong`,
  );
}
