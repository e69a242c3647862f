// The line to type a question in: completed from the vocabulary, with an error shown under the word it is about.

import type { RefObject } from "preact";
import { useEffect, useId, useMemo, useRef, useState } from "preact/hooks";

import { Names } from "../documents/names.js";
import { type Suggestion, complete } from "../query/language/completion.js";
import { useAnswer } from "./call-hooks.js";
import { type CallError, answeredError } from "./call-error.js";
import { type AnswerTo, call } from "./calls.js";
import { ErrorMessage, capital } from "./parts.js";

/** How long a hand rests before what was typed is checked, in milliseconds. */
const REST = 350;
/** How long suggestions stay when the field is left: a click on one is still to come. */
const LINGER = 150;

/** How a question is understood, or its error, once the hand rests. */
function useChecked(question: string): AnswerTo<"check"> | undefined {
  const [checked, setChecked] = useState<{ question: string; answer: AnswerTo<"check"> }>();
  useEffect(() => {
    if (question.trim() === "") return setChecked(undefined);
    const leaving = new AbortController();
    const timer = setTimeout(() => {
      call("check", { question }, leaving.signal).then(
        (answer) => setChecked({ question, answer }),
        // it will be told when the question is asked
        () => setChecked(undefined),
      );
    }, REST);
    return () => {
      clearTimeout(timer);
      leaving.abort();
    };
  }, [question]);
  return checked?.question === question ? checked.answer : undefined;
}

/** What could be meant by the words before the cursor, gone through with the arrow keys; `write` is given a new text. */
function useCompletion(
  input: RefObject<HTMLInputElement | null>,
  text: string,
  write: (text: string) => void,
) {
  // a hundred kilobytes: asked for when somebody is about to type
  const [isNear, setNear] = useState(false);
  const { answer: vocabulary } = useAnswer("words", isNear ? {} : undefined);
  /** Where in the text something is to be completed; undefined where nothing is. */
  const [cursor, setCursor] = useState<number>();
  const [chosen, setChosen] = useState(-1);
  // the vocabulary may come later than the first letters
  const suggestions = useMemo(
    () => (cursor === undefined ? [] : complete(text, cursor, vocabulary?.words ?? [])),
    [text, cursor, vocabulary],
  );
  const close = () => setCursor(undefined);
  const take = ({ from, to, say }: Suggestion) => {
    // a slot is for the one who asks to fill: it is left selected
    const slot = /\{[^}]*\}|…/.exec(say);
    write(text.slice(0, from) + say + text.slice(to));
    close();
    const begin = from + (slot?.index ?? say.length);
    requestAnimationFrame(() => {
      input.current?.focus();
      input.current?.setSelectionRange(begin, begin + (slot?.[0].length ?? 0));
    });
  };
  const type = (next: string, at: number) => {
    write(next);
    setCursor(at);
    setChosen(-1);
  };
  const press = (event: KeyboardEvent) => {
    if (suggestions.length === 0) return;
    if (event.key === "ArrowDown" || event.key === "ArrowUp") {
      event.preventDefault();
      const step = event.key === "ArrowDown" ? 1 : -1;
      // one step more than there are suggestions: the text as it was typed
      const steps = suggestions.length + 1;
      setChosen((n) => ((n + 1 + step + steps) % steps) - 1);
    } else if (event.key === "Escape") close();
    else if ((event.key === "Enter" || event.key === "Tab") && chosen >= 0) {
      event.preventDefault();
      take(suggestions[chosen]);
    }
  };
  return { suggestions, chosen, take, type, press, close, come: () => setNear(true) };
}

type Completion = ReturnType<typeof useCompletion>;

const Field = ({
  id,
  input,
  text,
  completion: { suggestions, chosen, type, press, close, come },
  hint,
}: {
  hint: string | undefined;
  id: string;
  input: RefObject<HTMLInputElement | null>;
  text: string;
  completion: Completion;
}) => (
  <input
    id={id}
    ref={input}
    type="text"
    role="combobox"
    autocomplete="off"
    autocapitalize="none"
    spellcheck={false}
    aria-expanded={suggestions.length > 0}
    aria-controls={`${id}-list`}
    aria-autocomplete="list"
    aria-activedescendant={chosen >= 0 ? `${id}-${chosen}` : undefined}
    value={text}
    placeholder={hint}
    maxLength={2000}
    onInput={(event) => type(event.currentTarget.value, event.currentTarget.selectionStart ?? 0)}
    onKeyDown={press}
    onFocus={come}
    onBlur={() => setTimeout(close, LINGER)}
  />
);

