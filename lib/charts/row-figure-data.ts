import { shownLimits, type Finding, type Group } from '../../shared/finding.ts';
import type { UnitSystem } from '../../shared/units.ts';
import { ticksWithin } from './nice-axis.ts';
import { ratioAxis, type Scale } from './ratio-axis.ts';
import { groupNamed } from './plain-words.ts';
import { intervalText, shownQuantity, type ShownQuantity } from './shown-number.ts';

/** One quantity drawn for every row on its own axis. */
export interface Panel {
  readonly estimate: string;
  /** What the axis counts, with its unit; the short form where the axis is narrow. */
  readonly title: (system: UnitSystem) => string;
  readonly shortTitle: (system: UnitSystem) => string;
  /** Largest shown value of the axis where the quantity has one, such as 100 % of a share. */
  readonly ceiling?: number;
  /** Names of two estimates between which the value lies whatever the unknowns were. */
  readonly bounds?: readonly [string, string];
  /** A ratio: the axis counts in times, as far either way of a line at 1. */
  readonly ratio?: true;
  /** Further estimates of the row, a small mark each beneath its dot: a diamond, then a square. */
  readonly beneath?: readonly string[];
  /** An estimate whose limits are drawn as a pale band behind the row: what chance alone shows. */
  readonly behind?: string;
  /** The row's words end with how firm it is. */
  readonly firmness?: true;
  /** Names are sentences: they stand over their rows where there is no room beside them. */
  readonly longNames?: true;
  /** A value without either limit has no interval at all, rather than one that is open both ways. */
  readonly bare?: true;
  /** The first row's limits run through all rows, for the others to be held against. */
  readonly band?: true;
  /** What is said of a row without such a number, where it is what the others are held against. */
  readonly reference?: string;
}

export interface PanelRow {
  readonly group: string;
  readonly row: number;
  readonly value: number | null;
  readonly lower: number;
  readonly upper: number;
  /** The interval runs on past the axis, or has no end at that side. */
  readonly openUp: boolean;
  readonly openDown: boolean;
  readonly boundLower: number | null;
  readonly boundUpper: number | null;
  /** Those of the panel's `beneath` that have a value on the axis. */
  readonly beneath: readonly { readonly value: number; readonly mark: number }[];
  /** Ends of the band behind the row on the axis, where it has one. */
  readonly behind: readonly [number, number] | null;
  readonly text: string;
  /** Of a row without a value, in a few words. */
  readonly brief: string;
}

export interface PanelData {
  readonly panel: Panel;
  readonly title: string;
  readonly shortTitle: string;
  readonly scale: Scale;
  readonly rows: readonly PanelRow[];
}

export const mostRows = 24;

/** Groups that stand in an order of their own, not one among equals. */
const inTheirOrder: ReadonlySet<string> = new Set(['causes', 'after-change', 'savings']);

/**
 * The groups a figure of rows can hold, in the finding's order: where there are too many the first of
 * a ranking, else those with most miles.
 */
export function figureRows(finding: Finding, most: number): { drawn: readonly Group[]; leftOut: readonly string[] } {
  const byMiles = () => [...finding.groups].sort((a, b) => b.miles - a.miles);
  const kept = new Set((inTheirOrder.has(finding.question) ? finding.groups : byMiles()).slice(0, most));
  const drawn = finding.groups.filter((group) => kept.has(group));
  return { drawn, leftOut: finding.groups.filter((group) => !kept.has(group)).map(({ by }) => groupNamed(by)) };
}

/** The axis ends a little past every value and the limits that lie near them; a bound far beyond would flatten the rest. */
function axisOf(panel: Panel, values: readonly number[], uppers: readonly number[], mostTicks: number): Scale {
  const largest = Math.max(0, ...values);
  const room = largest > 0 ? largest * 2.5 : Math.max(0, ...uppers);
  const reach = Math.max(largest, ...uppers.filter((upper) => upper <= room)) * 1.04 || 1;
  const end = Math.min(reach, panel.ceiling ?? reach);
  const ticks = ticksWithin(end, mostTicks);
  // A saving can lie below nothing; every other quantity starts at it.
  const start = Math.min(0, ...values) * 1.1;
  return { start, end, ticks, share: (value) => (value - start) / (end - start) };
}

