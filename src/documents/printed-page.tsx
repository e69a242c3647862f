// The printed page: one self-contained HTML document, its look shared by reports, lessons and exercise sheets.

import type { ComponentChildren } from "preact";
import { renderToString } from "preact-render-to-string";

import { version } from "../places.js";
import { plainText } from "../plain-text.js";
import { type PieceLetters, withLetters } from "./piece-letters.js";

/** Sizes of paper; a page is the same on both but for its breaks. */
export const PAPERS = { A4: "A4", letter: "letter" } as const;
export type Paper = keyof typeof PAPERS;

/** What a page says of itself. */
export interface PageMade {
  readonly title: string;
  /** What made it. */
  readonly command: string;
  readonly date?: string;
  readonly paper?: Paper;
  /** On a screen as on paper: its size, letters and margins, to be looked at before it is printed. */
  readonly asPrinted?: boolean;
  /** Letters of the pieces in moves; English ones where it is left out. */
  readonly letters?: PieceLetters;
}

/** Text as a string of a style sheet. */
const quoted = (text: string) => `"${text.replace(/[\\"<]/g, (c) => `\\${c.charCodeAt(0).toString(16)} `)}"`;

/** An apostrophe within a word, or at the end of one in the plural. */
const APOSTROPHE = /(?<=\p{L})'(?=\p{L}|\s)/gu;

/** Letters that one line at the top of a page has room for. */
const HEAD = 90;

/** A title at the top of each page: in one line, cut between words. */
const runningTitle = (whole: string): string => {
  const title = whole.replace(APOSTROPHE, "\u2019");
  return title.length <= HEAD ? title : `${title.slice(0, title.lastIndexOf(" ", HEAD))} …`;
};

/** Letters of what a page says of itself that the foot of a sheet has room for. */
const FOOT = 300;

/** What made a page, for the foot of its first sheet: at its end it would now and then fill a sheet by itself. */
const imprint = (whole: string): string => {
  const made = whole.replace(/\s+/g, " ");
  return made.length <= FOOT ? made : `${made.slice(0, made.lastIndexOf(" ", FOOT))} …`;
};

