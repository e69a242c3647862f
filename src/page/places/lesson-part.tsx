// One part of a lesson: its handle to move it by, what it is called, and what can be said of it.

import { useState } from "preact/hooks";

import { Names } from "../../documents/names.js";
import { THEMES } from "../../exercises/themes/theme.js";
import { SmallBoard } from "../board.js";
import { useStored } from "../browser-storage.js";
import type { CallError } from "../call-error.js";
import { useAnswer } from "../call-hooks.js";
import { type Field, BLOCK_WORDS, shownFields, titleOf } from "../lesson-blocks.js";
import { ErrorMessage, TextField } from "../parts.js";
import type { StoredPart } from "../stored.js";
import { ThemeChoice } from "../theme-choice.js";
import type { useRowDragging } from "../use-row-dragging.js";

type Block = Extract<StoredPart, { kind: "block" }>;

/** Whether a text could be a position, so that a board can be drawn of it while it is typed. */
const isFen = (text: string) => /^[1-8kqrbnKQRBN]+(?:\/[1-8kqrbnKQRBN]+){7} [wb]/.test(text.trim());

interface Valued {
  readonly label: string;
  readonly value: string;
  readonly onChange: (value: string) => void;
}

/** A question: in words as it is understood, and to be typed where it is to be another. */
const QuestionField = ({ label, value, onChange }: Valued) => {
  const [typing, setTyping] = useState(value === "");
  const { answer } = useAnswer("check", typing ? undefined : { question: value });
  if (typing || answer?.fault)
    return <TextField label={label} value={value} maxLength={2000} spellcheck={false} onInput={onChange} />;
  return (
    <div class="said">
      <span>
        <Names text={answer?.sentence ?? "\u00a0"} />
      </span>{" "}
      <button
        type="button"
        class="plain"
        onClick={() => {
          onChange("");
          setTyping(true);
        }}
      >
        ask something else
      </button>
    </div>
  );
};

/** A position as a board; another one out of the tray, or pasted. */
const PositionField = ({ label, value, onChange }: Valued) => {
  const [choosing, setChoosing] = useState(value === "");
  const { collection } = useStored();
  const positions = collection.flatMap(({ fen, title }) => (fen === undefined ? [] : [{ fen, title }]));
  return (
    <div class="said">
      {isFen(value) && <SmallBoard fen={value} />}
      {choosing ? (
        <>
          {positions.length > 0 && (
            <ul class="given" aria-label="Positions of the tray">
              {positions.map(({ fen, title }) => (
                <li key={fen}>
                  <button
                    type="button"
                    class="plain"
                    aria-label={`Take ${title}`}
                    onClick={() => onChange(fen)}
                  >
                    <SmallBoard fen={fen} />
                  </button>
                </li>
              ))}
            </ul>
          )}
          <TextField
            label={`${label} as FEN, such as the board copies it`}
            value={value}
            maxLength={120}
            spellcheck={false}
            onInput={onChange}
          />
        </>
      ) : (
        <button type="button" class="plain" onClick={() => setChoosing(true)}>
          another position
        </button>
      )}
    </div>
  );
};

/** An ending by its number; whose it is stands beside it. */
const EndingField = ({ label, value, onChange }: Valued) => {
  const { answer, error, isCurrent } = useAnswer(
    "ending",
    /^\d+$/.test(value) ? { id: Number(value) } : undefined,
  );
  return (
    <div class="said">
      <label>
        {label}
        <input type="number" min={1} value={value} onInput={(event) => onChange(event.currentTarget.value)} />
      </label>
      <p>{value !== "" && isCurrent && !error && answer && <Names text={answer.players} />}</p>
    </div>
  );
};

