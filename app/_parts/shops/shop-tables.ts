import { columnSays, ratioSays, valueSays } from '../../../lib/charts/index.ts';
import type { Finding, Series } from '../../../shared/finding.ts';
import { percentSign } from '../../../shared/percent-sign.ts';

/** A plain table of texts: a row a thing, a column a group or a step. */
export interface PlainTable {
  readonly heads: readonly string[];
  readonly rows: readonly { readonly name: string; readonly cells: readonly string[] }[];
}

const named = (finding: Finding, name: string): Series[] => finding.series.filter((one) => one.name === name);
const labels = ({ groups }: Finding): string[] => groups.map(({ label }) => label);
const byLabel = (of: readonly Series[], label: string) => of.find(({ group }) => group === label)?.columns;
const percent = (share: number | null | undefined): string =>
  share == null ? '—' : `${(share * 100).toFixed(0)}${percentSign}`;

export const shopSays = ({ settings }: Finding, label: string): string => valueSays(settings.by[0] ?? 'shop', label);

const stepWords: Readonly<Record<string, string>> = { watched: 'per mile watched', age: '+ age' };

/** Each group's ratio as one more thing is taken into account: from crude to like for like. */
export function stepTable(finding: Finding): PlainTable | null {
  const steps = named(finding, 'steps');
  const [first] = steps;
  if (!first) return null;
  const names = Object.keys(first.columns);
  const watched = finding.settings.axis === 'months' ? 'per month watched' : stepWords['watched'];
  return {
    heads: names.map((name) => (name === 'watched' ? (watched ?? '') : (stepWords[name] ?? `+ ${columnSays(name)}`))),
    rows: labels(finding).map((label) => ({
      name: shopSays(finding, label),
      cells: names.map((name) => {
        const value = byLabel(steps, label)?.[name]?.[0];
        return value == null ? '—' : ratioSays(value, null, null);
      }),
    })),
  };
}

interface NamedTable extends PlainTable {
  readonly column: string;
}

/** What share of its watched distance each group has of each kind of work. */
export function mixTables(finding: Finding): NamedTable[] {
  const names = [...new Set(finding.series.map(({ name }) => name))].filter((name) => name.startsWith('mix '));
  return names.map((name) => {
    const column = name.slice('mix '.length);
    const own = named(finding, name);
    const values = Object.keys(own[0]?.columns ?? {});
    return {
      column,
      heads: values.map((value) => valueSays(column, value)),
      rows: labels(finding).map((label) => ({
        name: shopSays(finding, label),
        cells: values.map((value) => percent(byLabel(own, label)?.[value]?.[0])),
      })),
    };
  });
}

/** Of the lives that tell of a deviation, the share that carries it, by group; the last row is how much is told at all. */
export function deviationRows(finding: Finding): PlainTable | null {
  const names = [...new Set(finding.series.map(({ name }) => name))].filter((name) => name.startsWith('deviation '));
  if (names.length === 0) return null;
  const rows = names.map((name) => {
    const own = named(finding, name);
    return {
      name: valueSays('deviation', name.slice('deviation '.length)),
      cells: labels(finding).map((label) => {
        const count = (word: string) => byLabel(own, label)?.[word]?.[0] ?? 0;
        const told = count('yes') + count('no');
        return told === 0
          ? 'not told'
          : `${((count('yes') / told) * 100).toFixed(1)}${percentSign} of ${told.toLocaleString('en-US')}`;
      }),
    };
  });
  const told = finding.groups.map(({ estimates }) => percent(estimates['deviationsTold']?.value));
  return {
    heads: labels(finding).map((label) => shopSays(finding, label)),
    rows: [...rows, { name: 'written down of what could be', cells: told }],
  };
}
