// A lesson as parts that can be moved about one by one: headings, text, blocks. An outline is read into them and written
// from them, so that whoever puts a lesson together on the page never sees how an outline is written.

import MarkdownIt from "markdown-it";

import { type BlockName, block, isBlock, readBlock } from "./outline.js";

/** One part of a lesson, in the order in which they stand. */
export type LessonPart =
  | { readonly kind: "heading"; readonly depth: 2 | 3; readonly text: string }
  /** Text in Markdown, of one paragraph or several. */
  | { readonly kind: "text"; readonly text: string }
  | { readonly kind: "block"; readonly name: BlockName; readonly values: Readonly<Record<string, string>> };

/** A lesson in parts. */
export interface LessonInParts {
  readonly title: string;
  readonly parts: readonly LessonPart[];
}

/** Title of a lesson that says none, as on its page. */
const UNTITLED = "Lesson";

/** Reads an outline into parts; paragraphs that follow each other are one part. Throws `bad-outline`. */
export function partsOf(outline: string, path: string): LessonInParts {
  const lines = outline.trimEnd().split("\n");
  const tokens = new MarkdownIt({ html: false }).parse(lines.join("\n"), {});
  let title: string | undefined;
  const parts: LessonPart[] = [];
  tokens.forEach((token, n) => {
    if (token.level !== 0 || token.nesting < 0 || !token.map) return;
    const [from, to] = token.map;
    const depth = token.type === "heading_open" ? Number(token.tag.slice(1)) : 0;
    const name = token.info.trim().split(/\s/)[0];
    if (depth === 1 && title === undefined) title = tokens[n + 1].content;
    else if (depth === 2 || depth === 3) parts.push({ kind: "heading", depth, text: tokens[n + 1].content });
    else if (token.type === "fence" && isBlock(name)) {
      const { values } = readBlock(name, token.content, from + 1, path);
      parts.push({ kind: "block", name, values });
    } else {
      const text = lines.slice(from, to).join("\n").trim();
      const last = parts.at(-1);
      if (last?.kind === "text") parts[parts.length - 1] = { kind: "text", text: `${last.text}\n\n${text}` };
      else if (text !== "") parts.push({ kind: "text", text });
    }
  });
  return { title: title ?? UNTITLED, parts };
}

/** One line of text, as a heading takes it. */
const inOneLine = (text: string) => text.replace(/\s+/g, " ").trim();

function written(part: LessonPart): string {
  if (part.kind === "block") return block(part.name, part.values);
  const text = part.kind === "text" ? part.text.trim() : inOneLine(part.text);
  // one that was put in and left empty
  if (text === "") return "";
  return part.kind === "text" ? text : `${"#".repeat(part.depth)} ${text}`;
}

/** Writes parts as an outline; also the line, from 1, on which each of them begins. */
export function outlineFrom({ title, parts }: LessonInParts): {
  readonly outline: string;
  readonly lines: readonly number[];
} {
  const texts = [`# ${inOneLine(title) || UNTITLED}`, ...parts.map(written)];
  const lines: number[] = [];
  let line = 1;
  for (const text of texts) {
    lines.push(line);
    line += text.split("\n").length + 1;
  }
  return { outline: `${texts.join("\n\n")}\n`, lines: lines.slice(1) };
}

/** The number, from 1, of the part in which a line of the outline lies; undefined where that is before the first. */
export function partAt(lines: readonly number[], line: number): number | undefined {
  const n = lines.findLastIndex((first) => first <= line);
  return n < 0 ? undefined : n + 1;
}
