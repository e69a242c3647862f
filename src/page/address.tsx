// Where the page is: the path and the query of its address, so that everything shown can be bookmarked and sent on.

import type { ComponentChildren } from "preact";

import { sharedValue } from "./shared-value.js";

export interface Address {
  readonly path: string;
  readonly query: Readonly<Record<string, string>>;
}

function read(): Address {
  const { pathname, search } = new URL(written ?? location.href, location.href);
  return { path: pathname, query: Object.fromEntries(new URLSearchParams(search)) };
}

/** An address that is shown and not yet in the browser's line. */
let written: string | undefined;
/** Browsers take a few addresses a second from a page and no more (the strictest a hundred in thirty seconds), and a key
 * that is held down makes thirty: of the steps that come within so many milliseconds the last is written. It waits for the
 * frame, too, since a browser does much with an address: it may fetch the page's sign again. */
const EACH = 400;
let writing: ReturnType<typeof setTimeout> | undefined;
function write(): void {
  clearTimeout(writing);
  writing = undefined;
  if (written !== undefined) history.replaceState(history.state, "", written);
  written = undefined;
}
addEventListener("pagehide", write);

const address = sharedValue(read());

/** What is stored with a step of the browser's history. */
interface State {
  /** How far the page was scrolled. */
  readonly y?: number;
  /** Its number among the steps of this page. */
  readonly n?: number;
  /** The path of the step before. */
  readonly from?: string;
}
const stateOf = (state: unknown): State => (state ?? {}) as State;

/** The number of the step of the browser's history that is shown. */
export const historyStep = (): number => stateOf(history.state).n ?? 0;
/** The paths of the steps that were taken since the page was loaded, by their numbers. */
const paths: string[] = [];
paths[historyStep()] = address.get().path;

/** The first screen is the place of questions too. */
const samePlace = (path: string, other: string | undefined) =>
  (path === "/" ? "/ask" : path) === (other === "/" ? "/ask" : other);

/** Whether the step before, or the one after, is in the place that is shown. */
export const isStepHere = (way: "undo" | "redo"): boolean =>
  samePlace(
    address.get().path,
    way === "undo" ? stateOf(history.state).from : (paths[historyStep() + 1] as string | undefined),
  );

// who comes back finds the page where it was left: the place is kept with the step, since what is shown comes later than
// the browser would look for it
history.scrollRestoration = "manual";
let resting: ReturnType<typeof setTimeout> | undefined;
const keepPlace = () => {
  write();
  history.replaceState({ ...stateOf(history.state), y: scrollY }, "");
};
addEventListener("scroll", () => {
  clearTimeout(resting);
  resting = setTimeout(keepPlace, 120);
});
addEventListener("popstate", ({ state }) => {
  clearTimeout(resting);
  clearTimeout(writing);
  writing = written = undefined;
  const { y = 0 } = stateOf(state);
  const now = read();
  paths[historyStep()] = now.path;
  address.set(now);
  requestAnimationFrame(() => requestAnimationFrame(() => scrollTo(0, y)));
});

/** The address as it is now, and for a component, which is drawn again when it changes. */
export const { get: currentAddress, use: useAddress, usePart: useAddressPart } = address;

/** An address within the page; what is undefined or empty is left out of it. */
export function addressOf(
  path: string,
  query: Readonly<Record<string, string | number | undefined>> = {},
): string {
  const parts = new URLSearchParams();
  for (const [name, value] of Object.entries(query))
    if (value !== undefined && value !== "") parts.set(name, String(value));
  const text = parts.toString();
  return text === "" ? path : `${path}?${text}`;
}

/** Goes to an address. `replace` leaves no step to go back to; so does `step`, of which there may be many in a second. */
export function go(to: string, how: "push" | "replace" | "step" = "push"): void {
  clearTimeout(resting);
  if (how === "push") {
    keepPlace();
    const n = historyStep() + 1;
    history.pushState({ n, from: address.get().path } satisfies State, "", to);
    // what lay ahead is gone
    paths.length = n;
    paths[n] = read().path;
  } else {
    written = to;
    if (how === "replace") write();
    else writing ??= setTimeout(write, EACH);
  }
  address.set(read());
}

/** The whole address of what is shown, to be sent on. */
export const wholeAddress = (): string => new URL(written ?? location.href, location.href).href;

/** Goes where a click on a link leads, without loading the page anew. */
export function followed(event: MouseEvent, to: string): void {
  // a click that asks for a tab of its own is the browser's
  if (event.defaultPrevented || event.button !== 0 || event.metaKey || event.ctrlKey || event.shiftKey)
    return;
  event.preventDefault();
  go(to);
  scrollTo(0, 0);
}

/** A link within the page. */
export const Link = ({
  to,
  children,
  ...rest
}: {
  to: string;
  children: ComponentChildren;
  class?: string;
  "aria-current"?: "page" | "true";
  "aria-label"?: string;
}) => (
  <a href={to} {...rest} onClick={(event) => followed(event, to)}>
    {children}
  </a>
);
