// How often: the answers of a question counted by one or two facts, with the share in which something more is true.

import { useEffect, useState } from "preact/hooks";

import { percentText } from "../../statistics/percent.js";
import { type Answered, useAnswer } from "../call-hooks.js";
import type { AnswerTo } from "../calls.js";
import { ErrorMessage, Folded, TextField, capital, counted } from "../parts.js";

type Counts = AnswerTo<"count">;
type Splits = AnswerTo<"words">["splits"];

/** How many match, and in what share of them something more is true. */
const Totals = ({ counts, share }: { counts: Counts; share: string }) => (
  <p>
    <b class="figures">{counts.matching.toLocaleString("en")}</b> of {counted(counts.of, counts.unit)}
    {counts.share && counts.share.share !== null && (
      <>
        ; in {counts.share.count.toLocaleString("en")} of {counts.share.of.toLocaleString("en")} of them (
        {percentText(counts.share.share)}, 95 % interval {percentText(counts.share.low)} to{" "}
        {percentText(counts.share.high)}): {share}
      </>
    )}
    . <span class="small">{capital(counts.leftOut)}.</span>
  </p>
);

/** A fact that is counted by, and the width of its bands: "defender rating in steps of 200". */
const splitInWords = (split: string): string => {
  const [name, band] = split.split(":") as [string, string?];
  return inWords(name) + (band ? ` in steps of ${band}` : "");
};
/** The name of a fact as words; a set-up is one word. */
const inWords = (name: string) => name.replaceAll("-", " ").replaceAll("set up", "set-up");

type Group = Counts["groups"][number];

/** A share as a bar. */
const ShareBar = ({ share }: { share: number | null }) => (
  <svg class="share-bar" viewBox="0 0 100 8" preserveAspectRatio="none" aria-hidden="true">
    <rect width={100 * (share ?? 0)} height="8" />
  </svg>
);

/** One combination of two facts: how often, of the share also of how many. */
const Cell = ({ group: { count, of, share, small }, sharing }: { group: Group; sharing: boolean }) =>
  sharing ? (
    <>
      {percentText(share)}{" "}
      <span class="small">
        {count.toLocaleString("en")} of {of.toLocaleString("en")}
        {small && " (few)"}
      </span>
    </>
  ) : (
    <>
      {count.toLocaleString("en")} <span class="small">{percentText(share)}</span>
    </>
  );

/** Two facts: a row for each value of the one, a column for each of the other. */
const CrossTable = ({ counts, sharing }: { counts: Counts; sharing: boolean }) => {
  const valuesOf = (n: number) => [...new Set(counts.groups.map(({ values }) => values[n]))];
  const [rows, columns] = [valuesOf(0), valuesOf(1)];
  const keyOf = (...values: readonly string[]) => JSON.stringify(values);
  const groups = new Map(counts.groups.map((group) => [keyOf(...group.values), group]));
  const [of, into] = counts.by.map(splitInWords);
  return (
    <div class="wide" tabIndex={0} role="region" aria-label="Cross table">
      <table class="stacked cross">
        <caption class="small">
          {counted(counts.matching, counts.unit)} by {of} (rows) and {into} (columns)
          {sharing ? ": the share, and of how many" : ": how many, and what share of all"}
        </caption>
        <thead>
          <tr>
            <th scope="col">{of}</th>
            {columns.map((column) => (
              <th key={column} scope="col" class="number">
                {column}
              </th>
            ))}
          </tr>
        </thead>
        <tbody>
          {rows.map((row) => (
            <tr key={row}>
              <th scope="row">{row}</th>
              {columns.map((column) => {
                const group = groups.get(keyOf(row, column));
                return (
                  <td key={column} class="number" data-of={column}>
                    {group && (
                      <>
                        <Cell group={group} sharing={sharing} />
                        <ShareBar share={group.share} />
                      </>
                    )}
                  </td>
                );
              })}
            </tr>
          ))}
        </tbody>
      </table>
    </div>
  );
};

