// The line to type a question in: completed from the vocabulary, with a fault shown under the word it is about.

import { useEffect, useId, useMemo, useRef, useState } from "preact/hooks";

import { type Suggestion, complete } from "../query/language/completion.js";
import { type AnswerTo, Fault, call, useAnswer } from "./calls.js";
import { Told } from "./parts.js";

/** How long a hand rests before what was typed is looked at, in milliseconds. */
const REST = 350;

export const QuestionLine = ({
  value,
  label,
  submit,
  onAsk,
  onChange,
}: {
  value: string;
  label: string;
  /** What the button says; none where the line is part of a form. */
  submit?: string;
  onAsk?: (question: string) => void;
  onChange?: (question: string) => void;
}) => {
  const id = useId();
  const { answer: vocabulary } = useAnswer("words", {});
  const [text, setText] = useState(value);
  /** Where in the text something is to be completed; undefined where nothing is. */
  const [cursor, setCursor] = useState<number>();
  // the vocabulary may come later than the first letters
  const found = useMemo(
    () => (cursor === undefined ? [] : complete(text, cursor, vocabulary?.words ?? [])),
    [text, cursor, vocabulary],
  );
  const [chosen, setChosen] = useState(-1);
  const [checked, setChecked] = useState<AnswerTo<"check"> & { readonly text: string }>();
  const input = useRef<HTMLInputElement>(null);

  useEffect(() => setText(value), [value]);
  // what was typed is looked at when the hand rests
  useEffect(() => {
    if (text.trim() === "") return setChecked(undefined);
    const leaving = new AbortController();
    const timer = setTimeout(() => {
      call("check", { question: text }, leaving.signal).then(
        (answer) => setChecked({ ...answer, text }),
        // whoever asks will be told
        () => setChecked(undefined),
      );
    }, REST);
    return () => {
      clearTimeout(timer);
      leaving.abort();
    };
  }, [text]);

  const change = (next: string, at: number) => {
    setText(next);
    onChange?.(next);
    setCursor(at);
    setChosen(-1);
  };
  const take = ({ from, to, say }: Suggestion) => {
    // a slot is for the one who asks to fill: it is left selected
    const slot = /\{[^}]*\}|…/.exec(say);
    const next = text.slice(0, from) + say + text.slice(to);
    setText(next);
    onChange?.(next);
    setCursor(undefined);
    const begin = from + (slot?.index ?? say.length);
    requestAnimationFrame(() => {
      input.current?.focus();
      input.current?.setSelectionRange(begin, begin + (slot?.[0].length ?? 0));
    });
  };
  const key = (event: KeyboardEvent) => {
    if (found.length === 0) return;
    if (event.key === "ArrowDown" || event.key === "ArrowUp") {
      event.preventDefault();
      const step = event.key === "ArrowDown" ? 1 : -1;
      // one place more than there are suggestions: the text as it was typed
      const places = found.length + 1;
      setChosen((n) => ((n + 1 + step + places) % places) - 1);
    } else if (event.key === "Escape") setCursor(undefined);
    else if ((event.key === "Enter" || event.key === "Tab") && chosen >= 0) {
      event.preventDefault();
      take(found[chosen]);
    }
  };
  const ask = () => {
    setCursor(undefined);
    onAsk?.(text);
  };
  const line = (
    <div class="line">
      <label for={id}>{label}</label>
      <div class="field">
        <input
          id={id}
          ref={input}
          type="text"
          role="combobox"
          autocomplete="off"
          autocapitalize="none"
          spellcheck={false}
          aria-expanded={found.length > 0}
          aria-controls={`${id}-list`}
          aria-autocomplete="list"
          aria-activedescendant={chosen >= 0 ? `${id}-${chosen}` : undefined}
          value={text}
          maxLength={2000}
          onInput={(event) => change(event.currentTarget.value, event.currentTarget.selectionStart ?? 0)}
          onKeyDown={key}
          onBlur={() => setTimeout(() => setCursor(undefined), 150)}
        />
        {submit && <button class="main">{submit}</button>}
      </div>
      <ul
        id={`${id}-list`}
        role="listbox"
        aria-label="What could be meant"
        class="suggestions"
        hidden={found.length === 0}
      >
        {found.map((one, n) => (
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
    </div>
  );
  return (
    <div class="question">
      {onAsk ? (
        <form
          role="search"
          onSubmit={(event) => {
            event.preventDefault();
            ask();
          }}
        >
          {line}
        </form>
      ) : (
        line
      )}
      {checked?.text === text && checked.fault && <Told fault={new Fault(checked.fault)} />}
      {checked?.text === text && checked.understood !== null && checked.understood !== text && (
        <p class="understood">
          understood as <code>{checked.understood || "everything"}</code>
        </p>
      )}
    </div>
  );
};
