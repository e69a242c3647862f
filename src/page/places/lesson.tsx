// A lesson put together from parts that are moved about: drafted from a question or from the tray, seen as it will print,
// saved as a page, a PDF, or games and positions in PGN.

import { useEffect, useRef, useState } from "preact/hooks";

import { changeByStep, changeStored, useStored } from "../browser-storage.js";
import { CallError } from "../call-error.js";
import { useTask } from "../call-hooks.js";
import { type AnswerTo, type Input, call } from "../calls.js";
import { BLOCK_WORDS, type BlockName, newBlock, titleOf } from "../lesson-blocks.js";
import { Choice, ErrorMessage, TextField, Working, counted, save, useTitle } from "../parts.js";
import { QuestionLine } from "../question-line.js";
import { useServerState } from "../server-state.js";
import type { StoredLesson, StoredPart } from "../stored.js";
import { useRowDragging } from "../use-row-dragging.js";
import { LessonPartRow } from "./lesson-part.js";

type Part = NonNullable<Input<"lesson">["parts"]>[number];
type Form = NonNullable<Input<"lesson">["as"]>;

let last = 0;
const keyed = (part: Part): StoredPart => ({ ...part, key: `${Date.now()} ${++last}` });

/** A part as the server takes it. */
const withoutKey = (part: StoredPart): Part =>
  part.kind === "block"
    ? { kind: part.kind, name: part.name, values: part.values }
    : part.kind === "text"
      ? { kind: part.kind, text: part.text }
      : { kind: part.kind, depth: part.depth, text: part.text };

const EMPTY: StoredLesson = { title: "My lesson", paper: "A4", parts: [] };

/** Changes the lesson that is put together, or begins one, as a step that can be undone. */
const change = (says: string, how: (lesson: StoredLesson) => Partial<StoredLesson>, field?: string) =>
  changeByStep("lesson", says, (lesson) => ({ ...(lesson ?? EMPTY), ...how(lesson ?? EMPTY) }), field);

const setParts = (says: string, how: (parts: StoredPart[]) => void, field?: string) =>
  change(
    says,
    ({ parts }) => {
      const next = [...parts];
      how(next);
      return { parts: next };
    },
    field,
  );

/** Takes a draft in place of what is there, or behind it. */
export function takeDraft({ title, parts }: AnswerTo<"outline">, behind: boolean): void {
  const drafted = parts.map(keyed);
  change("the draft", (lesson) =>
    behind && lesson.parts.length > 0 ? { parts: [...lesson.parts, ...drafted] } : { title, parts: drafted },
  );
}

/** Whether a draft may take the place of the lesson that is there: asked where there is one. */
export const mayReplaceLesson = (lesson: StoredLesson | null): boolean =>
  lesson === null ||
  lesson.parts.length === 0 ||
  confirm("Put this draft in the place of the lesson that is here?");

/** Ways to begin: a draft of a question, or what was collected. */
const Begin = () => {
  const { lesson, collection } = useStored();
  const task = useTask();
  /** What has been drafted: how it was understood lies no longer over what stands below. */
  const [drafted, setDrafted] = useState("");
  const items = collection.map(({ fen, ending, ply, note }) => ({
    fen,
    ending,
    ply,
    note: note || undefined,
  }));
  const isNew = lesson === null || lesson.parts.length === 0;
  return (
    <>
      <QuestionLine
        value={drafted}
        label="Lesson on a set-up, or any question"
        submit="Draft"
        quiet={!isNew}
        onAsk={(question) => {
          if (question.trim() !== "" && mayReplaceLesson(lesson))
            task.run(async () => {
              takeDraft(await call("outline", { title: question.slice(0, 200), question }), false);
              setDrafted(question);
            });
        }}
      />
      {collection.length > 0 && (
        <div class="buttons">
          <button
            type="button"
            disabled={task.busy}
            onClick={() =>
              task.run(async () => takeDraft(await call("outline", { title: EMPTY.title, items }), true))
            }
          >
            Put in what is in the tray ({counted(collection.length, "thing")})
          </button>
        </div>
      )}
      {task.error?.place.at === undefined && <ErrorMessage error={task.error} />}
    </>
  );
};

