import type { Finding, Group } from '../../shared/finding.ts';
import { displayUnit, type UnitSystem } from '../../shared/units.ts';
import { countHeads, estimateHead, estimateOrder } from './estimate-words.ts';
import { otherSideSays } from './other-side-says.ts';
import { columnSays, groupSays, valueSays } from './plain-words.ts';
import { isOnScreen } from './screen-columns.ts';
import { intervalText, shownQuantity } from './shown-number.ts';

export interface TableColumn {
  readonly key: string;
  readonly head: string;
  /** Unit of the numbers below, said once in the head. */
  readonly unit: string;
  readonly number: boolean;
}

export interface TableCell {
  readonly text: string;
  /** The interval of an estimate. */
  readonly detail: string;
  /** Why there is no value. */
  readonly note: string;
  /** What the column sorts by; null sorts last either way. */
  readonly sort: number | string | null;
}

export interface TableRow {
  readonly group: string;
  readonly by: Readonly<Record<string, string>>;
  readonly cells: readonly TableCell[];
}

/** The numbers of a finding as a table: a row a group, in the reader's units. */
export interface FindingTable {
  readonly columns: readonly TableColumn[];
  readonly rows: readonly TableRow[];
}

const whole = (value: number) => value.toLocaleString('en-US');

/** Names in the order in which the groups first show them. */
function namesOf(groups: readonly Group[], pick: (group: Group) => object): string[] {
  return [...new Set(groups.flatMap((group) => Object.keys(pick(group))))];
}

const text = (key: string, head: string): TableColumn => ({ key, head, unit: '', number: false });
const number = (key: string, head: string, unit = ''): TableColumn => ({ key, head, unit, number: true });

/** What the rows are, where they are no values of what the view is cut by. */
const rowHeads: Partial<Record<Finding['question'], string>> = {
  ...{ causes: 'with', rules: 'rule', dose: 'written down', repeats: 'which lives' },
};

/** Whether each group is one of many things ranked, not a value of what the view is cut by. */
const ranked: ReadonlySet<string> = new Set(['causes', 'rules', 'dose', 'repeats', 'after-change', 'savings']);
const ranks = ({ question }: Finding): boolean => ranked.has(question);

/** Days are told of every life or of none. */
const hasYears = ({ groups }: Finding): boolean => groups.some(({ counts }) => counts['wheelEndYears'] !== undefined);

export function findingTable(finding: Finding, system: UnitSystem): FindingTable {
  const { groups } = finding;
  const cuts = ranks(finding) ? [] : finding.settings.by;
  const counts = namesOf(groups, ({ counts: values }) => values).filter(
    (name) => countHeads[name] !== undefined && isOnScreen(finding.question, 'counts', name),
  );
  const estimates = estimateOrder(namesOf(groups, ({ estimates: values }) => values)).filter((name) =>
    isOnScreen(finding.question, 'estimates', name),
  );
  const unitOf = (name: string) => groups.find((group) => group.estimates[name])?.estimates[name]?.unit ?? '';
  const { symbol } = displayUnit('miles', system);
  const columns = [
    ...(cuts.length === 0
      ? [text('group', rowHeads[finding.question] ?? 'group')]
      : cuts.map((column) => text(column, columnSays(column)))),
    number('lives', 'lives'),
    number('failures', 'failures'),
    ...counts.map((name) => number(`count-${name}`, countHeads[name] ?? name)),
    ...(isOnScreen(finding.question, 'counts', 'miles')
      ? [number('miles', 'wheel-end distance', `million ${symbol}`)]
      : []),
    ...(hasYears(finding) ? [number('wheel-end-years', 'wheel-end years')] : []),
    ...estimates.map((name) =>
      number(name, estimateHead(name, finding, system), shownQuantity(unitOf(name), system).symbol),
    ),
    text('firmness', 'firmness'),
  ];
  const rows = groups.map((group) => ({
    group: group.label,
    by: group.by,
    cells: cellsOf(finding, group, { cuts, counts, estimates }, system),
  }));
  return { columns, rows };
}

const firmnessOrder = { firm: 0, fair: 1, thin: 2, 'too few': 3 } as const;
const cell = (text: string, sort: TableCell['sort'], detail = '', note = ''): TableCell => ({
  text,
  detail,
  note,
  sort,
});
const counted = (value: number): TableCell => cell(whole(value), value);

interface Shown {
  readonly cuts: readonly string[];
  readonly counts: readonly string[];
  readonly estimates: readonly string[];
}

function cellsOf(
  { question }: Finding,
  group: Group,
  { cuts, counts, estimates }: Shown,
  system: UnitSystem,
): TableCell[] {
  const years = group.counts['wheelEndYears'];
  const named = cuts.map((column) => group.by[column] ?? 'unknown');
  const millions = (group.miles * displayUnit('miles', system).factor) / 1e6;
  const shownMillions = millions.toLocaleString('en-US', { minimumFractionDigits: 1, maximumFractionDigits: 1 });
  return [
    ...(cuts.length === 0
      ? [cell(groupSays(group.by), groupSays(group.by))]
      : named.map((value, index) => nameCell(cuts[index] ?? '', value))),
    ...[counted(group.lives), counted(group.failures)],
    ...counts.map((name) => counted(group.counts[name] ?? 0)),
    ...(isOnScreen(question, 'counts', 'miles') ? [cell(shownMillions, millions)] : []),
    ...(years === undefined ? [] : [cell(years.toLocaleString('en-US', { maximumFractionDigits: 0 }), years)]),
    ...estimates.map((name) => estimateCell(group, name, system)),
    cell(group.firmness, firmnessOrder[group.firmness]),
  ];
}

/** Names that are numbers (axles, years) sort as numbers. */
function nameCell(column: string, value: string): TableCell {
  const number = /^\d+(\.\d+)?$/.test(value) ? Number(value) : null;
  const says = valueSays(column, value);
  return cell(says, number ?? says);
}

function estimateCell(group: Group, name: string, system: UnitSystem): TableCell {
  const estimate = group.estimates[name];
  if (estimate === undefined) return cell('—', null);
  const quantity = shownQuantity(estimate.unit, system);
  const said = name === 'sameVehicleHazardRatio' ? otherSideSays(group) : null;
  const interval = `${intervalText(estimate, quantity)}${said === null ? '' : ` ${said}`}`;
  if (estimate.value === null) return cell(interval === '' ? '—' : interval, null, '', estimate.reason ?? '');
  const shown = estimate.value * quantity.factor;
  return cell(quantity.text(shown), shown, interval);
}
