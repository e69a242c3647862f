// What has been made, to be opened or saved.

import type { AnswerTo } from "./calls.js";
import { save } from "./parts.js";

export type Made = AnswerTo<"lesson">["made"];

/** What has been made, to be opened or saved. */
export const MadeLinks = ({ made, what }: { made: Made; what: string }) => (
  <p class="note" role="status">
    {what}:{" "}
    <a href={made.address} target="_blank" rel="noopener">
      open it
    </a>{" "}
    (to read or to print),{" "}
    <button type="button" class="plain" onClick={() => save(made)}>
      save {made.name}
    </button>
    .
  </p>
);
