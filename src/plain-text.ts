// The one gate for text that comes from anywhere: tags of games, file names, questions, captions. What could command a
// terminal, break a file format or show letters in another order than they stand is taken out on the way to every output.

/**
 * Control characters but the line feed (C0, DEL and C1, in which U+009B begins a command to a terminal as ESC [ does);
 * embeddings, overrides and isolates that turn the order of letters (Unicode Standard Annex 9, sections 2.1 to 2.4); line
 * and paragraph separators; halves of characters, which no encoding holds.
 */
const UNSAFE =
  /[\u0000-\u0008\u000b-\u001f\u007f-\u009f\u202a-\u202e\u2066-\u2069\u2028\u2029]|[\ud800-\udbff](?![\udc00-\udfff])|(?<![\ud800-\udbff])[\udc00-\udfff]/g;

/** Text of several lines with nothing in it but what is shown; a tab becomes a blank. */
export const plainText = (text: string): string => text.replace(UNSAFE, "").replaceAll("\t", " ");

/** The same in one line. */
export const plainLine = (text: string): string => plainText(text.replace(/[\r\n]+/g, " "));

/**
 * JSON that any terminal can show. What is unsafe is written as an escape (RFC 8259, section 7), so that nothing is lost
 * to a program that reads it.
 */
export const safeJson = (value: unknown, space?: number): string =>
  JSON.stringify(value, undefined, space).replace(
    UNSAFE,
    (sign) =>
      // a line feed between tokens is kept; inside of strings it is an escape already
      `\\u${sign.charCodeAt(0).toString(16).padStart(4, "0")}`,
  );

/** Colours that this program writes: bold, dim, some hues, and their ends (ECMA-48, 8.3.117). */
const COLOUR = /\u001b\[(?:0|1|2|22|3[1-6]|39)m/;
const COLOURS = new RegExp(`(${COLOUR.source})`);

/**
 * Text for a terminal: as `plainText`, with the program's own colours kept where it writes any. A hue in text from
 * elsewhere passes then too; nothing can be hidden by it, and nothing moved.
 */
export const terminalText = (text: string, inColour: boolean): string =>
  !inColour
    ? plainText(text)
    : text
        .split(COLOURS)
        .map((part, n) => (n % 2 === 1 ? part : plainText(part)))
        .join("");

/** A replacer for JSON that goes to the page: every text in it is plain. */
export const plainValues = (_name: string, value: unknown): unknown =>
  typeof value === "string" ? plainText(value) : value;
