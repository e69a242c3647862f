// A choice of themes for exercises: folded up, so that the list is there for who wants it.

import type { ComponentChildren } from "preact";

import { THEMES, type Theme } from "../exercises/themes/theme.js";

/** Which themes exercises must have one of; with none chosen they may have any. */
export const ThemeChoice = ({
  themes,
  onChange,
  children,
}: {
  themes: readonly Theme[];
  onChange: (themes: readonly Theme[]) => void;
  children?: ComponentChildren;
}) => (
  <details>
    <summary>Themes: {themes.length === 0 ? "any" : themes.join(", ")}</summary>
    <fieldset class="choice">
      <legend>Each exercise has one of</legend>
      {THEMES.map(({ name }) => (
        <label key={name}>
          <input
            type="checkbox"
            checked={themes.includes(name)}
            onChange={({ currentTarget: { checked } }) => {
              const others = themes.filter((one) => one !== name);
              onChange(checked ? [...others, name] : others);
            }}
          />
          <span>{name}</span>
        </label>
      ))}
    </fieldset>
    {children}
  </details>
);