/** More parts, put at the end and moved from there. */
const More = ({ parts, onAdd }: { parts: readonly Part[]; onAdd: (part: Part) => void }) => {
  const ways: readonly (readonly [string, string, () => Part])[] = [
    ["Text", "your own words", () => ({ kind: "text", text: "" })],
    ["Heading", "of a section", () => ({ kind: "heading", depth: 2, text: "" })],
    ...(Object.keys(BLOCK_WORDS) as BlockName[]).map(
      (name) => [BLOCK_WORDS[name].title, BLOCK_WORDS[name].shows, () => newBlock(name, parts)] as const,
    ),
  ];
  return (
    <section aria-labelledby="more-parts">
      <h2 id="more-parts">Put in</h2>
      <ul class="more-parts">
        {ways.map(([title, shows, make]) => (
          <li key={title}>
            <button type="button" class="plain" onClick={() => onAdd(make())}>
              {title}
            </button>{" "}
            <span class="small">{shows}</span>
          </li>
        ))}
      </ul>
    </section>
  );
};

/** An error that belongs to a part is shown there, without the number by which the server tells it. */
const inItsPlace = (error: CallError): CallError =>
  new CallError(error.code, error.message, error.hint, error.values, { ...error.place, line: undefined });

/** Width of a sheet in pixels: 210 mm, or 8.5 inches, at 96 to the inch. */
const WIDTHS = { A4: 794, letter: 816 } as const;

/** The lesson as it will print, as large as there is room. */
const Sheet = ({ address, paper }: { address: string; paper: StoredLesson["paper"] }) => {
  const frame = useRef<HTMLDivElement>(null);
  const [room, setRoom] = useState<number>();
  useEffect(() => {
    const watch = new ResizeObserver(([{ contentRect }]) => setRoom(contentRect.width));
    watch.observe(frame.current!);
    return () => watch.disconnect();
  }, []);
  const width = WIDTHS[paper] + 18;
  return (
    <div class="sheet" ref={frame}>
      {room !== undefined && (
        <iframe
          title="The lesson as it will print"
          src={address}
          width={width}
          height={1000}
          style={{ zoom: Math.min(1, room / width) }}
        />
      )}
    </div>
  );
};

const Parts = ({ lesson, error }: { lesson: StoredLesson; error: CallError | undefined }) => {
  const list = useRef<HTMLOListElement>(null);
  const [said, say] = useState("");
  const { parts } = lesson;
  const dragging = useRowDragging(list, parts.length, (from, to) => {
    setParts(`moving “${titleOf(parts[from])}”`, (all) => all.splice(to, 0, ...all.splice(from, 1)));
    say(`${titleOf(parts[from])} is now part ${to + 1} of ${parts.length}`);
  });
  const of = error?.place.line;
  return (
    <>
      <ol class="parts" aria-label="Parts of the lesson" ref={list} data-steps>
        {parts.map((part, n) => (
          <LessonPartRow
            key={part.key}
            part={part}
            n={n}
            of={parts.length}
            error={error && of === n + 1 ? inItsPlace(error) : undefined}
            dragging={dragging}
            onChange={(next) => setParts(`changing “${titleOf(part)}”`, (all) => (all[n] = next), part.key)}
            onTakeOut={() => setParts(`taking “${titleOf(part)}” out`, (all) => all.splice(n, 1))}
          />
        ))}
      </ol>
      <p role="status" class="hidden">
        {said}
      </p>
    </>
  );
};

/** The work of making the lesson: shown as it will print, or saved. */
function useLessonMaking(lesson: StoredLesson | null) {
  const task = useTask();
  const [printed, setPrinted] = useState<string>();
  const make = (as: Form, then: (made: AnswerTo<"lesson">["made"]) => void) => () =>
    task.run(async (stopped) => {
      const { title, paper, parts } = lesson ?? EMPTY;
      const plain = parts.map(withoutKey);
      then((await call("lesson", { title, paper, parts: plain, as }, stopped)).made);
    });
  return {
    task,
    printed,
    see: make("printed", ({ address }) => setPrinted(address)),
    saveAs: (as: Form) => make(as, save),
  };
}

