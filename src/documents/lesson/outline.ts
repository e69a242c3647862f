// A lesson's outline: the teacher's own text in Markdown, with fenced blocks that name what is to be put in their
// place. A block's first line is its name (```board), the lines in it are its values (YAML).

import MarkdownIt from "markdown-it";
import { parse as parseYaml, stringify as stringifyYaml } from "yaml";

import { LongsideError, causeOf } from "../../errors.js";
import { nearest } from "../../query/language/tokens.js";

/** Every block with its fields. */
export const BLOCKS = {
  board: {
    meaning: "a diagram, of a FEN or of an ending of the database at a ply",
    fields: ["fen", "ending", "ply", "below", "arrows", "rings", "caption"],
  },
  practice: {
    meaning: "how often it comes up and holds, in games and in the whole table",
    fields: ["question"],
  },
  rule: {
    meaning: "when it holds, in a sentence, with boards of the exceptions",
    fields: ["question", "seed"],
  },
  "key-squares": {
    meaning: "maps of a man for both sides to move, with distances and the best square",
    fields: ["fen", "piece"],
  },
  tries: {
    meaning: "what the attacker can try, and what each try turns the set-up into",
    fields: ["fen", "question", "size"],
  },
  stages: {
    meaning: "the win in stages: of a position, or of the hardest that is drawn for a question",
    fields: ["fen", "question"],
  },
  memory: { meaning: "which reply goes with which move, where the table gives a rule", fields: ["question"] },
  map: { meaning: "the verdict with one piece on every square", fields: ["fen", "piece"] },
  slides: { meaning: "the formation moved along the edge, and where its result changes", fields: ["fen"] },
  survey: { meaning: "a question about every position of the table", fields: ["question", "by"] },
  games: {
    meaning:
      "model games with their story, the strongest players' first, or those with the most positions that fit, or with the most only moves; else those of another question",
    fields: ["question", "else", "size", "order"],
  },
  game: { meaning: "one game of the database with its story", fields: ["ending", "ply"] },
  errors: { meaning: "which moves go wrong, with examples", fields: ["question", "size"] },
  exercises: {
    meaning:
      "exercises; their solutions stand at the end of the lesson; where there are too few, those of another question",
    fields: [
      "question",
      "else",
      "task",
      "size",
      "seed",
      "among",
      "answers",
      "themes",
      "by-theme",
      "pairs",
      "fens",
      "comments",
    ],
  },
} as const;
export type BlockName = keyof typeof BLOCKS;

export interface Block {
  readonly name: BlockName;
  /** Its values as text, by field. */
  readonly values: Readonly<Record<string, string>>;
  /** Line of the outline on which it begins, from 1. */
  readonly line: number;
}

/** What a block's place is filled with. */
export type Fill = (block: Block) => Promise<string>;

/** Whether the last line closes a fence. */
const isClosed = (lines: readonly string[], fence: string) =>
  lines.at(-1)!.trim().startsWith(fence) && lines.length > 1;

/** Whether an address leads to another machine; pictures beside the page, and those within it, do not. */
const isElsewhere = (address: string): boolean =>
  /^(?:[a-z][a-z0-9+.-]*:|[\\/]{2})/i.test(address) && !/^data:/i.test(address);

/** Whether a word is the name of a block. */
export const isBlock = (word: string): word is BlockName => Object.hasOwn(BLOCKS, word);

/** A value as text: lists as lines, "3: look" as it was written. */
function textOf(value: unknown): string {
  if (Array.isArray(value)) return value.map(textOf).join("\n");
  if (typeof value !== "object" || value === null) return String(value).trimEnd();
  return Object.entries(value)
    .map(([key, one]) => `${key}: ${textOf(one)}`)
    .join("\n");
}