const Groups = ({ counts }: { counts: Counts }) => (
  <div class="wide" tabIndex={0} role="region" aria-label="Table of counts">
    <table class="stacked">
      <thead>
        <tr>
          <th scope="col">{counts.by.map(splitInWords).join(", ")}</th>
          {[`${counts.unit}s`, "of", "share", "95 % interval"].map((name) => (
            <th key={name} scope="col" class="number">
              {name}
            </th>
          ))}
        </tr>
      </thead>
      <tbody>
        {counts.groups.map((group) => (
          <tr key={group.label}>
            <th scope="row">
              {group.label}
              <ShareBar share={group.share} />
            </th>
            <td class="number" data-of={`${counts.unit}s`}>
              {group.count.toLocaleString("en")}
            </td>
            <td class="number" data-of="of">
              {group.of.toLocaleString("en")}
            </td>
            <td class="number" data-of="share">
              {percentText(group.share)}
            </td>
            <td class="number" data-of="95 % interval">
              {percentText(group.low)} to {percentText(group.high)}
              {group.small && " (few)"}
            </td>
          </tr>
        ))}
      </tbody>
    </table>
  </div>
);

/** What is counted of a question; nothing is asked for without a fact to count by. */
export const useCounts = (question: string, by: string, share: string): Answered<Counts> =>
  useAnswer(
    "count",
    by === "" ? undefined : { question, by: by.split(","), share: share === "" ? undefined : share },
  );

const ShownCounts = ({ counts: { answer, error }, share }: { counts: Answered<Counts>; share: string }) => {
  if (error) return <ErrorMessage error={error} />;
  if (!answer) return <p role="status">Counting …</p>;
  return (
    <section aria-label="How often">
      <Totals counts={answer} share={share} />
      {answer.chart && (
        <div class="wide of-chart" tabIndex={0} role="region" aria-label="Chart">
          <img
            class="chart"
            alt={`Chart of the table below: ${answer.by.map(splitInWords).join(" and ")}`}
            src={`data:image/svg+xml,${encodeURIComponent(answer.chart)}`}
          />
        </div>
      )}
      {answer.by.length > 1 && answer.groups.length > 0 ? (
        <>
          <CrossTable counts={answer} sharing={answer.share !== null} />
          <Folded title="Each by itself, with its interval">{() => <Groups counts={answer} />}</Folded>
        </>
      ) : (
        answer.groups.length > 0 && <Groups counts={answer} />
      )}
    </section>
  );
};

const nameOf = (split: string) => split.split(":")[0];

/** The width of bands, taken when the field is left: what is typed stays while counts come. */
const BandField = ({ value, onChange }: { value: string; onChange: (band: string) => void }) => {
  const [text, setText] = useState(value);
  useEffect(() => setText(value), [value]);
  return (
    <label>
      in steps of
      <input
        type="text"
        inputMode="decimal"
        size={8}
        value={text}
        placeholder="1"
        onInput={(event) => setText(event.currentTarget.value)}
        onChange={() => onChange(text.trim())}
      />
    </label>
  );
};

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
  splits: Splits;
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
        <BandField value={band} onChange={(typed) => onChange(typed === "" ? name : `${name}:${typed}`)} />
      )}
    </>
  );
};

/** The share's question, taken when the field is left. */
const ShareField = ({ value, onChange }: { value: string; onChange: (share: string) => void }) => {
  const [text, setText] = useState(value);
  useEffect(() => setText(value), [value]);
  return (
    <TextField
      label="share in which"
      value={text}
      placeholder="defender held"
      onInput={setText}
      onChange={() => onChange(text)}
    />
  );
};

export const CountsForm = ({
  counts,
  by,
  share,
  splits,
  onChange,
}: {
  counts: Answered<Counts>;
  /** Names of facts with commas between. */
  by: string;
  share: string;
  splits: Splits;
  onChange: (change: { by: string } | { share: string }) => void;
}) => {
  const parts = by === "" ? [] : by.split(",");
  const setPart = (n: number, value: string) =>
    onChange({ by: [...parts.slice(0, n), value, ...parts.slice(n + 1)].filter((one) => one).join(",") });
  return (
    <section class="counts" aria-label="How often, and by what">
      <div class="form">
        {["by", "and by"].map((label, n) => (
          <SplitChoice
            key={n}
            label={label}
            value={parts[n] ?? ""}
            disabled={n > parts.length}
            splits={splits.filter(({ name }) => n === 0 || name !== nameOf(parts[0] ?? ""))}
            onChange={(value) => setPart(n, value)}
          />
        ))}
        <ShareField value={share} onChange={(value) => onChange({ share: value })} />
      </div>
      <ShownCounts counts={counts} share={share} />
    </section>
  );
};
