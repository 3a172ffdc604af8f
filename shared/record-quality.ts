import type { QuestionId } from './finding.ts';
import type { TableName } from './record-tables.ts';

/** What became of one table's rows: read = kept + set aside. */
export interface TableUse {
  readonly table: TableName;
  readonly read: number;
  readonly kept: number;
  readonly setAside: number;
  /** Rows set aside by reason, most first. */
  readonly reasons: readonly { readonly reason: string; readonly rows: number }[];
}

/** How often one field is filled where it could be. */
export interface FieldFilled {
  readonly table: TableName;
  readonly column: string;
  /** Rows in which the field can exist, and those that fill it, by shop in the order of `RecordQuality.shops`. */
  readonly shops: readonly { readonly rows: number; readonly filled: number }[];
  readonly rows: number;
  readonly filled: number;
}

/** Rows of a table by calendar month. */
export interface TableCoverage {
  readonly table: TableName;
  readonly first: string;
  readonly last: string;
  readonly months: readonly { readonly month: string; readonly rows: number }[];
}

/** A stretch in which a shop that writes services wrote none. */
export interface SilentShop {
  readonly shop: string;
  readonly from: string;
  readonly to: string;
  readonly days: number;
  /** Median days between its services otherwise. */
  readonly usualDays: number;
}

/** Rows that should meet other rows and do not. */
export interface BrokenLink {
  readonly name: string;
  readonly rows: number;
  readonly of: number;
  /** Ids of a few of them. */
  readonly examples: readonly string[];
}

/** Checked inspections against the miles run. */
export interface InspectionIntensity {
  readonly by: 'shop' | 'lubricant';
  readonly value: string;
  readonly checks: number;
  readonly miles: number;
}

/** What a weakness of the records does to the answers. */
export interface WeaknessEffect {
  readonly weakness: string;
  readonly effect: string;
  readonly questions: readonly QuestionId[];
}

/**
 * What filling one field in everywhere would do to the interval of the answer that needs it. Limits on the
 * ratio scale are exp(± z · standard error): `now` and `then` are upper over lower.
 */
export interface Narrowing {
  readonly field: string;
  readonly answer: string;
  /** Failures whose lives say what the answer needs, and those that do not. */
  readonly known: number;
  readonly unknown: number;
  readonly now: number;
  readonly then: number;
  /** Part of the interval's length on the log scale that would go: 0 nothing, 1 all. */
  readonly narrower: number;
}

/** Whether the records can be trusted, in numbers. */
export interface RecordQuality {
  readonly observedFrom: string | null;
  readonly observedTo: string | null;
  readonly tables: readonly TableUse[];
  readonly shops: readonly string[];
  readonly fields: readonly FieldFilled[];
  readonly coverage: readonly TableCoverage[];
  readonly silent: readonly SilentShop[];
  readonly links: readonly BrokenLink[];
  readonly intensity: readonly InspectionIntensity[];
  readonly effects: readonly WeaknessEffect[];
  /** Most narrowing first. */
  readonly narrowing: readonly Narrowing[];
}