/** Reads a block. Throws `bad-outline`. */
export function readBlock(name: BlockName, content: string, line: number, path: string): Block {
  const fail = (cause: string) => new LongsideError("bad-outline", { path, cause }, { file: path, line });
  let read: unknown;
  try {
    // an alias may stand for what holds it, without end; nobody needs one here
    read = parseYaml(content, { logLevel: "error", maxAliasCount: 0 }) ?? {};
  } catch (thrown) {
    throw fail(`the lines of this ${name} cannot be read: ${causeOf(thrown).split("\n")[0]}`);
  }
  if (typeof read !== "object" || Array.isArray(read))
    throw fail(`the block "${name}" takes lines such as "${BLOCKS[name].fields[0]}: …"`);
  const fields: readonly string[] = BLOCKS[name].fields;
  const values: Record<string, string> = {};
  for (const [field, value] of Object.entries(read as object)) {
    if (!fields.includes(field)) {
      const near = nearest(field, fields);
      throw fail(
        `the block "${name}" has no "${field}"${near ? `; did you mean ${near}?` : `; it takes ${fields.join(", ")}`}`,
      );
    }
    values[field] = textOf(value);
  }
  return { name, values, line };
}

/** A lesson's page body. `fill` is called for each block in order. Throws `bad-outline`, and what `fill` throws. */
export async function renderOutline(
  text: string,
  path: string,
  fill: Fill,
): Promise<{ title: string; html: string }> {
  if (text.trim() === "")
    throw new LongsideError(
      "bad-outline",
      { path, cause: "there is nothing in it" },
      { file: path, line: 1 },
    );
  const lines = text.trimEnd().split("\n");
  // HTML in the text is shown as it is written
  const markdown = new MarkdownIt({ html: false, typographer: false });
  const tokens = markdown.parse(lines.join("\n"), {});
  const fence = markdown.renderer.rules.fence!;
  const image = markdown.renderer.rules.image!;
  // whoever opens the page tells no other machine of it: what lies elsewhere is a link
  markdown.renderer.rules.image = (all, n, ...rest) => {
    const address = String(all[n].attrGet("src") ?? "");
    if (!isElsewhere(address)) return image(all, n, ...rest);
    const { escapeHtml } = markdown.utils;
    return `<a href="${escapeHtml(address)}">${escapeHtml(all[n].content || address)}</a>`;
  };
  markdown.renderer.rules.fence = (all, n, ...rest) =>
    (all[n].meta as { html: string } | null)?.html ?? fence(all, n, ...rest);
  for (const token of tokens) {
    const word = token.info.trim().split(/\s/)[0];
    if (token.type !== "fence") continue;
    const line = (token.map?.[0] ?? 0) + 1;
    if (!isBlock(word)) {
      const near = word.length > 3 ? nearest(word, Object.keys(BLOCKS)) : undefined;
      if (near)
        throw new LongsideError(
          "bad-outline",
          { path, cause: `there is no block "${word}"; did you mean ${near}?` },
          { file: path, line },
        );
      continue;
    }
    if (token.map?.[1] === lines.length && !isClosed(lines, token.markup))
      throw new LongsideError(
        "bad-outline",
        { path, cause: `the block "${word}" is not closed by ${token.markup}` },
        { file: path, line },
      );
    const block = readBlock(word, token.content, line, path);
    try {
      token.meta = { html: await fill(block) };
    } catch (thrown) {
      // the error should say where in the outline it arose
      throw thrown instanceof LongsideError ? thrown.placed({ file: path, line: block.line }) : thrown;
    }
  }
  const heading = tokens.findIndex(({ type, tag }) => type === "heading_open" && tag === "h1");
  return {
    title: heading < 0 ? "Lesson" : tokens[heading + 1].content,
    html: markdown.renderer.render(tokens, markdown.options, {}),
  };
}

/** A block as it is written. */
export const block = (
  name: BlockName,
  values: Record<string, string | number | readonly string[] | undefined>,
): string =>
  [
    `\`\`\`${name}`,
    ...Object.entries(values).flatMap(([field, value]) =>
      value === undefined ? [] : [stringifyYaml({ [field]: value }, { lineWidth: 0 }).trimEnd()],
    ),
    "```",
  ].join("\n");
