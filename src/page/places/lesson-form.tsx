// The outline of a lesson: drafted from the collection or from a question, then written by hand, and made into the lesson.

import { useState } from "preact/hooks";

import { changeStored, useStored } from "../browser-storage.js";
import { useTask } from "../call-hooks.js";
import { call } from "../calls.js";
import { ErrorMessage, TextField } from "../parts.js";

export interface Outline {
  /** As far as it has been written; null where there is none. */
  readonly text: string | null;
  readonly write: (text: string) => void;
  /** Takes a draft; asks first where it would replace what was written by hand. */
  readonly draft: (text: string) => void;
}

/** The outline in the browser's storage. */
export function useOutline(): Outline {
  const { outline: text } = useStored();
  /** What differs from it was written by hand. */
  const [drafted, setDrafted] = useState<string>();
  const write = (outline: string) => changeStored(() => ({ outline }));
  const draft = (next: string) => {
    if (text !== null && text !== drafted && !confirm("Replace the outline that you have written?")) return;
    write(next);
    setDrafted(next);
  };
  return { text, write, draft };
}

const DraftFromQuestion = ({ onDraft }: { onDraft: (outline: string) => void }) => {
  const [question, setQuestion] = useState("");
  const task = useTask();
  return (
    <form
      class="form"
      onSubmit={(event) => {
        event.preventDefault();
        task.run(async () => onDraft((await call("outline", { title: question, question })).outline));
      }}
    >
      <TextField
        label="A set-up, or any question"
        value={question}
        placeholder="second-rank defence"
        onInput={setQuestion}
      />
      <button disabled={task.busy || question.trim() === ""}>Draft</button>
      <ErrorMessage error={task.error} />
    </form>
  );
};

export const LessonForm = ({
  outline,
  busy,
  onMake,
}: {
  outline: Outline;
  busy: boolean;
  onMake: () => void;
}) => (
  <>
    <h2>Lesson</h2>
    <p>
      A lesson is written in an outline: your own text, and blocks that are filled in with boards, maps, games
      and exercises. Draft one from the tray above, or from a question:
    </p>
    <DraftFromQuestion onDraft={outline.draft} />
    {outline.text !== null && (
      <>
        <label class="grow">
          Outline
          <textarea
            rows={18}
            value={outline.text}
            spellcheck={false}
            onInput={(event) => outline.write(event.currentTarget.value)}
          />
        </label>
        <div class="buttons">
          <button type="button" class="main" disabled={busy} onClick={onMake}>
            Make the lesson
          </button>
        </div>
      </>
    )}
  </>
);
