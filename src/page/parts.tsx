// Small parts that many places use: a verdict by sign and word, errors, a choice of words, fields, copying and saving.

import type { ComponentChildren } from "preact";
import { useEffect, useState } from "preact/hooks";

import { changeStored, collect, keyOf, useStored } from "./browser-storage.js";
import type { CallError } from "./call-error.js";
import type { Verdict } from "./calls.js";
import type { CollectionItem } from "./stored.js";

const SIGNS: Readonly<Record<Verdict, string>> = { won: "+", drawn: "=", lost: "−" };

/** A verdict for the attacker, by its sign, its word, and a colour that nobody needs. */
export const Sign = ({ verdict, children }: { verdict: Verdict | null; children?: ComponentChildren }) => (
  <span class={`sign ${verdict ?? "none"}`}>
    <span class="glyph" aria-hidden="true">
      {verdict ? SIGNS[verdict] : "·"}
    </span>
    {children ?? verdict ?? "outside the tables"}
  </span>
);

/** The question that an error is about, with the word marked. */
const MarkedQuestion = ({ question, at = 0, length = 0 }: CallError["place"]) =>
  question ? (
    <span class="quoted">
      {question.slice(0, at)}
      <mark>{question.slice(at, at + length) || "…"}</mark>
      {question.slice(at + length)}
    </span>
  ) : null;

/** What went wrong, where in a question or an outline, and what to do about it. */
export const ErrorMessage = ({
  error,
  children,
}: {
  error: CallError | undefined;
  /** In the place of the hint. */
  children?: ComponentChildren;
}) =>
  // that the server is gone is told once, at the top of the page
  error && error.code !== "no-server" ? (
    <p class="error-message" role="alert">
      <MarkedQuestion {...error.place} />
      {capital(error.message)}
      {error.place.line !== undefined && ` (line ${error.place.line})`}.{" "}
      <span class="hint">{children || capital(error.hint)}</span>
    </p>
  ) : null;

/** A choice among a few, as radio buttons in one line; the options are in the order they are given in. */
export function Choice<T extends string>({
  label,
  value,
  options,
  onChange,
}: {
  label: string;
  value: T;
  options: Readonly<Record<T, string>>;
  onChange: (value: T) => void;
}) {
  return (
    <fieldset class="choice">
      <legend>{label}</legend>
      {(Object.keys(options) as T[]).map((name) => (
        <label key={name}>
          <input type="radio" name={label} checked={value === name} onChange={() => onChange(name)} />
          <span>{options[name]}</span>
        </label>
      ))}
    </fieldset>
  );
}

/** A field for a line of text, as wide as there is room. */
export const TextField = ({
  label,
  value,
  onInput,
  ...rest
}: {
  label: string;
  value: string;
  onInput: (value: string) => void;
  maxLength?: number;
  placeholder?: string;
  spellcheck?: boolean;
  /** Called when the field is left. */
  onChange?: () => void;
}) => (
  <label class="grow">
    {label}
    <input type="text" value={value} onInput={(event) => onInput(event.currentTarget.value)} {...rest} />
  </label>
);

/** "1 game", "1,200 games". */
export const counted = (count: number, noun: string): string =>
  `${count.toLocaleString("en")} ${noun}${count === 1 ? "" : "s"}`;

/** With a great first letter. */
export const capital = (text: string): string => text.slice(0, 1).toUpperCase() + text.slice(1);

/** A result for print: "½-½". */
export const resultText = (result: string): string => result.replaceAll("1/2", "½");

/** Copies text; false where the browser does not allow it, as on a page that came over plain HTTP from elsewhere. */
export async function copyText(text: string): Promise<boolean> {
  const clipboard = navigator.clipboard as Clipboard | undefined;
  try {
    if (clipboard) {
      await clipboard.writeText(text);
      return true;
    }
  } catch {
    // the old way may be allowed
  }
  const field = document.createElement("textarea");
  field.value = text;
  document.body.append(field);
  field.select();
  const done = document.execCommand("copy");
  field.remove();
  return done;
}

/** A button that copies text and says that it has. */
export const Copy = ({ text, children }: { text: string; children: ComponentChildren }) => {
  const [said, say] = useState("");
  const copy = async () => {
    const done = await copyText(text);
    say(done ? "copied" : `copy it by hand: ${text}`);
    if (done) setTimeout(() => say(""), 4000);
  };
  return (
    <button type="button" class="quiet" onClick={() => void copy()}>
      {children}
      <span role="status">{said && ` (${said})`}</span>
    </button>
  );
};

/** A button that puts something into the collection, and tells that it is there. */
export const Collect = ({
  item,
  quiet = false,
  children = "Into the tray",
}: {
  item: Omit<CollectionItem, "key" | "note">;
  /** As a plain link among others. */
  quiet?: boolean;
  children?: ComponentChildren;
}) => {
  const { collection } = useStored();
  const isThere = collection.some(({ key }) => key === keyOf(item));
  return (
    <button type="button" class={quiet ? "plain" : "quiet"} onClick={() => collect([item])}>
      {children}
      <span role="status">{isThere && " ✓"}</span>
      {isThere && <span class="hidden"> it is there</span>}
    </button>
  );
};

/** Saves something made at an address under its name. */
export function save({ address, name }: { address: string; name: string }): void {
  const link = document.createElement("a");
  link.href = `${address}?save`;
  link.download = name;
  link.click();
}

/** Work that takes its time: how far it has come, and a way to stop it. */
export const Working = ({ progress, onStop }: { progress: string; onStop: () => void }) => (
  <p role="status">
    Working … {progress}{" "}
    <button type="button" onClick={onStop}>
      Stop
    </button>
  </p>
);

/** Turns the board round, here and wherever a board is shown from now on. */
export const TurnBoard = () => (
  <button
    type="button"
    onClick={() =>
      changeStored(({ settings }) => ({
        settings: { ...settings, below: settings.below === "white" ? "black" : "white" },
      }))
    }
  >
    Turn the board
  </button>
);

/** The title of the page, for tabs and screen readers. */
export const useTitle = (title: string): void =>
  useEffect(() => {
    document.title = `${title} – longside`;
  }, [title]);

/** Content that is worked out only when it is opened. */
export const Folded = ({
  title,
  children,
}: {
  title: ComponentChildren;
  children: () => ComponentChildren;
}) => {
  const [opened, set] = useState(false);
  return (
    <details open={opened} onToggle={(event) => set(event.currentTarget.open)}>
      <summary>{title}</summary>
      {opened && children()}
    </details>
  );
};