const Suggestions = ({
  id,
  completion: { suggestions, chosen, take },
}: {
  id: string;
  completion: Completion;
}) => (
  <ul
    id={`${id}-list`}
    role="listbox"
    aria-label="What could be meant"
    class="suggestions"
    hidden={suggestions.length === 0}
  >
    {suggestions.map((one, n) => (
      <li
        key={`${one.sort} ${one.say}`}
        id={`${id}-${n}`}
        role="option"
        aria-selected={n === chosen}
        onPointerDown={(event) => {
          event.preventDefault();
          take(one);
        }}
      >
        <b>{one.say}</b> <i>{one.sort}</i> <span>{one.meaning}</span>
      </li>
    ))}
  </ul>
);

/** A hint that offers whole questions: what stands before, between and behind them, and at odd places the questions. */
const OFFERED = /"([^"]+)"/;

/** A hint whose questions, if it offers any, are taken by a click. */
const Hint = ({ hint, onTake }: { hint: string; onTake: (question: string) => void }) => (
  <>
    {(hint.startsWith("did you mean") ? capital(hint).split(OFFERED) : [capital(hint)]).map((part, n) =>
      n % 2 === 0 ? (
        part
      ) : (
        <button key={part} type="button" class="plain" onClick={() => onTake(part)}>
          {part}
        </button>
      ),
    )}
  </>
);

/** A fault of a question, with its hint; nothing where there is none. */
export const FaultMessage = ({
  error,
  onTake,
}: {
  error: CallError | undefined;
  onTake: (question: string) => void;
}) => <ErrorMessage error={error}>{error && <Hint hint={error.hint} onTake={onTake} />}</ErrorMessage>;

/** How the question is understood, or what is wrong with it. */
const Checked = ({
  checked,
  asked,
  onTake,
}: {
  checked: AnswerTo<"check"> | undefined;
  asked: boolean;
  onTake: (question: string) => void;
}) => {
  // of what is asked, its answers say how it was understood, or what is wrong with it
  if (!checked || asked) return null;
  const { fault, sentence, others, passed, mended } = checked;
  if (fault) return <FaultMessage error={answeredError(fault)} onTake={onTake} />;
  return (
    <p class="understood">
      understood as: <Names text={sentence} />
      {passed.length > 0 && <b> (passed over: {passed.join(", ")})</b>}
      {mended.length > 0 && (
        <b> ({mended.map(({ words, as }) => `“${words}” read as “${as}”`).join(", ")})</b>
      )}
      {others.length > 0 && <b> (one of {others.length + 1} meanings)</b>}
    </p>
  );
};

export const QuestionLine = ({
  value,
  label,
  submit,
  quiet = false,
  hint,
  onAsk,
  onChange,
}: {
  value: string;
  label: string;
  /** What stands in the line while it is empty; its label where it has a button of its own. */
  hint?: string;
  /** What the button says; none where the line is part of a form. */
  submit?: string;
  /** Whether another line has the one filled button of the place. */
  quiet?: boolean;
  onAsk?: (question: string) => void;
  onChange?: (question: string) => void;
}) => {
  const id = useId();
  const input = useRef<HTMLInputElement>(null);
  const [text, setText] = useState(value);
  useEffect(() => setText(value), [value]);
  const checked = useChecked(text);
  const completion = useCompletion(input, text, (next) => {
    setText(next);
    onChange?.(next);
  });
  const line = (
    <div class="line">
      <label for={id} class={submit ? "hidden" : ""}>
        {label}
      </label>
      <div class="field">
        <Field id={id} input={input} text={text} completion={completion} hint={submit ? label : hint} />
        <span class="whole-question" aria-hidden="true">
          <Names text={text} />
        </span>
        {submit && <button class={quiet ? "quiet" : "main"}>{submit}</button>}
      </div>
      <Suggestions id={id} completion={completion} />
    </div>
  );
  const isAsked = onAsk !== undefined && value !== "" && text === value;
  const ask = (event: SubmitEvent) => {
    event.preventDefault();
    completion.close();
    onAsk?.(text);
  };
  return (
    <div class="question">
      {onAsk ? (
        <form role="search" aria-label={label} onSubmit={ask}>
          {line}
        </form>
      ) : (
        line
      )}
      <div class={onAsk === undefined ? "under-line" : isAsked ? "under-line over asked" : "under-line over"}>
        <Checked
          checked={checked}
          asked={isAsked}
          onTake={(question) => {
            setText(question);
            (onAsk ?? onChange)?.(question);
            input.current?.focus();
          }}
        />
      </div>
    </div>
  );
};