/** Paper first: black on white, a book's letters, nothing loaded from elsewhere. */
const style = (title: string, paper: Paper, made: string) => `
:root { color-scheme: light; }
* { box-sizing: border-box; }
body { font: 17px/1.5 Georgia, "Liberation Serif", "Times New Roman", serif; color: #000; background: #fff; max-width: 46rem; margin: 2rem auto 4rem; padding: 0 1rem; }
h1, h2, h3, h4, p, figcaption, .solution { overflow-wrap: anywhere; }
h1 { font-size: 2rem; line-height: 1.15; border-bottom: 3px double currentcolor; padding-bottom: .5rem; }
h2 { font-size: 1.35rem; margin-top: 2.2rem; }
h3 { font-size: 1.1rem; margin-top: 1.4rem; }
h4 { font-size: 1rem; margin: 1.4rem 0 .3rem; }
h1, h2, h3, h4 { font-weight: normal; break-after: avoid; }
p { orphans: 2; widows: 2; }
a { color: inherit; }
code, pre { font: .85em/1.4 "DejaVu Sans Mono", Consolas, monospace; }
pre { white-space: pre-wrap; border-left: 3px solid currentcolor; padding-left: .8rem; }
table { border-collapse: collapse; width: 100%; margin: .8rem 0; font-size: .88rem; font-variant-numeric: tabular-nums lining-nums; break-inside: avoid; }
caption { text-align: left; font-style: italic; padding-bottom: .3rem; }
thead th { border-bottom: 1px solid currentcolor; font-weight: normal; font-style: italic; vertical-align: bottom; }
th, td { padding: .15rem .5rem .15rem 0; text-align: left; vertical-align: top; }
.number { text-align: right; }
td.number { white-space: nowrap; }
tbody tr:nth-child(5n) td, tbody tr:nth-child(5n) th { border-bottom: 1px solid #bbb; }
tbody th { font-weight: normal; }
.wide { overflow-x: auto; }
figure { margin: 1rem 0; break-inside: avoid; }
figcaption { font-size: .9rem; line-height: 1.35; }
svg { max-width: 100%; height: auto; }
.note { font-size: .9rem; }
.lead { font-style: italic; font-size: 1.08rem; margin-top: -.4rem; }
.rule { border-left: 4px solid currentcolor; padding: .1rem 0 .1rem 1rem; margin: 1rem 0; break-inside: avoid; }
.rule p { margin: .3rem 0; }
.boards { display: grid; grid-template-columns: repeat(auto-fill, minmax(14rem, 1fr)); gap: 1.2rem 1.6rem; margin: .8rem 0; }
.boards.two { grid-template-columns: repeat(2, 1fr); }
.boards.pairs { grid-template-columns: 1fr 1fr .6rem 1fr 1fr; column-gap: 1.2rem; }
.boards.pairs > :nth-child(4n + 3) { grid-column: 4; }
.boards.pairs > :nth-child(4n + 4) { grid-column: 5; }
.boards figure { margin: 0; }
.boards svg, .beside svg { width: 100%; }
.board { float: right; width: 17rem; margin: .3rem 0 .6rem 1.6rem; }
.board svg { width: 100%; }
.clear { clear: both; }
h1, h2 { clear: both; }
.boards.four { grid-template-columns: repeat(4, 1fr); }
.task { font-size: .95rem; }
.stars { white-space: nowrap; }
.appendix, .sheet + .sheet, .sheet + .solutions { break-before: page; }
.solutions { border-top: 1px dashed currentcolor; margin-top: 1.6rem; padding-top: .8rem; }
.solutions > h2 { margin-top: 0; }
.solutions > h2 + .solution { break-after: avoid; }
.solution { break-inside: avoid; margin: .7rem 0; padding-left: 2rem; position: relative; }
.no { position: absolute; left: 0; }
p:has(+ .boards), p:has(+ .beside), p:has(+ .note), p:has(+ .game), p:has(+ ol) { break-after: avoid; }
.about { font-style: italic; }
.hint { break-inside: avoid; }
.hints { margin: .4rem 0; }
.names { font-size: .9rem; }
.hints span { margin-right: .6rem; }
.beside { display: grid; grid-template-columns: 1fr 17rem; gap: 0 1.6rem; align-items: start; break-inside: avoid; }
.beside > figure { grid-column: 2; grid-row: 1; margin: .3rem 0; }
.beside > div { grid-column: 1; grid-row: 1; }
.beside p:first-child { margin-top: 0; }
.together { break-inside: avoid; }
.ends { break-before: avoid; }
@media (max-width: 34rem) { .beside { display: block; } .boards.pairs { grid-template-columns: 1fr 1fr; } .boards.pairs > :nth-child(n) { grid-column: auto; } }
.tree { break-inside: auto; }
.tree figcaption { break-before: avoid; margin-top: .3rem; }
.rule-tree { display: block; }
.rule-tree.narrow { display: none; }
@media screen and (max-width: 34rem) { .rule-tree.narrow { display: block; } .rule-tree.wide { display: none; } }
.report figure svg { max-width: min(100%, 31rem); }
@media screen and (max-width: 34rem) { .report figure { overflow-x: auto; } .report figure svg { width: 30rem; max-width: none; } .report figcaption { position: sticky; left: 0; } }
@media screen and (prefers-color-scheme: dark) { :root:has(.report) { color-scheme: dark; } body:has(.report) { background: #1b1917; color: #ece6d8; } .report figure svg { color: #000; filter: invert(.9) hue-rotate(180deg); } .report tr:nth-child(5n) :is(td, th) { border-color: #55504a; } }
footer { margin-top: 2rem; border-top: 1px solid currentcolor; padding-top: .4rem; font-size: .85rem; break-inside: avoid; }
@page { size: ${PAPERS[paper]}; margin: 20mm 17mm 18mm; @top-left { content: ${quoted(runningTitle(title))}; font: italic 9.5pt Georgia, "Liberation Serif", serif; } @bottom-right { content: counter(page); font: 9.5pt Georgia, "Liberation Serif", serif; } }
@page :first { @top-left { content: none; } @bottom-left { content: ${quoted(imprint(made))}; width: 85%; text-align: left; font: 9pt/1.3 Georgia, "Liberation Serif", serif; } }
@media print { .rule-tree.wide { width: 38rem; } body { max-width: none; margin: 0; padding: 0; font-size: 10.5pt; line-height: 1.42; } figcaption, .note, .task, .hints, table { font-size: 9.5pt; line-height: 1.35; } .hint h2 { margin: .9rem 0 .3rem; font-size: 1.15rem; } .solution, .names { font-size: 9pt; line-height: 1.27; margin: .3rem 0; } .wide { overflow: visible; } tr { break-inside: avoid; } table:has(+ .note) tr:last-child { break-after: avoid; } .boards { grid-template-columns: repeat(3, 1fr); gap: 1rem 2.1rem; } .boards.four { grid-template-columns: repeat(4, 1fr); gap: 1rem 1.4rem; } .boards.pairs { grid-template-columns: 1fr 1fr .6rem 1fr 1fr; column-gap: 1.2rem; } .beside { grid-template-columns: 1fr 4.2cm; } .board { width: 6.4cm; } h1 { margin-top: 0; } p { margin: .75em 0; } h2 { margin: 1.5rem 0 .7rem; } h3 { margin: 1.1rem 0 .5rem; } h4 { margin-top: 1rem; } .report { font-size: 9.5pt; } .report h2 { margin-top: 1.4rem; } .report figure { margin: .5rem 0; } .report figure svg { max-width: 34rem; } .report p { margin: .4rem 0; } .report td, .report th { padding-top: 0; padding-bottom: 0; line-height: 1.2; } .boards.two { grid-template-columns: repeat(2, 6.8cm); justify-content: space-between; }
.tight body { line-height: 1.36; } .tight p { margin: .6em 0; } .tight h2 { margin: 1.1rem 0 .5rem; } .tight h3 { margin: .9rem 0 .4rem; } .tight .boards { row-gap: .6rem; } .tight .beside { grid-template-columns: 1fr 4cm; } .tight .beside > figure { margin: .1rem 0; } .tight .solution, .tight .names { line-height: 1.22; margin: .2rem 0; } }
@media print { footer { display: none; } .sheet + .solutions { border-top: 0; margin-top: 0; padding-top: 0; } }
`;

