// The library brings no types of its own.

declare module "@joplin/turndown-plugin-gfm" {
  import type Turndown from "turndown";

  /** Tables, tasks, struck-out text as on GitHub. */
  export const gfm: Turndown.Plugin;
}
