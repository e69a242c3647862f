// A hand on a mouse: it sees what a person sees, turns the wheel until what it wants is in sight, and presses a button
// there. Nothing is scrolled, focused or clicked for it.

import { type Locator, type Page } from "playwright-core";
import { expect } from "vitest";

import { soon } from "./support.js";

/** Turns of the wheel at most until something is in sight, and pixels of a turn. */
const MOST_TURNS = 120;
const TURN = 240;

interface Point {
  readonly x: number;
  readonly y: number;
}

/** A point of an element that a press would reach, or by how much the wheel must be turned first. */
interface Seen {
  readonly point?: Point;
  readonly away: number;
}

/** Run in the page, on the element. */
const LOOK = (element: Element, part: Point): Seen => {
  const { left, top, width, height } = element.getBoundingClientRect();
  const point = { x: left + part.x * width, y: top + part.y * height };
  const margin = 4;
  if (point.y < margin) return { away: point.y - innerHeight / 2 };
  if (point.y > innerHeight - margin) return { away: point.y - innerHeight / 2 };
  const hit = document.elementFromPoint(point.x, point.y);
  if (!hit) return { away: 0 };
  // a press on a label, or on what lies in a link, is one on it
  return element.contains(hit) || hit.contains(element) || hit.closest("label")?.contains(element)
    ? { point, away: 0 }
    : { away: 0 };
};

export class Hand {
  constructor(private readonly page: Page) {}

  /** Moves to a part of something, by a place within it: (0.5, 0.5) is its middle. */
  async to(what: Locator, part: Point = { x: 0.5, y: 0.5 }): Promise<Point> {
    const { mouse } = this.page;
    await what.waitFor();
    let last = "";
    for (let turn = 0; turn < MOST_TURNS; ++turn) {
      const { point, away } = await what.evaluate(LOOK, part);
      const seen = JSON.stringify(point ?? away);
      // what still moves is waited for, as a person does
      if (point && seen === last) {
        await mouse.move(point.x, point.y, { steps: 3 });
        return point;
      }
      if (away !== 0 && seen === last) {
        // beside whatever scrolls by itself
        await mouse.move(4, this.page.viewportSize()!.height / 2);
        await mouse.wheel(0, Math.sign(away) * Math.min(Math.abs(away), TURN));
      }
      last = seen;
      await this.page.evaluate(
        "new Promise((done) => requestAnimationFrame(() => requestAnimationFrame(done)))",
      );
    }
    return expect.fail(`no turn of the wheel brings ${what} where it can be pressed: ${last}`);
  }

  async press(what: Locator, part?: Point): Promise<void> {
    await this.to(what, part);
    await this.page.mouse.down();
    await this.page.mouse.up();
  }

  /** Drags from one thing to a part of another. */
  async drag(what: Locator, to: Locator, part?: Point): Promise<void> {
    await this.to(what);
    await this.page.mouse.down();
    await this.page.mouse.move(...(await this.over(to, part)), { steps: 6 });
    await this.page.mouse.up();
  }

  /** Turns the wheel over something that scrolls by itself, until it has. */
  async wheelOver(what: Locator, isTurned: () => Promise<unknown>): Promise<void> {
    await this.to(what, { x: 0.5, y: 0.1 });
    const before = await isTurned();
    await this.page.mouse.wheel(0, TURN);
    await soon(isTurned).not.toEqual(before);
  }

  private async over(to: Locator, part: Point = { x: 0.5, y: 0.5 }): Promise<[number, number]> {
    const { x, y, width, height } = (await to.boundingBox())!;
    return [x + part.x * width, y + part.y * height];
  }
}
