// A drawing made as text whose links stay within the page.

import { followed } from "./address.js";

/** Shows a drawing; a click on one of its links goes there without loading the page anew. */
export const LinkedDrawing = ({ svg }: { svg: string }) => (
  <div
    class="linked-drawing"
    onClick={(event) => {
      const to = (event.target as Element).closest("a[href]")?.getAttribute("href");
      if (to) followed(event, to);
    }}
    dangerouslySetInnerHTML={{ __html: svg }}
  />
);
