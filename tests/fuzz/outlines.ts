// Outlines of lessons with odd text and odd blocks: filled in or refused, and nothing in the page that runs or is fetched.

import { LongsideError } from "../../src/errors.js";
import { BLOCKS, renderOutline } from "../../src/documents/lesson/outline.js";
import { type Campaign, ODD, faultIn } from "./campaign.js";

const LINES = [
  "# Title",
  "Some *text* with `code`.",
  "```",
  "~~~",
  "![a](https://example.org/a.png)",
  "![a](//example.org/a.png)",
  "![a](javascript:alert(1))",
  "[a](javascript:alert(1))",
  "<img src=x onerror=alert(1)>",
  "<https://example.org>",
  "[r]: https://example.org/b.png",
  "![x][r]",
  "| a | b |\n|---|---|",
  "fen: 3k4/5R2/3K4/3B4/8/8/4r3/8 w - - 0 1",
  "question: [a, b]",
  "size: 1e9",
  "&a [*a]",
  "fens: &x\n  - *x",
  "> quoted",
  "- item",
  "!!js/function x",
];
/** What would run or be fetched as soon as the page is opened. */
const ALIVE =
  /<(?:script|iframe|object|embed|link)|<[^>]+\son\w+\s*=|href="\s*javascript:|<img[^>]+src="(?!data:)(?:[a-z]+:|\/\/)/i;

export function outlinesCampaign(): Campaign {
  return {
    name: "outlines",
    make: (chance) =>
      Array.from({ length: 1 + chance.below(20) }, () =>
        chance.once(4)
          ? `\`\`\`${chance.of(Object.keys(BLOCKS))}`
          : chance.once(4)
            ? `${chance.of(["", "fen: ", "ending: ", "caption: ", "# "])}${chance.of(ODD)}`
            : chance.of(LINES),
      ),
    async attempt(parts) {
      try {
        const { html } = await renderOutline(parts.join("\n"), "lesson.md", async () => "<p>block</p>");
        return ALIVE.test(html) ? `the page holds ${ALIVE.exec(html)![0]}` : undefined;
      } catch (thrown) {
        return thrown instanceof LongsideError
          ? faultIn(thrown.message.replaceAll(/undefined|NaN/g, ""))
          : `it throws ${String((thrown as Error).stack)}`;
      }
    },
  };
}
