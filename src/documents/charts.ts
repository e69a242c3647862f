// Charts as SVG, drawn by a chart library: dots with intervals, curves of incidence, shaded boards. Black, greys and
// strokes only, so that a grey print loses nothing.

import * as Plot from "@observablehq/plot";
import { parseHTML } from "linkedom";

import type { SquareCounts } from "../statistics/errors.js";
import { SMALL } from "../statistics/proportion.js";
import type { IncidenceStep } from "../statistics/survival-curves.js";
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
  // the picture has one name; its parts are none that could have one
  for (const part of svg.querySelectorAll("g[aria-label]")) part.removeAttribute("aria-label");
  svg.setAttribute("xmlns", "http://www.w3.org/2000/svg");
  // the document's serializer leaves & and < in attributes as they are
  return plainText(svg.outerHTML).replace("<svg", `<svg aria-label="${escapeXml(title)}"`);
}

export interface Dot {
  readonly label: string;
  readonly share: number;
  readonly low: number;
  readonly high: number;
  readonly count: number;
  readonly of: number;
}

/**
 * Shares as dots with their 95 % intervals, one row each, the counts at the right; rows of few cases are faint. `top` is
 * the end of the scale (0 to 1), so that sisters can have the same; without it the scale ends where the intervals do.
 */
export function sharesChart(dots: readonly Dot[], title: string, axis: string, top?: number): string {
  const shown = dots.filter(({ of }) => of > 0);
  const longest = Math.max(...shown.map(({ label }) => label.length), 4);
  const end = top ?? Math.min(1, Math.max(...shown.map(({ high }) => high), 0.05) * 1.02);
  const opacity = ({ of }: Dot) => (of < SMALL ? 0.4 : 1);
  return svgOf(
    {
      width: 640,
      height: 64 + 17 * shown.length,
      marginTop: 12,
      marginBottom: 40,
      marginLeft: Math.min(280, 20 + 7.5 * longest),
      marginRight: 92,
      x: { domain: [0, 100 * end], label: axis, grid: true, labelArrow: "none", labelOffset: 36 },
      y: { domain: shown.map(({ label }) => label), label: null, tickSize: 0 },
      marks: [
        Plot.ruleY(shown, {
          y: "label",
          x1: (dot: Dot) => 100 * dot.low,
          x2: (dot: Dot) => 100 * Math.min(dot.high, end),
          stroke: "#000",
          strokeWidth: 1.6,
          strokeOpacity: opacity,
        }),
        Plot.dot(shown, {
          y: "label",
          x: (dot: Dot) => 100 * dot.share,
          r: 4.5,
          fill: "#000",
          fillOpacity: opacity,
        }),
        Plot.text(shown, {
          y: "label",
          frameAnchor: "right",
          dx: 88,
          textAnchor: "end",
          fillOpacity: opacity,
          text: (dot: Dot) => `${dot.count} of ${dot.of}`,
        }),
        Plot.ruleX([0]),
      ],
    },
    title,
  );
}

/** A curve of what share has come to an end: the steps, and what they are of. */
export interface IncidenceCurve {
  readonly label: string;
  readonly steps: readonly IncidenceStep[];
}

/** Below this number at risk a curve says next to nothing, and ends (common practice, no source). */
const LEAST_AT_RISK = 10;

type CurvePoint = Pick<IncidenceStep, "time" | "incidence" | "low" | "high">;

/** The points of a curve while enough are at risk. */
function pointsOf(steps: readonly IncidenceStep[]): CurvePoint[] {
  const seen = steps.filter(({ atRisk }) => atRisk >= LEAST_AT_RISK);
  return [{ time: 0, incidence: 0, low: 0, high: 0 }, ...seen];
}

/** Curves of cumulative incidence, each named at its end; the first with its 95 % band. */
export function incidenceChart(curves: readonly IncidenceCurve[], title: string, axis: string): string {
  const shown = curves.slice(0, MOST_CURVES).map(({ label, steps }) => ({ label, points: pointsOf(steps) }));
  const end = Math.max(...shown.map(({ points }) => points.at(-1)!.time), 1);
  const marks: Plot.Markish[] = [Plot.ruleY([0]), Plot.ruleX([0])];
  const [{ points: first }] = shown;
  marks.push(
    Plot.areaY(
      first.filter(({ low }) => Number.isFinite(low)),
      {
        x: "time",
        y1: (point: CurvePoint) => 100 * point.low,
        y2: (point: CurvePoint) => 100 * point.high,
        curve: "step-after",
        fill: "#000",
        fillOpacity: 0.12,
      },
    ),
  );
  // names stand at the ends of the curves, apart from each other
  const ends = shown
    .map(({ label, points }) => ({ label, time: points.at(-1)!.time, y: 100 * points.at(-1)!.incidence }))
    .sort((a, b) => a.y - b.y);
  ends.forEach((one, n) => {
    if (n > 0) one.y = Math.max(one.y, ends[n - 1].y + 6);
  });
  shown.forEach(({ points }, n) => {
    marks.push(
      Plot.lineY([...points, { ...points.at(-1)!, time: end }], {
        x: "time",
        y: (point: CurvePoint) => 100 * point.incidence,
        curve: "step-after",
        stroke: "#000",
        strokeWidth: 1.8,
        strokeDasharray: DASHES[n],
      }),
    );
  });
  marks.push(
    Plot.text(ends, { x: end, y: "y", text: "label", textAnchor: "start", dx: 6, lineAnchor: "middle" }),
  );
  const longest = Math.max(...shown.map(({ label }) => label.length));
  return svgOf(
    {
      width: 640,
      height: 340,
      marginTop: 30,
      marginBottom: 46,
      marginRight: Math.min(230, 16 + 7.2 * longest),
      x: { label: axis, domain: [0, end], labelArrow: "none", labelOffset: 40 },
      y: { label: "of all, %", domain: [0, 100], grid: true, labelArrow: "none" },
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
        [`where the ${piece} stood: ${moves.reduce((sum, n) => sum + n, 0)} moves`],
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
