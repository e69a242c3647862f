// A lesson in parts, which can be moved about: what is read from an outline and written again is the same lesson.

import { describe, expect, it } from "vitest";

import { block, renderOutline } from "../../src/documents/lesson/outline.js";
import { type LessonInParts, outlineFrom, partAt, partsOf } from "../../src/documents/lesson/parts.js";

const OUTLINE = `# A title

What it is.
*(a source)*

- one
- two

## The rule

${block("rule", { question: "szen" })}

### Smaller

${block("board", { fen: "3k4/r7/3K4/3B4/8/8/8/6R1 b - - 0 1", caption: 'Say: "so"' })}
${block("exercises", { fens: ["3k4/r7/3K4/3B4/8/8/8/6R1 b - - 0 1; look", "8/8/8/8/8/8/8/8 w - - 0 1"] })}

The end.
`;

/** The body with each block as its name and values. */
const bodyOf = async (outline: string) =>
  (
    await renderOutline(outline, "o.md", ({ name, values }) =>
      Promise.resolve(`[${name} ${JSON.stringify(values)}]`),
    )
  ).html;

describe("a lesson in parts", () => {
  it("has headings, text and blocks in order, paragraphs that follow each other as one", () => {
    const { title, parts } = partsOf(OUTLINE, "o.md");
    expect(title).toBe("A title");
    expect(parts.map(({ kind }) => kind)).toEqual([
      "text",
      "heading",
      "block",
      "heading",
      "block",
      "block",
      "text",
    ]);
    expect(parts[0]).toEqual({ kind: "text", text: "What it is.\n*(a source)*\n\n- one\n- two" });
    expect(parts[3]).toEqual({ kind: "heading", depth: 3, text: "Smaller" });
  });

  it("is the same lesson when it is written again, and the same parts when that is read", async () => {
    const parts = partsOf(OUTLINE, "o.md");
    const { outline } = outlineFrom(parts);
    expect(await bodyOf(outline)).toBe(await bodyOf(OUTLINE));
    expect(partsOf(outline, "o.md")).toEqual(parts);
  });

  it("finds the part in which a line lies, past parts that were left empty", () => {
    const lesson: LessonInParts = {
      title: "",
      parts: [
        { kind: "text", text: "one\n\ntwo" },
        { kind: "text", text: " " },
        { kind: "heading", depth: 2, text: "" },
        { kind: "block", name: "rule", values: { question: "szen" } },
      ],
    };
    const { outline, lines } = outlineFrom(lesson);
    expect(partsOf(outline, "o.md")).toMatchObject({
      title: "Lesson",
      parts: [{ kind: "text" }, { name: "rule" }],
    });
    const at = outline.split("\n").findIndex((line) => line.startsWith("```rule")) + 1;
    expect(partAt(lines, at)).toBe(4);
    expect(partAt(lines, at + 2)).toBe(4);
    expect(partAt(lines, 1)).toBeUndefined();
  });

  it("tells a fault of a block with its line", () => {
    expect(() => partsOf("# X\n\n```board\nfem: x\n```\n", "o.md")).toThrowError(/has no "fem"/);
  });
});
