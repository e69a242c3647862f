// Asking: a question, its answers as small boards with their story, and how often, by any fact.

import { useEffect, useRef, useState } from "preact/hooks";

import type { EndingRow } from "../../server/calls/ask.js";
import { Link, addressOf, go, useAddress } from "../address.js";
import { SmallBoard } from "../board.js";
import { type AnswerTo, Fault, type Going, call, useAnswer } from "../calls.js";
import { Choice, Folded, Gather, Sign, Told, useTitle } from "../parts.js";
import { QuestionLine } from "../question.js";

/** Questions to begin with. */
const EXAMPLES = [
  "defender drew with the rook on the long side",
  "second-rank defence, defender held for 20 moves",
  "Philidor, attacker failed",
  "rear pin, defender held",
  "only move and error != none",
];
const SIZE = 24;
/** Changes of the verdict that are told of one ending. */
const CHAPTERS = 5;

/** A list that grows as one scrolls. */
function useRows(question: string, each: "ending" | "position", turns: number) {
  const [rows, setRows] = useState<readonly EndingRow[]>([]);
  const [first, setFirst] = useState<AnswerTo<"ask">>();
  const [fault, setFault] = useState<Fault>();
  const [busy, setBusy] = useState(false);
  const asked = useRef(new AbortController());

  const more = (from: number, run: AbortController) => {
    setBusy(true);
    call("ask", { question, each, from, size: SIZE }, run.signal).then(
      (answer) => {
        if (run.signal.aborted) return;
        setRows((before) => (from === 0 ? answer.rows : [...before, ...answer.rows]));
        if (from === 0) setFirst(answer);
        setFault(undefined);
        setBusy(false);
      },
      (thrown: unknown) => {
        if (run.signal.aborted) return;
        if (!(thrown instanceof Fault)) throw thrown;
        if (from === 0) setFirst(undefined);
        if (from === 0) setRows([]);
        setFault(thrown);
        setBusy(false);
      },
    );
  };
  useEffect(() => {
    const run = (asked.current = new AbortController());
    more(0, run);
    return () => run.abort();
  }, [question, each, turns]);
  const all = first ? Math.min(first.answers, first.limit ?? Infinity) : 0;
  return {
    rows,
    first,
    fault,
    busy,
    isMore: rows.length < all,
    more: () => !busy && more(rows.length, asked.current),
  };
}

const Row = ({ row, each }: { row: EndingRow; each: "ending" | "position" }) => {
  const to = addressOf(`/ending/${row.id}`, { ply: row.ply });
  return (
    <li class="answer">
      <Link to={to} aria-label={`PositionView at ${row.players}, ending ${row.id}`}>
        <SmallBoard fen={row.fen} />
      </Link>
      <div>
        <h2>
          <Link to={to}>{row.players}</Link>
        </h2>
        <p>
          {row.where && <>{row.where}, </>}
          <span class="figures">{row.result.replaceAll("1/2", "½")}</span>
          {row.duplicate && <> (a duplicate)</>}
        </p>
        <p>
          {row.move ? `${row.move}: ` : "the last position: "}
          <Sign verdict={row.verdict}>{row.value}</Sign>
        </p>
        {row.story.length > 1 && (
          <p class="story">
            {row.story.slice(0, CHAPTERS).map((part, n) => (
              <span key={n}>
                <Sign verdict={part.verdict} /> from move {part.move}
              </span>
            ))}
            {row.story.length > CHAPTERS && <span>and {row.story.length - CHAPTERS} more changes</span>}
          </p>
        )}
        {row.differs && <p>differs: {row.differs.join(", ") || "in nothing"}</p>}
        <p class="small">
          {[each === "ending" ? `the defender ${row.outcome}` : row.outcome, row.endedBy]
            .filter((part) => part)
            .join("; ")}
        </p>
        <Gather
          item={{
            title: row.players,
            shown: row.fen,
            ending: row.id,
            ply: row.ply,
            fen: each === "position" ? row.fen : undefined,
          }}
        />
      </div>
    </li>
  );
};

const percentOf = (share: number | null) => (share === null ? "–" : `${(100 * share).toFixed(1)} %`);