export function panelData(panel: Panel, groups: readonly Group[], system: UnitSystem, mostTicks: number): PanelData {
  const shown = groups.map((group) => {
    const estimate = group.estimates[panel.estimate];
    const quantity = shownQuantity(estimate?.unit ?? '', system);
    const limits = estimate ? shownLimits(estimate) : { lower: null, upper: null };
    const scaled = (value: number | null | undefined) => (value == null ? null : value * quantity.factor);
    const bound = (name: string | undefined) => scaled(name === undefined ? null : group.estimates[name]?.value);
    return {
      ...{ group, estimate, quantity, value: scaled(estimate?.value) },
      ...{ lower: scaled(limits.lower), upper: scaled(limits.upper) },
      ...{ boundLower: bound(panel.bounds?.[0]), boundUpper: bound(panel.bounds?.[1]) },
      beneath: (panel.beneath ?? []).map(bound),
    };
  });
  const known = (values: readonly (number | null)[]) => values.filter((value) => value !== null);
  const values = known(shown.flatMap((row) => [row.value, row.boundUpper, ...row.beneath]));
  const [lowers, uppers] = [known(shown.map(({ lower }) => lower)), known(shown.map(({ upper }) => upper))];
  const bands = known(groups.flatMap((group) => bandOf(panel, group) ?? []));
  const scale = panel.ratio
    ? ratioAxis(values, [...lowers, ...uppers, ...bands])
    : axisOf(panel, values, uppers, mostTicks);
  const { start, end } = scale;
  const past = (limit: number | null) => limit === null || limit > end * (1 + 1e-9);
  const short = (limit: number | null) => limit === null || limit < start * (1 - 1e-9);
  const whole = shown.map((row) => {
    const isBare = panel.bare === true && row.lower === null && row.upper === null;
    return isBare ? { ...row, lower: row.value, upper: row.value } : row;
  });
  const rows = whole.map((row, index): PanelRow => ({
    ...{ group: row.group.label, row: index, value: row.value },
    lower: Math.min(end, Math.max(start, row.lower ?? start)),
    openDown: short(row.lower) && (row.value !== null || row.upper !== null),
    upper: Math.max(start, past(row.upper) ? end : (row.upper as number)),
    openUp: past(row.upper) && (row.value !== null || row.lower !== null),
    ...{ boundLower: row.boundLower, boundUpper: row.boundUpper },
    beneath: row.beneath.flatMap((value, mark) =>
      value === null || value < start || value > end ? [] : [{ value, mark }],
    ),
    behind: bandOn([start, end], bandOf(panel, row.group)),
    text: row.estimate
      ? rowText(row.value, row.estimate, row.quantity, panel.firmness ? row.group : null)
      : (panel.reference ?? ''),
    brief: row.estimate ? (panel.firmness ? `${row.group.failures} failed` : 'cannot tell') : (panel.reference ?? ''),
  }));
  return { panel, title: panel.title(system), shortTitle: panel.shortTitle(system), scale, rows };
}

function bandOf({ behind }: Panel, { estimates }: Group): readonly [number, number] | null {
  const estimate = behind === undefined ? undefined : estimates[behind];
  return estimate?.lower == null || estimate.upper === null ? null : [estimate.lower, estimate.upper];
}

const bandOn = ([start, end]: readonly [number, number], band: readonly [number, number] | null): PanelRow['behind'] =>
  band === null ? null : [Math.max(start, band[0]), Math.min(end, band[1])];

function rowText(
  value: number | null,
  estimate: NonNullable<Group['estimates'][string]>,
  quantity: ShownQuantity,
  told: Group | null,
): string {
  const interval = intervalText(estimate, quantity);
  const firmness = told === null ? '' : ` ${told.firmness}`;
  if (value === null && told !== null)
    return interval === '' ? `not compared: ${told.failures} failed` : `${told.failures} failed; bounds ${interval}`;
  if (value === null) return interval === '' ? 'cannot tell' : interval;
  return `${interval === '' ? quantity.text(value) : `${quantity.text(value)} (${interval})`}${firmness}`;
}