/** Millimetres that a sheet is wide. */
const WIDTHS: Readonly<Record<Paper, number>> = { A4: 210, letter: 215.9 };

/** The style of a page that is shown on a screen as it will be printed. */
const printedStyle = (title: string, paper: Paper, made: string) =>
  `${style(title, paper, made).replace("@media print {", "@media all {")}
html { background: #ddd; }
body { width: ${WIDTHS[paper]}mm; padding: 20mm 17mm 18mm; margin: 0 auto; background: #fff; }
`;

/** Options that take a path; a reader of the page has nothing from the folders of its author. */
const PATHS = /(--(?:db|html|pdf|outline|write-outline|set-ups|folder|tables) )("[^"]*"|\S+)/g;
const withoutFolders = (command: string): string =>
  command.replace(PATHS, (_, option: string, path: string) => {
    const name = path.replaceAll('"', "").split(/[\\/]/).at(-1)!;
    return option + (/^[\w.-]+$/.test(name) ? name : `"${name}"`);
  });

/** A move's number and the space before the move: no line ends between them. */
const MOVE_NUMBER = /(\d\.(?:\.\.)?) (?=\S{0,4}[a-h][1-8])/g;

/** Text as a printer sets it, in text alone: not in tags, styles, or what is typed. */
const typeset = (html: string): string =>
  html.replace(/(<(style|code|pre)\b[^>]*>.*?<\/\2>|<[^>]*>)|([^<]+)/gsu, (all, tag) =>
    tag ? all : all.replace(APOSTROPHE, "\u2019").replace(MOVE_NUMBER, "$1\u00a0"),
  );

/** SVG or HTML that this program has made itself. */
export const Raw = ({
  html,
  of: Tag = "div",
  name,
}: {
  html: string;
  of?: "div" | "span";
  name?: string;
}) => <Tag class={name} dangerouslySetInnerHTML={{ __html: html }} />;

/** A drawing with the words under it. */
export const Figure = ({
  svg,
  children,
  name,
  scrolls = false,
}: {
  svg: string;
  children?: ComponentChildren;
  name?: string;
  /** Whether it is scrolled where the window is narrow: keys come to it then. */
  scrolls?: boolean;
}) => (
  <figure class={name} tabIndex={scrolls ? 0 : undefined}>
    <Raw html={svg} />
    {children && <figcaption>{children}</figcaption>}
  </figure>
);

/** A page set a little closer, for paper: what would begin a page of its own for a few lines then stays on the one before. */
export const tightened = (html: string): string => html.replace("<html ", '<html class="tight" ');

/** Today as 2026-01-31. */
export const today = (): string => new Date().toISOString().slice(0, 10);

/** A whole document; without a date the same command gives the same bytes every day. */
export function renderPage(page: PageMade & { body: ComponentChildren }): string {
  const { title, paper = "A4", letters, asPrinted = false } = page;
  const by = `Made by longside ${version()}${page.date === undefined ? "" : ` on ${page.date}`} with`;
  const command = withoutFolders(page.command);
  const css = (asPrinted ? printedStyle : style)(title, paper, `${by} ${command}`);
  const html = renderToString(
    <html lang="en">
      <head>
        <meta charset="utf-8" />
        <meta name="viewport" content="width=device-width, initial-scale=1" />
        <title>{title}</title>
        <style dangerouslySetInnerHTML={{ __html: css }} />
      </head>
      <body>
        <main>{page.body}</main>
        <footer>
          {by} <code>{command}</code>
        </footer>
      </body>
    </html>,
  );
  return plainText(`<!doctype html>\n${typeset(letters ? withLetters(html, letters) : html)}\n`);
}
