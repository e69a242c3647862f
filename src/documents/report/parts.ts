// What a report is made of: sections of paragraphs, tables and charts; the columns that many tables share.

import type { Exclusion } from "../../store/exclusions.js";
import type { Question } from "../../query/language/ast.js";
import type { NamedSetUp } from "../../query/language/catalogue.js";
import type { Split } from "../../query/engine/splits.js";
import { SMALL } from "../../statistics/proportion.js";
import type { Rule } from "../../statistics/moves-made.js";
import type { Theory } from "../../survey/theory.js";
import type { Table } from "../tables.js";

export interface ReportAsked {
  readonly question: Question;
  readonly leaveOut: readonly Exclusion[];
  /** Outcomes are split by each of these, facts of endings. */
  readonly by: readonly Split[];
  readonly setUps: readonly NamedSetUp[];
  /** A set-up from which time is counted too. */
  readonly from?: NamedSetUp;
  /** What positions are worth by. */
  readonly rule: Rule;
  /** One for each set-up. */
  readonly theory: readonly Theory[];
}

export interface Chart {
  /** File name of its SVG. */
  readonly id: string;
  readonly svg: string;
  readonly caption: string;
}

/** What is behind the reading goes to the appendix; everything is written as files too. */
export type Part = ({ readonly table: Table } | { readonly chart: Chart }) & { readonly appendix?: boolean };

export interface Section {
  readonly title: string;
  readonly paragraphs: readonly string[];
  readonly parts: readonly Part[];
  /** Tables for other programs only. */
  readonly files?: readonly Table[];
}

export const SMALL_NOTE = `* fewer than ${SMALL}: trust the interval, not the share. Intervals: 95 %, games of one player taken together.`;

/** Columns of text, of counts, and of a share with its interval. */
export const text = (name: string, head: string) => ({ name, head, kind: "text" }) as const;
export const whole = (name: string, head: string) => ({ name, head, kind: "count" }) as const;
export const shareColumn = (head: string) => ({ name: "share", head, kind: "share" }) as const;

/** The design effect of a share: how many times its variance is that of independent cases. */
export const effectColumn = { name: "effect", head: "design effect", kind: "decimal" } as const;
