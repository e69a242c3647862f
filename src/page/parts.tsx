// Small parts that many places use: a verdict by sign and word, faults, a choice of words, copying and saving.

import type { ComponentChildren } from "preact";
import { useEffect, useState } from "preact/hooks";

import type { Fault } from "./calls.js";
import { type Item, collect, keep, keyOf, useKept } from "./browser-storage.js";

export type Verdict = "won" | "drawn" | "lost";

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

/** The question that a fault is about, with the word marked. */
const Marked = ({ question = "", at = 0, length = 0 }: Partial<Pick<Fault, "question" | "at" | "length">>) =>
  question === "" ? null : (
    <span class="quoted">
      {question.slice(0, at)}
      <mark>{question.slice(at, at + length) || "…"}</mark>
      {question.slice(at + length)}
    </span>
  );

/** What went wrong, where in a question, and what to do about it. */
export const Told = ({ fault }: { fault: Fault | undefined }) =>
  fault ? (
    <p class="fault" role="alert">
      <Marked question={fault.question} at={fault.at} length={fault.length} />
      {fault.message}
      {fault.line !== undefined && ` (line ${fault.line})`}. <span class="hint">{fault.hint}</span>
    </p>
  ) : null;

/** A choice among a few, as radio buttons in one line. */
export function Choice<T extends string>({
  label,
  value,
  options,
  onChange,
}: {
  label: string;
  value: T;
  options: readonly (readonly [T, string])[];
  onChange: (value: T) => void;
}) {
  return (
    <fieldset class="choice">
      <legend>{label}</legend>
      {options.map(([name, said]) => (
        <label key={name}>
          <input type="radio" name={label} checked={value === name} onChange={() => onChange(name)} />
          <span>{said}</span>
        </label>
      ))}
    </fieldset>
  );
}

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
  return (
    <button
      type="button"
      onClick={() =>
        void copyText(text).then((done) => {
          say(done ? "copied" : `copy it by hand: ${text}`);
          if (done) setTimeout(() => say(""), 4000);
        })
      }
    >
      {children}
      <span role="status">{said && ` (${said})`}</span>
    </button>
  );
};

/** A button that puts something into the tray, and tells that it is there. */
export const Gather = ({
  item,
  children,
}: {
  item: Omit<Item, "key" | "note">;
  children?: ComponentChildren;
}) => {
  const { tray } = useKept();
  const there = tray.some(({ key }) => key === keyOf(item));
  return (
    <button type="button" onClick={() => collect(item)}>
      {children ?? "Into the tray"}
      <span role="status">{there && " ✓ it is there"}</span>
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
export const Working = ({ said, onStop }: { said: string; onStop: () => void }) => (
  <p role="status">
    Working … {said}{" "}
    <button type="button" onClick={onStop}>
      Stop
    </button>
  </p>
);

/** The other side of the board below, here and wherever a board is shown from now on. */
export const TurnBoard = () => (
  <button
    type="button"
    onClick={() =>
      keep(({ ways }) => ({ ways: { ...ways, below: ways.below === "white" ? "black" : "white" } }))
    }
  >
    Turn the board
  </button>
);

/** The title of the page, for tabs and readers. */
export const useTitle = (title: string): void =>
  useEffect(() => {
    document.title = title === "" ? "longside" : `${title} – longside`;
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
