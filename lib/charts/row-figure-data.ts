import { shownLimits, type Finding, type Group } from '../../shared/finding.ts';
import type { UnitSystem } from '../../shared/units.ts';
import { niceAxis } from './nice-axis.ts';
import { groupSays } from './plain-words.ts';
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
  readonly text: string;
}

export interface PanelData {
  readonly panel: Panel;
  readonly title: string;
  readonly shortTitle: string;
  readonly end: number;
  readonly ticks: readonly number[];
  readonly rows: readonly PanelRow[];
}

export const mostRows = 24;

/** The groups a figure of rows can hold: those with most miles where there are too many, in the finding's order. */
export function figureRows(finding: Finding, most: number): { drawn: readonly Group[]; leftOut: readonly string[] } {
  const kept = new Set([...finding.groups].sort((a, b) => b.miles - a.miles).slice(0, most));
  const drawn = finding.groups.filter((group) => kept.has(group));
  return { drawn, leftOut: finding.groups.filter((group) => !kept.has(group)).map(({ by }) => groupSays(by)) };
}

/** The axis ends a little past every value and the limits that lie near them; a bound far beyond would flatten the rest. */
function axisOf(panel: Panel, values: readonly number[], uppers: readonly number[], mostTicks: number) {
  const largest = Math.max(0, ...values);
  const room = largest > 0 ? largest * 2.5 : Math.max(0, ...uppers);
  const reach = Math.max(largest, ...uppers.filter((upper) => upper <= room)) * 1.04 || 1;
  const end = Math.min(reach, panel.ceiling ?? reach);
  return { end, ticks: niceAxis(end, mostTicks).ticks.filter((tick) => tick <= end) };
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
    };
  });
  const known = (values: readonly (number | null)[]) => values.filter((value) => value !== null);
  const values = known(shown.flatMap((row) => [row.value, row.boundUpper]));
  const { end, ticks } = axisOf(panel, values, known(shown.map(({ upper }) => upper)), mostTicks);
  const rows = shown.map((row, index): PanelRow => ({
    ...{ group: row.group.label, row: index, value: row.value },
    ...{ lower: Math.min(end, row.lower ?? 0), openDown: row.lower === null && row.value !== null },
    upper: row.upper === null || row.upper > end ? end : row.upper,
    openUp: (row.upper === null || row.upper > end * (1 + 1e-9)) && (row.value !== null || row.lower !== null),
    ...{ boundLower: row.boundLower, boundUpper: row.boundUpper },
    text: row.estimate ? rowText(row.value, row.estimate, row.quantity) : '',
  }));
  return { panel, title: panel.title(system), shortTitle: panel.shortTitle(system), end, ticks, rows };
}

function rowText(
  value: number | null,
  estimate: NonNullable<Group['estimates'][string]>,
  quantity: ShownQuantity,
): string {
  const interval = intervalText(estimate, quantity);
  if (value === null) return interval === '' ? 'cannot tell' : interval;
  return interval === '' ? quantity.text(value) : `${quantity.text(value)} (${interval})`;
}
