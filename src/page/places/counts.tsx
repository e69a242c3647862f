// How often: the answers of a question counted by one or two facts, with the share in which something more is true.

import { useEffect, useState } from "preact/hooks";

import { type Answered, useAnswer } from "../call-hooks.js";
import type { AnswerTo } from "../calls.js";
import { ErrorMessage, TextField, capital, counted } from "../parts.js";

type Counts = AnswerTo<"count">;
type Splits = AnswerTo<"words">["splits"];

const percent = (share: number | null) => (share === null ? "–" : `${(100 * share).toFixed(1)} %`);

/** How many match, and in what share of them something more is true. */
const Totals = ({ counts, share }: { counts: Counts; share: string }) => (
  <p>
    <b class="figures">{counts.matching.toLocaleString("en")}</b> of {counted(counts.of, counts.unit)}
    {counts.share && counts.share.share !== null && (
      <>
        ; in {counts.share.count} of {counts.share.of} of them ({percent(counts.share.share)}, 95 % interval{" "}
        {percent(counts.share.low)} to {percent(counts.share.high)}): {share}
      </>
    )}
    . <span class="small">{capital(counts.leftOut)}.</span>
  </p>
);

/** A fact that is counted by, and the width of its bands: "defender rating in steps of 200". */
const splitInWords = (split: string): string => {
  const [name, band] = split.split(":") as [string, string?];
  return name.replaceAll("-", " ") + (band ? ` in steps of ${band}` : "");
};

const Groups = ({ counts }: { counts: Counts }) => (
  <div class="wide" tabIndex={0} role="region" aria-label="Table of counts">
    <table>
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
            <th scope="row">{group.label}</th>
            <td class="number">{group.count}</td>
            <td class="number">{group.of}</td>
            <td class="number">{percent(group.share)}</td>
            <td class="number">
              {percent(group.low)} to {percent(group.high)}
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
        <div class="wide" tabIndex={0} role="region" aria-label="Chart">
          <img
            class="chart"
            alt={`Chart of the table below: ${answer.by.map(splitInWords).join(" and ")}`}
            src={`data:image/svg+xml,${encodeURIComponent(answer.chart)}`}
          />
        </div>
      )}
      {answer.groups.length > 0 && <Groups counts={answer} />}
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