const FieldOf = ({
  field,
  value,
  onChange,
}: {
  field: Field;
  value: string;
  onChange: (value: string) => void;
}) => {
  const { label } = field;
  if (field.way === "question") return <QuestionField label={label} value={value} onChange={onChange} />;
  if (field.way === "position") return <PositionField label={label} value={value} onChange={onChange} />;
  if (field.way === "ending") return <EndingField label={label} value={value} onChange={onChange} />;
  if (field.way === "choice")
    return (
      <label>
        {label}
        <select value={value} onChange={(event) => onChange(event.currentTarget.value)}>
          {Object.entries(field.options).map(([name, says]) => (
            <option key={name} value={name}>
              {says}
            </option>
          ))}
        </select>
      </label>
    );
  if (field.way === "yes")
    return (
      <label>
        <input
          type="checkbox"
          checked={value === "true"}
          onChange={(event) => onChange(event.currentTarget.checked ? "true" : "")}
        />{" "}
        {label}
      </label>
    );
  if (field.way === "themes") {
    const chosen = value
      .split(/[,\n]/)
      .flatMap((word) => THEMES.filter(({ name }) => name === word.trim().toLowerCase()))
      .map(({ name }) => name);
    return <ThemeChoice themes={chosen} onChange={(themes) => onChange(themes.join(", "))} />;
  }
  if (field.way === "number")
    return (
      <label>
        {label}
        <input type="number" min={1} value={value} onInput={(event) => onChange(event.currentTarget.value)} />
      </label>
    );
  if (field.way === "positions")
    return (
      <ul class="given">
        {value.split("\n").map((line) => (
          <li key={line}>{isFen(line) && <SmallBoard fen={line} />}</li>
        ))}
      </ul>
    );
  return <TextField label={label} value={value} maxLength={2000} spellcheck={false} onInput={onChange} />;
};

const BlockFields = ({ part, onChange }: { part: Block; onChange: (part: Block) => void }) => {
  const set = (field: string, value: string) => {
    const others = Object.entries(part.values).filter(([name]) => name !== field);
    const own = value === "" ? [] : [[field, value] as const];
    onChange({ ...part, values: Object.fromEntries([...others, ...own]) });
  };
  return (
    <div class="block-fields">
      <div class="form">
        {shownFields(part.name, part.values).map(([name, field]) => (
          <FieldOf
            key={name}
            field={field}
            value={part.values[name] ?? ""}
            onChange={(value) => set(name, value)}
          />
        ))}
      </div>
    </div>
  );
};

/** Words of one's own: as high as they need. */
const OwnText = ({ text, onInput }: { text: string; onInput: (text: string) => void }) => (
  <label class="grow own-text">
    <span class="hidden">Text</span>
    <textarea
      rows={Math.max(2, Math.ceil(text.length / 90) + text.split("\n").length - 1)}
      value={text}
      maxLength={20_000}
      placeholder="Your own words. A blank line begins a new paragraph."
      onInput={(event) => onInput(event.currentTarget.value)}
    />
  </label>
);

export const LessonPartRow = ({
  part,
  n,
  of,
  error,
  dragging: { drag, handle, put },
  onChange,
  onTakeOut,
}: {
  part: StoredPart;
  n: number;
  of: number;
  error: CallError | undefined;
  dragging: ReturnType<typeof useRowDragging>;
  onChange: (part: StoredPart) => void;
  onTakeOut: () => void;
}) => {
  const title = titleOf(part);
  const place = `${title}, part ${n + 1} of ${of}`;
  const state = [
    "part",
    part.kind,
    drag?.from === n && "dragged",
    drag && drag.to === n && drag.from !== n && "drop-before",
    drag && n === of - 1 && drag.to === of && "drop-after",
  ];
  return (
    <li class={state.filter((one) => one).join(" ")}>
      <button
        type="button"
        class="handle"
        data-handle
        aria-label={`Move ${place}: up and down arrow keys`}
        {...handle(n)}
      >
        <span aria-hidden="true">⠿</span>
      </button>
      <div class="part-body">
        {part.kind === "heading" ? (
          <TextField
            label={part.depth === 2 ? "Heading" : "Smaller heading"}
            value={part.text}
            maxLength={200}
            onInput={(text) => onChange({ ...part, text })}
          />
        ) : part.kind === "text" ? (
          <OwnText text={part.text} onInput={(text) => onChange({ ...part, text })} />
        ) : (
          <>
            <p class="part-name">
              <b>{title}</b> <span class="small">{BLOCK_WORDS[part.name].shows}</span>
            </p>
            <BlockFields part={part} onChange={onChange} />
          </>
        )}
        <ErrorMessage error={error} />
      </div>
      <div class="part-ways">
        <button type="button" disabled={n === 0} onClick={() => put(n, n - 1)} aria-label={`Up: ${place}`}>
          Up
        </button>
        <button
          type="button"
          disabled={n === of - 1}
          onClick={() => put(n, n + 1)}
          aria-label={`Down: ${place}`}
        >
          Down
        </button>
        <button type="button" onClick={onTakeOut} aria-label={`Take out: ${place}`}>
          Take out
        </button>
      </div>
    </li>
  );
};
