import { positionColumn, positionedTables, type ColumnPart, type ColumnSource } from '../../../../shared/column-map.ts';
import { recordTables, type RecordColumn, type TableName } from '../../../../shared/record-tables.ts';
import { cellUnitFacts } from '../../../../shared/units.ts';
import { quantityOf, unitsOf } from '../column-quantity.ts';
import { unitNamed } from '../number-text.ts';
import { assignColumns, axlePart, sidePart, type Assigned } from './assign-columns.ts';
import type { ColumnProfile } from './column-profile.ts';
import { listMarks, partOf, wordsOf } from './column-words.ts';
import { closedWords, headerWords, openedWords } from './header-words.ts';
import { partFlags } from './part-flags.ts';
import type { Ask, ProposedColumn } from './proposal.ts';
import { isMode } from './rows-feed.ts';
import { unitOf } from './unit-of-column.ts';

/** What fills the columns of one table, why, and what is open about it. */
export interface TableProposal {
  readonly sources: ColumnSource[];
  readonly columns: ProposedColumn[];
  readonly asks: Ask[];
  /** The columns of theirs behind each of ours. */
  readonly profiles: ReadonlyMap<string, readonly ColumnProfile[]>;
}

const idOf = (table: TableName): string | null =>
  ({ services: 'service_id', inspections: 'inspection_id', failures: 'failure_id', units: null, readings: null })[
    table
  ];

/** Proposes the columns of a table from the profiles of the rows that feed it. @param by header that tells these rows from others, if one does */
export function tableProposal(table: TableName, profiles: readonly ColumnProfile[], by: string | null): TableProposal {
  const flags = table === 'services' ? partFlags(profiles) : null;
  const free = flags ? profiles.filter((profile) => !flags.profiles.includes(profile)) : profiles;
  const found = assignColumns(table, free).filter(({ ours }) => ours !== 'replaced' || flags === null);
  const assigned = [...found, ...modeOf(table, found, free, by)];
  const made: TableProposal = { sources: [], columns: [], asks: [], profiles: new Map() };
  const add = (
    source: ColumnSource,
    column: Omit<ProposedColumn, 'table' | 'ours' | 'unknownWords'> & Partial<ProposedColumn>,
    from: readonly ColumnProfile[],
  ) => {
    made.sources.push(source);
    made.columns.push({ table, unknownWords: [], ...column, ours: source.ours });
    (made.profiles as Map<string, readonly ColumnProfile[]>).set(source.ours, from);
  };
  for (const column of recordTables[table]) {
    if (column.name === 'axle' && positionedTables.includes(table)) addPlace(assigned, add);
    const one = assigned.find(({ ours }) => ours === column.name);
    if (one && !(positionedTables.includes(table) && (column.name === 'axle' || column.name === 'side'))) {
      const { source, unknownWords, ask } = sourceOf(column, one, table, made.sources.length);
      const unit = ask === null ? null : unitColumn(column, free, assigned);
      const why = unit ? `${one.why}; "${unit.header}" says the unit of each row` : one.why;
      add(
        unit ? { ...source, unitFrom: { header: unit.header } } : source,
        { confidence: one.confidence, why, unknownWords },
        unit ? [one.profile, unit] : [one.profile],
      );
      if (ask && !unit) made.asks.push(ask);
    } else if (column.name === idOf(table)) {
      const lined = lineId(assigned, free);
      if (lined) add({ ours: column.name, ...lined.source }, { confidence: 0.8, why: lined.why }, lined.profiles);
      else
        add(
          { ours: column.name, made: 'of-row' },
          { confidence: 0.7, why: 'no column has another id in every row: one is made of the whole row' },
          [],
        );
    } else if (column.name === 'replaced' && flags) {
      const why = 'these columns say of one part each whether it was replaced';
      add({ ours: 'replaced', from: [...flags.parts], joined: 'list' }, { confidence: 0.85, why }, flags.profiles);
    }
  }
  return made;
}

/** The one column beside those that are known whose cells are units such as this column's. */
function unitColumn(
  column: RecordColumn,
  profiles: readonly ColumnProfile[],
  assigned: readonly Assigned[],
): ColumnProfile | null {
  const quantity = quantityOf(column);
  const isUnit = (text: string) => {
    const unit = unitNamed(text);
    return unit !== undefined && cellUnitFacts[unit].quantity === quantity;
  };
  const found = profiles.filter(
    (profile) =>
      profile.filled > 0 &&
      !assigned.some((one) => one.profile === profile) &&
      profile.texts.length <= 6 &&
      profile.texts.every(([text]) => isUnit(text)),
  );
  return found.length === 1 ? (found[0] ?? null) : null;
}

