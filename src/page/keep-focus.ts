// The focus of the keyboard, kept where it was: what has the focus may go away (a row that is taken out, a button that
// gives way to another) or be out of use while something is worked out, and a browser then begins at the top again.

/** What a key can go to. */
const REACHED =
  "a[href], button:not(:disabled), input:not(:disabled), select:not(:disabled), textarea:not(:disabled), summary, [tabindex='0']";

/** What had the focus last, with what it lay in, from the inside out, and its number among what could be reached there. */
interface Place {
  readonly element: HTMLElement;
  readonly within: readonly { readonly element: HTMLElement; readonly number: number }[];
}

const reachedIn = (element: HTMLElement) => [...element.querySelectorAll<HTMLElement>(REACHED)];

function placeOf(element: HTMLElement): Place {
  const within: { element: HTMLElement; number: number }[] = [];
  for (let around = element.parentElement; around && around !== document.body; around = around.parentElement)
    within.push({ element: around, number: reachedIn(around).indexOf(element) });
  return { element, within };
}

/** Gives the focus to what stands now where the element that is gone stood: in the nearest of its surroundings. */
function giveOn({ within }: Place): void {
  for (const { element, number } of within) {
    if (!element.isConnected || element.matches("a, button, label")) continue;
    const reached = reachedIn(element);
    const next = reached.at(Math.max(0, Math.min(number, reached.length - 1)));
    // what is folded away or hidden does not take it
    next?.focus({ preventScroll: true });
    if (document.activeElement === next && next) return;
  }
}

/** Keeps the focus from now on. */
export function keepFocus(): void {
  let last: Place | undefined;
  addEventListener("focusin", ({ target }) => {
    // the place itself is gone to when the address changes
    last = target instanceof HTMLElement && target.id !== "main" ? placeOf(target) : undefined;
  });
  addEventListener("pointerdown", ({ target }) => {
    // who points at nothing wants the focus nowhere
    if (target instanceof Element && !target.closest(REACHED)) last = undefined;
  });
  new MutationObserver(() => {
    if (!last || (document.activeElement !== document.body && document.activeElement !== null)) return;
    if (!last.element.isConnected) giveOn(last);
    // it was out of use for a while
    else if (!last.element.matches(":disabled")) last.element.focus({ preventScroll: true });
  }).observe(document.body, {
    subtree: true,
    childList: true,
    attributes: true,
    attributeFilter: ["disabled"],
  });
}
