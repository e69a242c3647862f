// What stands below the question while nothing is asked: the set-ups as boards, whole questions to begin with, every word
// that is understood; of an empty database, how to fill it.

import { useMemo, useState } from "preact/hooks";

import { Link, addressOf, go } from "../address.js";
import { SmallBoard } from "../board.js";
import { useAnswer, useTask } from "../call-hooks.js";
import { type AnswerTo, call } from "../calls.js";
import { DropFiles } from "../drop-files.js";
import { Running } from "../index-run.js";
import { ErrorMessage, Folded, TextField, counted } from "../parts.js";
import { isWorking, useServerState } from "../server-state.js";

/** Questions to begin with. */
const QUESTIONS = [
  "defender drew with the rook on the long side",
  "defender missed an only move",
  "second-rank defence held for ten moves",
  "Philidor, attacker failed",
  "from the third-rank defence into Szén",
  "a stronger player failed to win",
];

const SORTS = {
  "set-up": "Set-ups",
  phrase: "What people say",
  fact: "Facts, to be compared",
  course: "Which position, and the course of an ending",
} as const;

/** Set-ups that are shown at once: those that every book begins with. */
const SHOWN = 6;

type SetUp = AnswerTo<"setUps">["setUps"][number];

/** How often a set-up was met and held: counted by itself, so that no question waits for all of them. */
const Met = ({ setUp }: { setUp: string }) => {
  const { answer } = useAnswer("met", { setUp });
  return (
    <span class="small">
      {answer?.met
        ? `${counted(answer.met.endings, "ending")}, ${answer.met.held.toLocaleString("en")} held`
        : "\u00a0"}
    </span>
  );
};

const SetUpList = ({ setUps }: { setUps: readonly SetUp[] }) => (
  <ul class="set-up-boards">
    {setUps.map(({ name, fen }) => (
      <li key={name}>
        <Link to={addressOf("/ask", { q: name })}>
          {fen === null ? <span class="blank-board" /> : <SmallBoard fen={fen} />}
          <span class="set-up-name">{name}</span>
        </Link>
        {/* a place that is held has no name yet */}
        {name.trim() === "" ? <span class="small">{"\u00a0"}</span> : <Met setUp={name} />}
      </li>
    ))}
  </ul>
);

/** The set-ups as boards, with how often each was met and held. */
const SetUpBoards = () => {
  const { answer } = useAnswer("setUps", {});
  // the places are held before the boards are there
  const setUps =
    answer?.setUps ?? Array.from({ length: SHOWN }, (_, n) => ({ name: "\u00a0".repeat(n + 1), fen: null }));
  return (
    <section aria-labelledby="set-ups">
      <h2 id="set-ups">Set-ups</h2>
      <SetUpList setUps={setUps.slice(0, SHOWN)} />
      <Folded title="More set-ups">{() => <SetUpList setUps={setUps.slice(SHOWN)} />}</Folded>
    </section>
  );
};

type Word = AnswerTo<"words">["words"][number];
type Sort = keyof typeof SORTS;

/** What can be said, the ways to say one thing together: each meaning is written once. */
function byMeaning(words: readonly Word[]): ReadonlyMap<Sort, ReadonlyMap<string, string[]>> {
  const sorts = new Map((Object.keys(SORTS) as Sort[]).map((sort) => [sort, new Map<string, string[]>()]));
  for (const { sort, say, meaning } of words) {
    const meanings = sorts.get(sort as Sort);
    const ways = meanings?.get(meaning);
    if (ways) ways.push(say);
    else meanings?.set(meaning, [say]);
  }
  return sorts;
}

/** Every word that is understood: looked for, and put into the question by a click. */
export const Vocabulary = ({ onChoose }: { onChoose: (say: string) => void }) => {
  const { answer } = useAnswer("words", {});
  const [wanted, setWanted] = useState("");
  const sorts = useMemo(() => byMeaning(answer?.words ?? []), [answer]);
  const fits = (ways: readonly string[], meaning: string) =>
    `${ways.join(" ")} ${meaning}`.toLowerCase().includes(wanted.trim().toLowerCase());
  return (
    <div class="vocabulary">
      <TextField label="Look for a word" value={wanted} onInput={setWanted} />
      {[...sorts].map(([sort, meanings]) => {
        const found = [...meanings].filter(([meaning, ways]) => fits(ways, meaning));
        if (found.length === 0) return null;
        return (
          <section key={sort}>
            <h2>{SORTS[sort]}</h2>
            <dl class="facts">
              {found.map(([meaning, ways]) => (
                <div key={meaning}>
                  <dt>
                    {ways.map((say) => (
                      <button key={say} type="button" class="plain" onClick={() => onChoose(say)}>
                        {say}
                      </button>
                    ))}
                  </dt>
                  <dd class="small">{meaning}</dd>
                </div>
              ))}
            </dl>
          </section>
        );
      })}
      <p class="small">
        Join with a comma or and, or, not and brackets; compare with = != &lt; &lt;= &gt; &gt;=, ranges like
        2200..2500.
      </p>
    </div>
  );
};

/** The folded vocabulary; a word that is chosen is added to the question. */
export const EveryWord = ({ question, onAsk }: { question: string; onAsk: (question: string) => void }) => (
  <Folded title="Every word that is understood">
    {() => (
      <Vocabulary
        onChoose={(say) => {
          onAsk(question.trim() === "" ? say : `${question}, ${say}`);
          scrollTo(0, 0);
        }}
      />
    )}
  </Folded>
);

/** The empty database: a place to drop files, and the bundled games one click away. */
export const NoGames = () => {
  const isServerBusy = useServerState(isWorking);
  const task = useTask();
  const { answer: state } = useAnswer("state", {});
  const busy = task.busy || isServerBusy;
  return (
    <section class="begin" aria-label="Begin">
      <h2>There are no games here yet</h2>
      {state ? (
        <>
          <DropFiles />
          <p>
            <button
              type="button"
              class="main"
              disabled={busy}
              onClick={() => task.run(() => call("index", { paths: [...state.bundled] }))}
            >
              Read the games that come with longside
            </button>
          </p>
          <ErrorMessage error={task.error} />
          <Running />
        </>
      ) : (
        <p>Whoever started longside can read some.</p>
      )}
      <p class="small">
        There are <Link to="/games">more ways to read games</Link>. Any position can be looked at on the{" "}
        <Link to="/board">board</Link>: for that no games are needed.
      </p>
    </section>
  );
};

export const FirstScreen = ({ held }: { held: AnswerTo<"holds">["held"] }) => (
  <>
    <SetUpBoards />
    <section aria-labelledby="people-ask">
      <h2 id="people-ask">People ask</h2>
      <ul class="people-ask">
        {QUESTIONS.map((one) => (
          <li key={one}>
            <Link to={addressOf("/ask", { q: one })}>{one}</Link>
          </li>
        ))}
      </ul>
    </section>
    <p>
      <Link to={addressOf("/ask", { each: "ending" })}>
        {held ? `All ${counted(held.endings, "ending")}` : "All endings"}
      </Link>
      {held?.newest && <span class="small">, the newest of {held.newest}</span>}
    </p>
    <EveryWord question="" onAsk={(q) => go(addressOf("/ask", { q }))} />
  </>
);