/** What failed, where the column that tells failures from other rows says it. */
function modeOf(
  table: TableName,
  found: readonly Assigned[],
  profiles: readonly ColumnProfile[],
  by: string | null,
): Assigned[] {
  const profile = profiles.find(({ header }) => header === by);
  if (table !== 'failures' || found.some(({ ours }) => ours === 'mode') || !profile || !isMode(profile)) return [];
  return [{ ours: 'mode', profile, confidence: 0.6, why: 'its words say what failed' }];
}

type Add = (source: ColumnSource, column: { confidence: number; why: string }, from: readonly ColumnProfile[]) => void;

/** The place from one column, or from one for the axle and one for the side. */
function addPlace(assigned: readonly Assigned[], add: Add): void {
  const of = (ours: string) => assigned.find((one) => one.ours === ours);
  const [place, side] = [of(positionColumn) ?? of(axlePart), of(sidePart)];
  if (!place) return;
  const from: ColumnPart[] = [{ header: place.profile.header }];
  if (!side) {
    const { confidence, why } = place;
    add({ ours: positionColumn, from }, { confidence, why }, [place.profile]);
    return;
  }
  from.push({ header: side.profile.header, only: 'side' });
  const why = `${place.why}; "${side.profile.header}" says the side`;
  add(
    { ours: positionColumn, from, joined: 'space' },
    { confidence: Math.min(place.confidence, side.confidence), why },
    [place.profile, side.profile],
  );
}

/** An order number and a line number that together are different in every row. */
function lineId(assigned: readonly Assigned[], profiles: readonly ColumnProfile[]) {
  const order = assigned.find(({ ours }) => ours === 'order_id')?.profile;
  const line = profiles.find(
    ({ header, numbers }) =>
      numbers > 0.9 && headerWords(header).some((word) => /^(line|item|seq|sequence|lfd|zeile)$/.test(word)),
  );
  if (!order || !line || order === line || !order.pairsWith(line)) return null;
  return {
    source: { from: [{ header: order.header }, { header: line.header }], joined: 'dash' as const },
    why: `"${order.header}" and "${line.header}" together are different in every row`,
    profiles: [order, line],
  };
}

interface SourceMade {
  readonly source: ColumnSource;
  readonly unknownWords: ProposedColumn['unknownWords'];
  readonly ask: Ask | null;
}

/** How one column of the file becomes one of ours. @param at its place among the sources of the table */
export function sourceOf(column: RecordColumn, { profile }: Assigned, table: TableName, at: number): SourceMade {
  const { header } = profile;
  const plain: ColumnSource = { ours: column.name, from: [{ header }] };
  if (column.kind === 'date')
    return { source: { ...plain, ...dayOf(column.name, header) }, unknownWords: [], ask: null };
  const quantity = quantityOf(column);
  if (quantity) {
    const { unit, undecided } = unitOf(profile, quantity);
    const set = (unit: string) => [{ path: ['tables', table, at, 'unit'], value: unit }];
    const options = unitsOf(quantity).map((unit) => ({ label: unit, set: set(unit) }));
    const examples = profile.texts
      .slice(0, 3)
      .map(([text]) => text)
      .join(', ');
    const question = `In which unit is "${header}" (${examples})?`;
    return {
      source: { ...plain, unit },
      unknownWords: [],
      ask: undecided ? { id: `unit ${header}`, question, options } : null,
    };
  }
  const worded = column.choices !== undefined || column.kind === 'integer';
  if (!worded) return { source: plain, unknownWords: [], ask: null };
  const { words, unknown } = wordsOf(profile, column.kind === 'integer' ? { ...column, choices: leakWords } : column);
  const source: ColumnSource = { ours: column.name, from: [partOf(header, words)] };
  const unknownWords = column.kind === 'integer' ? unknown.filter(([word]) => !/^\d+$/.test(word)) : unknown;
  return { source: column.kind === 'list' ? { ...source, partedBy: listMarks } : source, unknownWords, ask: null };
}

const leakWords = ['0', '1', '2', '3'];

/** Whether a column of days is one of opening or closing an order. */
export function dayOf(ours: string, header: string): Partial<ColumnSource> {
  if (ours !== 'date') return {};
  const words = headerWords(header);
  if (words.some((word) => closedWords.has(word))) return { day: 'closed' };
  return words.some((word) => openedWords.has(word)) ? { day: 'opened' } : {};
}