const Counts = ({ question, by, share }: { question: string; by: readonly string[]; share: string }) => {
  const { answer, fault } = useAnswer("count", {
    question,
    by: [...by],
    share: share === "" ? undefined : share,
  });
  if (fault) return <Told fault={fault} />;
  if (!answer) return null;
  return (
    <section aria-label="How often">
      <p>
        <b class="figures">{answer.matching.toLocaleString("en")}</b> of {answer.of.toLocaleString("en")}{" "}
        {answer.unit}s
        {answer.share && answer.share.share !== null && (
          <>
            ; in {answer.share.count} of {answer.share.of} of them ({percentOf(answer.share.share)}, 95 %
            interval {percentOf(answer.share.low)} to {percentOf(answer.share.high)}) {share}
          </>
        )}
        . <span class="small">{answer.leftOut}.</span>
      </p>
      {answer.chart && (
        <div class="wide" tabIndex={0} role="region" aria-label="Chart">
          <img
            class="plate"
            alt={`Chart of the table below: ${answer.by.join(" and ")}`}
            src={`data:image/svg+xml,${encodeURIComponent(answer.chart)}`}
          />
        </div>
      )}
      {answer.groups.length > 0 && (
        <div class="wide" tabIndex={0} role="region" aria-label="Table of counts">
          <table>
            <thead>
              <tr>
                <th scope="col">{answer.by.join(", ")}</th>
                <th scope="col" class="number">
                  {answer.unit}s
                </th>
                <th scope="col" class="number">
                  of
                </th>
                <th scope="col" class="number">
                  share
                </th>
                <th scope="col" class="number">
                  95 % interval
                </th>
              </tr>
            </thead>
            <tbody>
              {answer.groups.map((group) => (
                <tr key={group.label}>
                  <th scope="row">{group.label}</th>
                  <td class="number">{group.count}</td>
                  <td class="number">{group.of}</td>
                  <td class="number">{percentOf(group.share)}</td>
                  <td class="number">
                    {percentOf(group.low)} to {percentOf(group.high)}
                    {group.small && " (few)"}
                  </td>
                </tr>
              ))}
            </tbody>
          </table>
        </div>
      )}
    </section>
  );
};

const nameOf = (split: string) => split.split(":")[0];

/** A fact to count by; of a number also the width of its bands. */
const SplitChoice = ({
  label,
  value,
  disabled,
  splits,
  onChange,
}: {
  label: string;
  value: string;
  disabled: boolean;
  splits: readonly { readonly name: string; readonly number: boolean }[];
  onChange: (value: string) => void;
}) => {
  const [name, band = ""] = value.split(":");
  const known = splits.find((one) => one.name === name);
  return (
    <>
      <label>
        {label}
        <select value={name} disabled={disabled} onChange={(event) => onChange(event.currentTarget.value)}>
          <option value="">nothing</option>
          {splits.map((one) => (
            <option key={one.name} value={one.name}>
              {one.name}
            </option>
          ))}
          {name !== "" && !known && <option value={name}>{name}</option>}
        </select>
      </label>
      {known?.number && (
        <label>
          in steps of
          <input
            type="text"
            inputMode="decimal"
            size={8}
            value={band}
            placeholder="1"
            onChange={(event) => {
              const typed = event.currentTarget.value.trim();
              onChange(typed === "" ? name : `${name}:${typed}`);
            }}
          />
        </label>
      )}
    </>
  );
};

/** What to do where there is nothing to ask about yet. */
const NoGames = () => (
  <p class="note">
    There are no games here yet. <Link to="/games">Read some</Link>, or look at any position on the{" "}
    <Link to="/board">board</Link>: for that no games are needed.
  </p>
);

/** The vocabulary, sort by sort. */
const Words = ({ words }: { words: AnswerTo<"words">["words"] }) => (
  <>
    {(["set-up", "phrase", "fact", "course"] as const).map((sort) => (
      <Folded key={sort} title={SORTS[sort]}>
        {() => (
          <dl class="facts">
            {words
              .filter((one) => one.sort === sort)
              .map(({ say, meaning }) => (
                <div key={say}>
                  <dt>{say}</dt>
                  <dd class="small">{meaning}</dd>
                </div>
              ))}
          </dl>
        )}
      </Folded>
    ))}
    <p class="small">
      Join with a comma or and, or, not and brackets; compare with = != &lt; &lt;= &gt; &gt;=, ranges like
      2200..2500.
    </p>
  </>
);
const SORTS = {
  "set-up": "Set-ups",
  phrase: "What people say",
  fact: "Facts, to be compared",
  course: "Which position, and the course of an ending",
} as const;

