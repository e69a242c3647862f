// What comes one after another, soon after, or in answer: courses from conditions, and what has no order.

import { type Question, type Sequence, formatQuestion, join, leavesOf, levelOf } from "./ast.js";
import { type Part, allOf, isLasting, part, sortOf } from "./joining.js";
import type { ReadConditions } from "./read-conditions.js";

/** A step of a sequence, and in how many moves it comes. */
export interface Step {
  readonly part: Question;
  readonly within: number | null;
}

/** Whether a condition counts, or asks for most of an ending, so that nothing comes before or after it. */
export const hasNoOrder = (node: Question): boolean =>
  leavesOf(node).some(
    (leaf) =>
      leaf.kind === "tally" ||
      leaf.kind === "run" ||
      leaf.kind === "first" ||
      (leaf.kind === "scoped" && /^(?:throughout|mostly|never)$/.test(leaf.quantifier)) ||
      (leaf.kind === "compare" && /(?:^|-)errors$/.test(leaf.fact.name)),
  );

/** A course whose last step may come at any time. */
export const isOpenCourse = (node: Question): node is Sequence =>
  node.kind === "sequence" && node.then.at(-1)!.within === null;

/** What comes in the first moves of the ending, as a step of a course; undefined of anything else. */
export function inFirstMoves(node: Question, conditions: ReadConditions): Question | undefined {
  if (node.kind !== "first" || node.of) return undefined;
  return join("and", [node.part, conditions.read(`moves-in < ${node.within}`)]);
}

/**
 * One thing before or after another, `within` so many moves; "lost after the Philidor": what is about the whole ending comes
 * after everything.
 */
export function inOrder(
  first: Part,
  other: Part,
  kind: "before" | "after",
  within: number | null,
): Part | undefined {
  const [earlier, later] = kind === "before" ? [first, other] : [other, first];
  // "repetition after the attacker made no progress": what is about the whole game has no order of its own
  if (levelOf(earlier.node) !== "position")
    return within === null &&
      kind === "after" &&
      levelOf(later.node) !== "position" &&
      sortOf(first.node) !== sortOf(other.node)
      ? allOf([first, other])
      : undefined;
  if (levelOf(later.node) !== "position") return within === null ? allOf([first, other]) : undefined;
  return continued(earlier, [{ part: later.node, within }]);
}

const SIDES = ["attacker", "defender"] as const;

/** A move and the other side's answer to it: "check answered by a blunder"; undefined where no move stands before it. */
export function answered(before: Part, one: Part, conditions: ReadConditions): Part | undefined {
  const isMove = leavesOf(before.node).some(
    (leaf) =>
      leaf.kind === "waiting" ||
      ((leaf.kind === "compare" || leaf.kind === "range") && leaf.fact.scope === "move"),
  );
  if (!isMove || levelOf(before.node) !== "position" || levelOf(one.node) !== "position") return undefined;
  const says = (node: Question, side: string) => formatQuestion(node).includes(`to-move = ${side}`);
  const said = SIDES.filter((side) => says(before.node, side));
  // "the attacker erred right after its own check" is no answer
  const sides = (said.length > 0 ? said : SIDES).filter((side) => !says(one.node, side));
  if (sides.length === 0) return undefined;
  const courses = sides.map((side) => {
    const [mover, other] = [side, side === "attacker" ? "defender" : "attacker"].map((who) =>
      conditions.read(`to-move = ${who}`),
    );
    return continued(part(join("and", [mover, before.node])), [
      { part: join("and", [other, one.node]), within: 1 },
    ]).node;
  });
  return part(join("or", courses));
}

/** A course that goes on with more steps: "king driven to the edge, then Philidor". */
export function continued(first: Part, then: readonly Step[]): Part {
  if (then.length === 0) return first;
  const { node } = first;
  return node.kind === "sequence"
    ? part({ ...node, then: [...node.then, ...then] })
    : part({ kind: "sequence", first: node, then });
}

/** What a part between commas says of a position, where it is a single moment: a set-up, or how it stood. */
const momentOf = ({ node, ofPosition }: Part): Question | undefined =>
  ofPosition ?? (node.kind === "set-up" ? node : undefined);

/**
 * Steps of a course between commas, of which only some have "then": "drawn, lost, then drawn", "Philidor, Cochrane, then Szén";
 * or none, where a result comes back that no game can have twice: "won, drawn, won".
 */
export function inSteps(lists: readonly Part[], conditions: ReadConditions): Part[] {
  const steps: Part[] = [];
  for (const one of lists) {
    const before = steps.at(-1);
    const [earlier, later] = [before && momentOf(before), momentOf(one)];
    const { node } = one;
    // "left it, and was mated within the next fifteen moves"
    const next = one.soon?.isNext ? sinceReached(before, one, conditions) : undefined;
    if (next) steps[steps.length - 1] = next;
    else if (earlier && node.kind === "sequence" && sortOf(earlier) === sortOf(node.first))
      steps[steps.length - 1] = continued(part(earlier), [{ part: node.first, within: null }, ...node.then]);
    // "king in the corner, mated there"
    else if (before && one.there && isLasting(before.node)) {
      steps[steps.length - 1] = part({ kind: "scoped", quantifier: "end", part: before.node });
      steps.push(one);
    } else if (before?.node.kind === "sequence" && one.again && later)
      steps[steps.length - 1] = continued(before, [{ part: later, within: null }]);
    else steps.push(one);
  }
  const results = steps.map(({ result, ofPosition }) => (result ? ofPosition : undefined));
  const said = results.map((result) => result && formatQuestion(result));
  const [first, ...rest] = results;
  const returns = said.some(
    (one, n) => one !== undefined && n > 1 && one === said[n - 2] && one !== said[n - 1],
  );
  if (!returns || !first || rest.some((one) => one === undefined)) return steps;
  return [
    continued(
      part(first),
      rest.map((one) => ({ part: one!, within: null })),
    ),
  ];
}

/** A moment of which at most so many moves are left; undefined where what stands before is none. */
export function nearTheEnd(node: Question, moves: number, conditions: ReadConditions): Question | undefined {
  const near = conditions.read(`moves-left <= ${moves}`);
  if (levelOf(node) === "position") return join("and", [node, near]);
  if (node.kind === "sequence") {
    const last = node.then[node.then.length - 1];
    const then = [...node.then.slice(0, -1), { ...last, part: join("and", [last.part, near]) }];
    return { ...node, then };
  }
  if (node.kind !== "change" || node.how !== "left" || node.by) return undefined;
  const left: Question = { kind: "not", part: node.part };
  return { kind: "sequence", first: node.part, then: [{ part: join("and", [left, near]), within: 1 }] };
}

/** "Reached Philidor and threw the win away within 15 moves", "and won within 15 moves": of reaching it. */
export function sinceReached(
  before: Part | undefined,
  one: Part,
  conditions: ReadConditions,
): Part | undefined {
  if (
    one.soon &&
    levelOf(one.soon.result) !== "position" &&
    before &&
    ["set-up", "change", "sequence"].includes(before.node.kind)
  ) {
    const near = nearTheEnd(before.node, one.soon.moves, conditions);
    return near && part(join("and", [near, one.soon.result]), true);
  }
  if (
    !before ||
    !["set-up", "sequence"].includes(before.node.kind) ||
    one.node.kind !== "first" ||
    one.node.of
  )
    return undefined;
  return continued(before, [{ part: one.node.part, within: one.node.within }]);
}
