// What the whole table teaches: rules, what set-ups turn into, in what order they are best learnt. Each is worked out when
// it is asked for, and says how far it has come.

import type { ComponentChildren } from "preact";
import { useMemo, useState } from "preact/hooks";

import { type MapArrow, changeMapSvg, inHundred, mapArrows } from "../../documents/change-map.js";
import { NO_RULE, TREE_SHAPES, type TreeLook, ruleTreeSvg } from "../../documents/rule-tree.js";
import { Link, addressOf, go, useAddress } from "../address.js";
import { SmallBoard } from "../board.js";
import { useAnswer, useTask } from "../call-hooks.js";
import { type AnswerTo, call } from "../calls.js";
import { LinkedDrawing } from "../linked-drawing.js";
import { ErrorMessage, Working, useTitle } from "../parts.js";
import { FaultMessage, QuestionLine } from "../question-line.js";
import { screenBody, screenSize } from "../screen-board.js";
import { useServerState } from "../server-state.js";

type RuleSets = AnswerTo<"rules">["rules"];
type Rule = RuleSets[number]["rules"][number];

const percent = (part: number, whole: number) => `${((100 * part) / whole).toFixed(1)} %`;

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
        <b>{percent(rule.right, rule.of)}</b> {rule.says}.
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
      {NO_RULE}: <b>{percent(rule.right, rule.of)}</b> are {rule.usually}.
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
        The {attackerToMove ? "attacker" : "defender"} to move: {of.toLocaleString("en")} placements
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
const Rules = () => {
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

type Surveyed = AnswerTo<"survey">;

/** How every position of one kind comes out, by a fact if one is chosen. */
const Survey = () => {
  const { answer: vocabulary } = useAnswer("words", {});
  const progress = useServerState((server) => server.progress);
  const [by, setBy] = useState("");
  const [asked, setAsked] = useState("Szén");
  const [found, setFound] = useState<Surveyed>();
  const task = useTask();
  const ask = (question: string, by: string) => {
    setAsked(question);
    task.run(async (stopped) => {
      setFound(undefined);
      setFound(await call("survey", { question, by: by || undefined }, stopped));
    });
  };
  const isSplit = found?.rows.some(({ value }) => value !== null) ?? false;
  return (
    <section aria-labelledby="survey">
      <h2 id="survey">How does it come out?</h2>
      <QuestionLine
        value={asked}
        label="How does this come out: a set-up, or any facts"
        submit="Count"
        quiet
        onAsk={(question) => ask(question, by)}
      />
      <p>
        <label>
          by{" "}
          <select
            value={by}
            onChange={({ currentTarget }) => {
              setBy(currentTarget.value);
              if (found) ask(asked, currentTarget.value);
            }}
          >
            <option value="">nothing</option>
            {vocabulary?.geometry.map(({ name, meaning }) => (
              <option key={name} value={name} title={meaning}>
                {name}
              </option>
            ))}
          </select>
        </label>
      </p>
      {task.busy && <Working progress={progress} onStop={task.stop} />}
      <FaultMessage error={task.error} onTake={(question) => ask(question, by)} />
      {found && found.rows.length === 0 && <p>No position fits that.</p>}
      {found && found.rows.length > 0 && (
        <div class="wide" tabIndex={0} role="region" aria-label="How it comes out">
          <table>
            <thead>
              <tr>
                {isSplit && <th scope="col">{by}</th>}
                <th scope="col">to move</th>
                {["placements", "won", "drawn", "longest win"].map((head) => (
                  <th key={head} scope="col" class="number">
                    {head}
                  </th>
                ))}
              </tr>
            </thead>
            <tbody>
              {found.rows.map((row) => {
                const all = row.won + row.drawn + row.lost;
                return (
                  <tr key={`${row.value} ${row.side}`}>
                    {isSplit && <th scope="row">{row.value ?? "none"}</th>}
                    <td>{row.side}</td>
                    <td class="number">{all.toLocaleString("en")}</td>
                    <td class="number">{percent(row.won, all)}</td>
                    <td class="number">{percent(row.drawn, all)}</td>
                    <td class="number">{row.won > 0 ? row.longestWin : ""}</td>
                  </tr>
                );
              })}
            </tbody>
          </table>
        </div>
      )}
      {found && (
        <ul class="boards">
          {found.examples.map(({ verdict, side, fens }) => (
            <li key={`${verdict} ${side}`}>
              <Link to={addressOf("/board", { fen: fens[0] })}>
                <SmallBoard fen={fens[0]} />
              </Link>
              <span class="small">
                {verdict}, {side} to move
              </span>
            </li>
          ))}
        </ul>
      )}
    </section>
  );
};

/** Something that takes its time: asked for by a button. */
function WorkedOut<T>({
  name,
  title,
  says,
  find,
  show,
}: {
  name: string;
  title: string;
  says: string;
  find: (stopped: AbortSignal) => Promise<T>;
  show: (found: T) => ComponentChildren;
}) {
  const progress = useServerState((server) => server.progress);
  const [found, setFound] = useState<T>();
  const task = useTask();
  return (
    <section aria-labelledby={name}>
      <h2 id={name}>{title}</h2>
      <p>{says}</p>
      {found === undefined && !task.busy && (
        <button
          type="button"
          class="quiet"
          onClick={() =>
            task.run(async (stopped) => {
              const answer = await find(stopped);
              setFound(() => answer);
            })
          }
        >
          Work it out
        </button>
      )}
      {task.busy && <Working progress={progress} onStop={task.stop} />}
      <ErrorMessage error={task.error} />
      {found !== undefined && show(found)}
    </section>
  );
}

/** The map of changes, each arrow with a link to the endings that show it. */
async function findChanges(stopped: AbortSignal) {
  const { shown, ...found } = await call("changes", {}, stopped);
  const links = shown?.map(({ from, to, endings, question }) => ({
    from,
    to,
    endings,
    link: addressOf("/ask", { q: question }),
  }));
  const map = { ...found, links };
  return { svg: changeMapSvg(map), arrows: mapArrows(map) };
}

/** A part of a whole as a bar. */
const Bar = ({ part }: { part: number }) => (
  <svg viewBox="0 0 100 8" preserveAspectRatio="none" aria-hidden="true">
    <rect width={100 * part} height="8" />
  </svg>
);

const ArrowRow = ({ arrow: { to, share, cost, linked }, most }: { arrow: MapArrow; most: number }) => (
  <li class="bar-row">
    {linked && linked.endings > 0 ? <Link to={linked.link}>{to}</Link> : <span>{to}</span>}
    <Bar part={share / most} />
    <span class="number">
      {inHundred(share)}
      {cost !== undefined && cost > 0 && <b> costs {cost}</b>}
    </span>
  </li>
);

/** What turns into what: as a map where there is room for its words, and for each set-up in a list. */
const ChangesShown = ({ svg, arrows }: { svg: string; arrows: readonly MapArrow[] }) => {
  const most = Math.max(...arrows.map(({ share }) => share));
  return (
    <>
      <div class="change-picture">
        <LinkedDrawing svg={svg} />
      </div>
      <ul class="changes">
        {[...new Set(arrows.map(({ from }) => from))].map((from) => (
          <li key={from}>
            <h3>From {from} into</h3>
            <ul class="bars">
              {arrows
                .filter((arrow) => arrow.from === from)
                .map((arrow) => (
                  <ArrowRow key={arrow.to} arrow={arrow} most={most} />
                ))}
            </ul>
          </li>
        ))}
      </ul>
    </>
  );
};

/** In what order set-ups are best learnt: what can be kept after each, as bars. */
const LearningShown = ({ start, order, wanted }: AnswerTo<"learning">) => (
  <ol class="bars">
    {[{ setUp: "What everybody holds", kept: start }, ...order].map(({ setUp, kept }, n) => (
      <li key={setUp} class="bar-row">
        <span>
          {n > 0 && `${n}. `}
          {setUp}
        </span>
        <Bar part={kept / wanted} />
        <span class="number">{((100 * kept) / wanted).toFixed(1)} of 100</span>
      </li>
    ))}
  </ol>
);

export const TheoryPlace = () => {
  useTitle("Theory");
  return (
    <>
      <h1 class="hidden">Theory</h1>
      <Rules />
      <Survey />
      <WorkedOut
        name="changes"
        find={findChanges}
        show={(found) => <ChangesShown {...found} />}
        title="What turns into what"
        says="What a quiet move of the attacker can force a set-up into, in how many of 100 moves, and what it costs: in how many of 100 such changes in games the draw was lost. Each opens the endings in which the one, not won and with the attacker to move, has become the other a move later; whether a better reply would have kept it is not asked."
      />
      <WorkedOut
        name="learning"
        find={(stopped) => call("learning", {}, stopped)}
        show={(found) => <LearningShown {...found} />}
        title="In what order to learn set-ups"
        says="How much of what is drawn can be kept against quiet moves with some set-ups alone, and which adds most. A check may be answered by any move that does not lose."
      />
    </>
  );
};
