// What a lesson's reader may look up behind its exercises: the pictures of the set-ups that it names beside its own.

import { parseHTML } from "linkedom";
import { renderToString } from "preact-render-to-string";

import type { Exercise } from "../../exercises/exercise.js";
import { capital, sentence } from "../../position/wording.js";
import type { Catalogue } from "../../query/language/catalogue.js";
import { setUpInWords } from "../../query/language/set-up-words.js";

/** Text of a part of a page without its drawings. */
function textOf(html: string): string {
  const { body } = parseHTML(`<!doctype html><html><body>${html}</body></html>`).document;
  for (const drawing of body.querySelectorAll("svg")) drawing.remove();
  return body.textContent ?? "";
}

/** Set-ups that are named in the text or in the solutions of exercises; not those whose picture stands in the text itself. */
export function namedSetUps(
  body: string,
  exercises: readonly Pick<Exercise, "setUps">[],
  { setUps }: Pick<Catalogue, "setUps">,
): { readonly name: string; readonly picture: string }[] {
  const text = textOf(body);
  const lower = text.toLowerCase();
  const solved = new Set(exercises.flatMap((one) => one.setUps));
  const isNamed = (name: string) =>
    solved.has(name) ||
    [name, setUpInWords(name).replace(/^(?:the|an?) /, "")].some((words) =>
      lower.includes(words.toLowerCase()),
    );
  return setUps
    .filter(({ name, picture }) => picture !== "" && isNamed(name) && !text.includes(sentence(picture)))
    .map(({ name, picture }) => ({ name, picture: sentence(capital(picture)) }))
    .sort((a, b) => (a.name.toLowerCase() < b.name.toLowerCase() ? -1 : 1));
}

/** The same in a paragraph; nothing where no other set-up is named. */
export function namedSetUpsSection(...asked: Parameters<typeof namedSetUps>): string {
  const named = namedSetUps(...asked);
  if (named.length === 0) return "";
  return renderToString(
    <p class="names">
      <i>Set-ups named here.</i>
      {named.map(({ name, picture }) => (
        <>
          {" "}
          <b>{capital(name)}:</b> {picture}
        </>
      ))}
    </p>,
  );
}