export const Ask = ({ going }: { going: Going }) => {
  const { query } = useAddress();
  const { q = "", by = "", share = "" } = query;
  const each = query.each === "position" ? "position" : "ending";
  const { answer: vocabulary } = useAnswer("words", {});
  const { rows, first, fault, busy, isMore, more } = useRows(q, each, going.turns);
  const end = useRef<HTMLDivElement>(null);
  const [shareText, setShareText] = useState(share);
  useTitle(q === "" ? "Ask" : q);
  useEffect(() => setShareText(share), [share]);
  useEffect(() => {
    // what went wrong is tried again by the button alone
    if (!end.current || !isMore || busy || fault) return;
    const watching = new IntersectionObserver(([entry]) => entry.isIntersecting && more(), {
      rootMargin: "400px",
    });
    watching.observe(end.current);
    return () => watching.disconnect();
  }, [isMore, busy, fault, rows.length]);
  const to = (change: Record<string, string>) =>
    addressOf("/ask", { q, each: query.each, by, share, ...change });
  const parts = by === "" ? [] : by.split(",");
  const splits = vocabulary?.splits ?? [];
  return (
    <>
      <h1>Ask</h1>
      <QuestionLine
        value={q}
        label="Which endings do you want to see?"
        submit="Ask"
        onAsk={(text) => go(to({ q: text }))}
      />
      {q === "" && (
        <>
          <p>For example:</p>
          <ul class="examples">
            {EXAMPLES.map((one) => (
              <li key={one}>
                <Link to={to({ q: one })}>{one}</Link>
              </li>
            ))}
          </ul>
        </>
      )}
      <Folded title="Every word that is understood">{() => <Words words={vocabulary?.words ?? []} />}</Folded>
      <Choice
        label="Show"
        value={each}
        options={[
          ["ending", "endings"],
          ["position", "positions"],
        ]}
        onChange={(value) => go(to({ each: value }))}
      />
      {fault?.code === "no-database" ? (
        <NoGames />
      ) : fault && fault.at === undefined ? (
        <Told fault={fault} />
      ) : null}
      {first && (
        <>
          <p role="status">
            <b class="figures">{first.answers.toLocaleString("en")}</b> {each}
            {first.answers === 1 ? "" : "s"}
            {first.duplicates > 0 && ` (${first.duplicates} of them duplicates)`}
            <span class="small"> in {Math.max(1, Math.round(first.milliseconds))} ms</span>
            {first.limit !== null &&
              ` – only the first ${first.limit} can be gone through; ask for something narrower to see the others`}
          </p>
          {first.answers === 0 && (
            <p class="note">Nothing answers all of that: leave a condition out, or ask with “or”.</p>
          )}
          {first.idle.map((said) => (
            <p class="note" key={said}>
              Every ending that answers the rest has a position with {said} at some time, so that condition
              leaves none out.
            </p>
          ))}
          <details open={by !== "" || share !== ""}>
            <summary>How often, and by what</summary>
            <div class="form">
              {[0, 1].map((n) => (
                <SplitChoice
                  key={n}
                  label={n === 0 ? "by" : "and by"}
                  value={parts[n] ?? ""}
                  disabled={n > parts.length}
                  splits={splits.filter(({ name }) => n === 0 || name !== nameOf(parts[0] ?? ""))}
                  onChange={(value) =>
                    go(
                      to({
                        by: [...parts.slice(0, n), value, ...parts.slice(n + 1)]
                          .filter((one) => one)
                          .join(","),
                      }),
                      "replace",
                    )
                  }
                />
              ))}
              <label class="grow">
                share in which
                <input
                  type="text"
                  value={shareText}
                  placeholder="defender held"
                  onInput={(event) => setShareText(event.currentTarget.value)}
                  onChange={() => go(to({ share: shareText }), "replace")}
                />
              </label>
            </div>
            <Counts question={q} by={parts} share={share} />
          </details>
          <ol class="answers" aria-label="Answers" aria-busy={busy}>
            {rows.map((row) => (
              <Row key={`${row.id} ${row.ply}`} row={row} each={each} />
            ))}
          </ol>
          <div ref={end}>
            {isMore && (
              <button type="button" onClick={more} disabled={busy}>
                More ({rows.length} of {first.answers.toLocaleString("en")})
              </button>
            )}
          </div>
        </>
      )}
    </>
  );
};
