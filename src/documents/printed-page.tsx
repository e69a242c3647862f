// The printed page: one self-contained HTML document, its look shared by reports, lessons and exercise sheets.

import type { ComponentChildren } from "preact";
import { renderToString } from "preact-render-to-string";

import { version } from "../places.js";
import { plainText } from "../plain-text.js";

/** Paper first: black on white, a book's letters, nothing loaded from elsewhere. */
const STYLE = `
:root { color-scheme: light; }
* { box-sizing: border-box; }
body { font: 17px/1.5 Georgia, "Times New Roman", serif; color: #000; background: #fff; max-width: 46rem; margin: 2rem auto 4rem; padding: 0 1rem; }
h1 { font-size: 2rem; line-height: 1.15; border-bottom: 3px double #000; padding-bottom: .5rem; }
h2 { font-size: 1.35rem; margin-top: 2.4rem; }
h3 { font-size: 1.1rem; margin-top: 1.6rem; }
h4 { font-size: 1rem; margin: 1.4rem 0 .3rem; }
h1, h2, h3, h4 { font-weight: normal; break-after: avoid; }
a { color: inherit; }
code, pre { font: .85em/1.4 "DejaVu Sans Mono", Consolas, monospace; }
pre { white-space: pre-wrap; border-left: 3px solid #000; padding-left: .8rem; }
table { border-collapse: collapse; width: 100%; margin: .8rem 0; font-size: .88rem; font-variant-numeric: tabular-nums lining-nums; }
caption { text-align: left; font-style: italic; padding-bottom: .3rem; }
thead th { border-bottom: 1px solid #000; font-weight: normal; font-style: italic; vertical-align: bottom; }
th, td { padding: .15rem .5rem .15rem 0; text-align: left; vertical-align: top; }
.number { text-align: right; }
td.number { white-space: nowrap; }
tbody tr:nth-child(5n) td, tbody tr:nth-child(5n) th { border-bottom: 1px solid #bbb; }
tbody th { font-weight: normal; }
.wide { overflow-x: auto; }
figure { margin: 1rem 0; break-inside: avoid; }
figcaption { font-size: .9rem; font-style: italic; }
svg { max-width: 100%; height: auto; }
.note { font-size: .88rem; }
.boards { display: grid; grid-template-columns: repeat(auto-fill, minmax(15rem, 1fr)); gap: 1.2rem 1.6rem; }
.boards figure { margin: 0; }
.boards svg { width: 100%; }
.board svg { width: 21rem; }
.task { font-style: normal; font-size: 1rem; }
.solutions { break-before: page; }
.solution { break-inside: avoid; margin: .9rem 0; }
.game { break-inside: avoid; display: grid; grid-template: auto auto 1fr / 17rem 1fr; gap: 0 1.2rem; align-items: start; }
.game h4 { grid-column: 1 / -1; }
.game .board { grid-row: 2 / span 2; margin: .3rem 0; }
.game .board svg { width: 100%; }
.game p { margin: .3rem 0; }
@media (max-width: 34rem) { .game { display: block; } }
footer { margin-top: 3rem; border-top: 1px solid #000; padding-top: .5rem; font-size: .85rem; }
@page { size: A4; margin: 18mm 16mm; }
@media print { body { max-width: none; margin: 0; padding: 0; font-size: 11pt; } .wide { overflow: visible; } tr, .solution { break-inside: avoid; } .boards { grid-template-columns: repeat(3, 1fr); } }
`;

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
}: {
  svg: string;
  children?: ComponentChildren;
  name?: string;
}) => (
  <figure class={name}>
    <Raw html={svg} />
    {children && <figcaption>{children}</figcaption>}
  </figure>
);

/** Today as 2026-01-31. */
export const today = (): string => new Date().toISOString().slice(0, 10);

/** A whole document. `command` is what made it. */
export function renderPage(page: {
  title: string;
  command: string;
  date: string;
  body: ComponentChildren;
}): string {
  const html = renderToString(
    <html lang="en">
      <head>
        <meta charset="utf-8" />
        <meta name="viewport" content="width=device-width, initial-scale=1" />
        <title>{page.title}</title>
        <style dangerouslySetInnerHTML={{ __html: STYLE }} />
      </head>
      <body>
        <main>{page.body}</main>
        <footer>
          Made by longside {version()} on {page.date} with <code>{page.command}</code>
        </footer>
      </body>
    </html>,
  );
  return plainText(`<!doctype html>\n${html}\n`);
}
