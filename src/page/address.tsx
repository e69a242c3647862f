// Where the page is: the path and the query of its address, so that everything shown can be bookmarked and sent on.

import type { ComponentChildren } from "preact";

import { sharedValue } from "./shared-value.js";

export interface Address {
  readonly path: string;
  readonly query: Readonly<Record<string, string>>;
}

const read = (): Address => ({
  path: location.pathname,
  query: Object.fromEntries(new URLSearchParams(location.search)),
});

const address = sharedValue(read());

// who comes back finds the page where it was left: the place is kept with the step, since what is shown comes later than
// the browser would look for it
history.scrollRestoration = "manual";
let resting: ReturnType<typeof setTimeout> | undefined;
const keepPlace = () => history.replaceState({ y: scrollY }, "");
addEventListener("scroll", () => {
  clearTimeout(resting);
  resting = setTimeout(keepPlace, 120);
});
addEventListener("popstate", ({ state }) => {
  clearTimeout(resting);
  const { y = 0 } = (state ?? {}) as { y?: number };
  address.set(read());
  requestAnimationFrame(() => requestAnimationFrame(() => scrollTo(0, y)));
});

/** The address as it is now, and for a component, which is drawn again when it changes. */
export const { get: currentAddress, use: useAddress } = address;

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

/** Goes to an address; `replace` leaves no step to go back to. */
export function go(to: string, how: "push" | "replace" = "push"): void {
  clearTimeout(resting);
  if (how === "push") {
    keepPlace();
    history.pushState(null, "", to);
  } else history.replaceState(history.state, "", to);
  address.set(read());
}

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
