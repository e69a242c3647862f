// `contrast`: the nearest positions that come out otherwise, and what differs.

import { valueInWords } from "../position/wording.js";
import { contrasts } from "../position/contrast.js";
import { placementOf, readFen } from "../chess/fen.js";
import { typedFen } from "../chess/fen-text.js";
import type { Command } from "./command.js";
import { note, print, printJson } from "./messages.js";
import { boardText, bold, dim, factValueText, paragraph, verdictText } from "./terminal.js";

/** Contrasts shown, unless told otherwise. */
const SHOWN = 6;
/** Facts told of each. */
const FACTS = 4;

export const run: Command = async (words, options, workspace) => {
  const fen = typedFen(words);
  await workspace.prepare([placementOf(readFen(fen)).material], "head");
  const found = contrasts(fen, workspace.prober, workspace.catalogue);
  const limit = options.limit === 0 ? Infinity : (options.limit ?? SHOWN);
  const shown = found.contrasts.slice(0, limit);
  if (options.json) {
    for (const contrast of shown) printJson(contrast);
    return shown.length > 0 ? 0 : 1;
  }
  print(boardText(found.fen));
  const names = found.setUps.length > 0 ? ` (${found.setUps.join(", ")})` : "";
  print(`\n${verdictText(found.value.verdict, valueInWords(found.value))}${names}`);
  if (shown.length === 0) {
    note("No position within two steps comes out otherwise.");
    return 1;
  }
  for (const { fen: other, value, changed, setUps, differs } of shown) {
    print(
      `\n${paragraph(`${bold(changed.join(", "))}: ${verdictText(value.verdict, valueInWords(value))}${setUps.length > 0 ? ` (${setUps.join(", ")})` : ""}`)}`,
    );
    print(`  ${other}`);
    const facts = differs
      .slice(0, FACTS)
      .map(({ fact, from, to }) => `${fact} ${factValueText(from)}→${factValueText(to)}`);
    if (facts.length > 0) print(dim(paragraph(`  ${facts.join(", ")}${differs.length > FACTS ? " …" : ""}`)));
  }
  if (found.contrasts.length > shown.length)
    print(`\n${dim(`${found.contrasts.length - shown.length} more; --limit 0 shows all`)}`);
  return 0;
};