/** The title and paper of a lesson, its parts, and what is made of them. */
const Workbench = ({ lesson }: { lesson: StoredLesson }) => {
  const progress = useServerState((server) => server.progress);
  const { task, printed, see, saveAs } = useLessonMaking(lesson);
  const [added, setAdded] = useState<string>();
  const body = useRef<HTMLDivElement>(null);
  const { title, paper, parts } = lesson;
  // who puts a part in goes on to say what is in it
  useEffect(() => {
    if (added === undefined) return;
    const row = body.current?.querySelector(".parts > :last-child");
    row?.scrollIntoView({ block: "center" });
    (
      row?.querySelector<HTMLElement>("input, textarea, select") ?? row?.querySelector<HTMLElement>("button")
    )?.focus();
    setAdded(undefined);
  }, [added]);
  return (
    <div ref={body}>
      <div class="form" data-steps>
        <TextField
          label="Title"
          value={title}
          maxLength={200}
          onInput={(next) => change("the title", () => ({ title: next }), "title")}
        />
        <Choice
          label="Paper"
          value={paper}
          options={{ A4: "A4", letter: "Letter" }}
          onChange={(next) => change("the paper", () => ({ paper: next }))}
        />
      </div>
      <Parts lesson={lesson} error={task.error} />
      <More
        parts={parts}
        onAdd={(part) => {
          const next = keyed(part);
          setParts(`putting “${titleOf(next)}” in`, (all) => all.push(next));
          setAdded(next.key);
        }}
      />
      {/* the sheet comes last: nothing that one points at moves away when it is there */}
      <section aria-label="The lesson">
        <div class="buttons">
          <button type="button" class="main" disabled={task.busy || parts.length === 0} onClick={see}>
            See it as it will print
          </button>
          {(
            [
              ["page", "Save as a page"],
              ["pdf", "Save as PDF"],
              ["pgn", "Save as PGN"],
            ] as const
          ).map(([as, says]) => (
            <button key={as} type="button" disabled={task.busy || parts.length === 0} onClick={saveAs(as)}>
              {says}
            </button>
          ))}
          <button
            type="button"
            disabled={task.busy}
            onClick={() =>
              confirm("Throw this lesson away?") &&
              changeByStep("lesson", "throwing the lesson away", () => null)
            }
          >
            Throw it away
          </button>
        </div>
        {task.busy && <Working progress={progress} onStop={task.stop} />}
        {task.error?.place.line === undefined ? (
          <ErrorMessage error={task.error} />
        ) : (
          <p class="error-message" role="alert">
            Part {task.error.place.line}, {titleOf(parts[task.error.place.line - 1] ?? parts[0])}, cannot be
            filled in; what is wrong is told there.
          </p>
        )}
        {printed !== undefined && <Sheet address={printed} paper={paper} />}
      </section>
    </div>
  );
};

export const LessonPlace = () => {
  const { lesson, outline } = useStored();
  useTitle("Lesson");
  // what was written before lessons were put together from parts
  useEffect(() => {
    if (outline === null || lesson !== null) return;
    call("outline", { title: "", outline }).then(
      (drafted) => {
        takeDraft(drafted, false);
        changeStored(() => ({ outline: null }));
      },
      // it stays as it was written
      () => {},
    );
  }, []);
  return (
    <>
      <h1>Lesson</h1>
      <p>
        A lesson is put together from parts: your own words, and boards, maps, rules, games and exercises that
        are filled in for you. Draft one, then move its parts about, take some out, put others in.
      </p>
      <Begin />
      {lesson && <Workbench lesson={lesson} />}
      {!lesson && (
        <div class="buttons">
          <button type="button" onClick={() => change("beginning a lesson", () => ({}))}>
            Begin with nothing
          </button>
        </div>
      )}
    </>
  );
};
