// When a set-up holds: rules from coarse to fine, each in a sentence and as a tree, with what it gets wrong.

import { useMemo, useState } from "preact/hooks";

import { NO_RULE, TREE_SHAPES, type TreeLook, ruleTreeSvg } from "../../documents/rule-tree.js";
import { percentText } from "../../statistics/percent.js";
import { Link, addressOf, go, useAddress } from "../address.js";
import { SmallBoard } from "../board.js";
import { useTask } from "../call-hooks.js";
import { type AnswerTo, call } from "../calls.js";
import { LinkedDrawing } from "../linked-drawing.js";
import { Working } from "../parts.js";
import { FaultMessage, QuestionLine } from "../question-line.js";
import { screenBody, screenSize } from "../screen-board.js";
import { useServerState } from "../server-state.js";

type RuleSets = AnswerTo<"rules">["rules"];
type Rule = RuleSets[number]["rules"][number];

/** Exceptions of one kind: how many, and the shortest of them. */
const Exceptions = ({ count, says, fens }: { count: number; says: string; fens: readonly string[] }) =>
  count === 0 ? null : (
    <li class="small">
      {count.toLocaleString("en")} {says}
      {fens[0] && (
        <>
          ; <Link to={addressOf("/board", { fen: fens[0] })}>the shortest</Link>
        </>
      )}
    </li>
  );

/** Boards of a tree as the page draws them, each a link to it. */
const TREE_LOOK: TreeLook = {
  board: (fen) => ({ body: screenBody({ fen, coordinates: false }), ...screenSize({ coordinates: false }) }),
  linkOf: (fen) => addressOf("/board", { fen }),
};

/** What a rule gets wrong. */
const RuleExceptions = ({ rule }: { rule: Rule }) => (
  <ul class="entries">
    <Exceptions
      count={rule.wonThough}
      says="are won, though the rule says drawn"
      fens={rule.examples.wonThough}
    />
    <Exceptions
      count={rule.notWonThough}
      says="are not won, though the rule says won"
      fens={rule.examples.notWonThough}
    />
  </ul>
);

/** A rule in a sentence and as a tree, which one without a condition does not make. */
const RuleShown = ({ rule }: { rule: Rule }) => {
  const trees = useMemo(
    () =>
      rule.tree.length > 1
        ? TREE_SHAPES.map((shape) => ruleTreeSvg(rule.tree, shape, "The rule as a tree", TREE_LOOK)).join("")
        : undefined,
    [rule],
  );
  return (
    <section class="rule">
      <p class="rule-says">
        <b>{percentText(rule.right / rule.of)}</b> {rule.says}.
      </p>
      {trees !== undefined && <LinkedDrawing svg={trees} />}
      <RuleExceptions rule={rule} />
    </section>
  );
};

/** Where no rule is worth it: how it comes out, and a board of either kind. */
const NoRule = ({ rule }: { rule: Rule }) => (
  <section class="rule">
    <p class="rule-says">
      {NO_RULE}: <b>{percentText(rule.right / rule.of)}</b> are {rule.usually}.
    </p>
    <ul class="boards">
      {rule.tree[0].boards.map(({ fen, caption }) => (
        <li key={fen}>
          <Link to={addressOf("/board", { fen })}>
            <SmallBoard fen={fen} />
          </Link>
          <span class="small">{caption.join(", ")}</span>
        </li>
      ))}
    </ul>
    <RuleExceptions rule={rule} />
  </section>
);

/** The rules for one side to move, from coarse to fine. */
const RuleSet = ({ set: { attackerToMove, of, isWorthIt, rules } }: { set: RuleSets[number] }) => {
  const [bare, finer] = [
    rules.find(({ unless }) => unless.length === 0),
    rules.filter(({ unless }) => unless.length > 0),
  ];
  const shown = finer.map((rule) => <RuleShown key={rule.says} rule={rule} />);
  return (
    <section>
      <h2>
        The {attackerToMove ? "attacker" : "defender"} to move: {of.toLocaleString("en")} positions
      </h2>
      {bare && (isWorthIt ? <RuleShown rule={bare} /> : <NoRule rule={bare} />)}
      {isWorthIt || shown.length === 0 ? (
        shown
      ) : (
        <details>
          <summary>What conditions would add</summary>
          {shown}
        </details>
      )}
      <p class="small">
        The boards are drawn by lot from the whole table
        {shown.length > 0 && "; in a dashed frame stands what the rule gets wrong"}.
      </p>
    </section>
  );
};

/** When a set-up holds, as a rule that can be remembered, with its exceptions. */
export const Rules = () => {
  const { q = "rear pin, attacker to move" } = useAddress().query;
  const progress = useServerState((server) => server.progress);
  const [found, setFound] = useState<{ question: string; rules: RuleSets }>();
  const task = useTask();
  const ask = (question: string) => {
    go(addressOf("/theory", { q: question }), "replace");
    setFound(undefined);
    task.run(async (stopped) => setFound({ question, ...(await call("rules", { question }, stopped)) }));
  };
  return (
    <section aria-labelledby="rules">
      <h2 id="rules">When does it hold?</h2>
      <QuestionLine
        value={q}
        label="When does this hold: a set-up, or any facts"
        submit="Find rules"
        onAsk={ask}
      />
      {task.busy && <Working progress={progress} onStop={task.stop} />}
      <FaultMessage error={task.error} onTake={ask} />
      {found && found.rules.length === 0 && <p>No position fits that.</p>}
      {found?.rules.map((set) => (
        <RuleSet key={String(set.attackerToMove)} set={set} />
      ))}
    </section>
  );
};
