import { fedTables, neededColumns, type ColumnMap } from '../../../../shared/column-map.ts';
import { tableNames, type TableName } from '../../../../shared/record-tables.ts';
import type { MapChange } from '../change-map.ts';
import type { ColumnProfile } from './column-profile.ts';
import { dayOf } from './column-sources.ts';
import type { Ask } from './proposal.ts';

export interface FileFacts {
  readonly fileName: string;
  readonly map: ColumnMap;
  readonly profiles: readonly ColumnProfile[];
  /** A date that may be read in two orders, where no other date of the file tells. */
  readonly dateExample: string | null;
  readonly decimalKnown: boolean;
  /** Whether its columns leave hardly another table. */
  readonly sure: boolean;
  /** Words of rows that look like inspections and say nothing of what was seen. */
  readonly unseen: readonly string[];
}

/** What the file as a whole leaves open. */
export function fileAsks(facts: FileFacts): Ask[] {
  const { map } = facts;
  const fed = fedTables(map.feeds);
  return [
    ...tableAsk(facts),
    ...unseenAsk(facts),
    ...dateOrderAsk(facts),
    ...decimalAsk(facts),
    ...fed.flatMap((table) => neededAsks(table, facts)),
    ...fed.flatMap((table) => dayAsk(table, map)),
    ...shopAsk(facts, fed),
  ];
}

const tableSays: Readonly<Record<TableName, string>> = {
  units: 'units: one row per vehicle',
  readings: 'readings: of odometers',
  services: 'services: work done on wheel ends',
  inspections: 'inspections: looks at wheel ends',
  failures: 'failures: what failed',
};

function tableAsk({ map, sure }: FileFacts): Ask[] {
  if (!('table' in map.feeds) || sure) return [];
  const own = map.feeds.table;
  const options = [own, ...tableNames.filter((table) => table !== own)].map((table) => ({
    label: tableSays[table],
    set: table === own ? [] : [{ path: ['feeds'], value: { table } }],
  }));
  return [{ id: 'table', question: `What is each row of this file? It looks like ${tableSays[own]}.`, options }];
}

/** Rows that would be passed over without a word. */
function unseenAsk({ map, unseen }: FileFacts): Ask[] {
  if (!('by' in map.feeds) || unseen.length === 0) return [];
  const words = unseen.map((word) => `"${word}"`).join(', ');
  const question = `Rows whose "${map.feeds.by}" is ${words} say neither what was done nor what was seen, and are passed over. All the same?`;
  return [{ id: 'unseen', question, options: [{ label: 'Yes, pass them over', set: [] }] }];
}

const months = 'January February March April May June July August September October November December'.split(' ');

function dateOrderAsk({ dateExample }: FileFacts): Ask[] {
  if (dateExample === null) return [];
  const [first = 1, second = 1] = dateExample.split(/\D+/).filter(Boolean).map(Number);
  const says = (day: number, month: number) => `${day} ${months[month - 1] ?? ''}`;
  const set = (order: string): MapChange[] => [{ path: ['dates', 'order'], value: order }];
  return [
    {
      id: 'date order',
      question: `No date of this file tells day from month. What is ${dateExample}?`,
      options: [
        { label: `${says(second, first)}: month, day, year`, set: set('mdy') },
        { label: `${says(first, second)}: day, month, year`, set: set('dmy') },
      ],
    },
  ];
}

/** `12.345` miles may be twelve, or twelve thousand. */
function decimalAsk({ decimalKnown, profiles }: FileFacts): Ask[] {
  if (decimalKnown) return [];
  const grouped = /^\d{1,3}[.,]\d{3}$/;
  const example = profiles.flatMap(({ texts }) => texts.slice(0, 50)).find(([text]) => grouped.test(text))?.[0];
  if (example === undefined) return [];
  const whole = example.replace(/[.,]/, '');
  const groupedBy = example.includes('.') ? 'comma' : 'point';
  const set = (decimal: string): MapChange[] => [{ path: ['numbers', 'decimal'], value: decimal }];
  return [
    {
      id: 'decimal',
      question: `What is the number ${example}?`,
      options: [
        { label: `${whole}: the mark parts thousands`, set: set(groupedBy) },
        {
          label: `${example.replace(',', '.')}: the mark is the decimal mark`,
          set: set(groupedBy === 'comma' ? 'point' : 'comma'),
        },
      ],
    },
  ];
}

/** Some days of such a column may be mistyped. */
export const dayColumns = (profiles: readonly ColumnProfile[]): ColumnProfile[] =>
  profiles.filter(({ filled, dates }) => filled > 0 && dates > 0.7);

/** Columns that the table needs and the file may well leave out, since they are the same in all its rows. */
function neededAsks(table: TableName, { map, profiles }: FileFacts): Ask[] {
  const has = new Set((map.tables[table] ?? []).map(({ ours }) => ours));
  const missing = neededColumns(table).filter((name) => !has.has(name));
  const at = (map.tables[table] ?? []).length;
  const fixed = (ours: string, value: string): MapChange[] => [
    { path: ['tables', table, at], value: { ours, fixed: value } },
  ];
  const from = (ours: string, header: string): MapChange[] => [
    { path: ['tables', table, at], value: { ours, from: [{ header }], ...dayOf(ours, header) } },
  ];
  return missing.map((ours): Ask => {
    if (ours === 'checked')
      return {
        id: `${table} checked`,
        question: 'No column says whether a wheel end was looked at. Does a row stand only for one that was?',
        options: [{ label: 'Yes, each row is a check made', set: fixed('checked', 'yes') }],
      };
    if (ours === 'mode')
      return {
        id: `${table} mode`,
        question: 'No column says what failed. What does this list hold?',
        options: [
          { label: 'Seal leaks only, the path unknown', set: fixed('mode', 'seal-unknown') },
          { label: 'Failures of any kind', set: fixed('mode', 'other') },
        ],
      };
    return {
      id: `${table} ${ours}`,
      question: `Which column says ${ours.replaceAll('_', ' ')}? ${table} need it.`,
      options:
        ours === 'date' ? dayColumns(profiles).map(({ header }) => ({ label: header, set: from(ours, header) })) : [],
    };
  });
}

/** A day of opening or closing an order, where no day of the work itself was found. */
function dayAsk(table: TableName, map: ColumnMap): Ask[] {
  const date = map.tables[table]?.find(({ ours, day }) => ours === 'date' && (day === 'closed' || day === 'opened'));
  const header = date?.from?.[0]?.header;
  if (!date || header === undefined) return [];
  const what = date.day === 'closed' ? 'closed' : 'opened';
  const question = `"${header}" is when the order was ${what}, and no column says when the work was done. Take it all the same?`;
  return [{ id: `${table} day`, question, options: [{ label: `Yes, as the day it was ${what}`, set: [] }] }];
}

const general =
  /^(services?|failures?|inspections?|units?|readings?|wo|work|orders?|repairs?|history|export|report|list|data|shop|fleet|all|new|file|table|sheet|csv|hub|wheel|ends?|\d+)$/i;

/** A file whose name may be that of the shop all its rows are from. */
function shopAsk({ fileName, map }: FileFacts, fed: readonly TableName[]): Ask[] {
  if (!fed.includes('services') || map.tables.services?.some(({ ours }) => ours === 'shop')) return [];
  const words = fileName
    .replace(/^.*[\\/]/, '')
    .replace(/\..*$/, '')
    .split(/[^\p{L}\p{N}]+/u);
  const name = words.find((word) => word.length > 1 && !general.test(word));
  const at = map.tables.services?.length ?? 0;
  const question = 'No column says which shop did the work. Is all of this file the work of one?';
  const leave = { label: 'Leave the shop unknown', set: [] };
  if (name === undefined) return [{ id: 'shop', question, options: [leave] }];
  const shop = `${name.slice(0, 1).toUpperCase()}${name.slice(1)}`;
  return [
    {
      id: 'shop',
      question,
      options: [
        { label: `Yes, of ${shop}`, set: [{ path: ['tables', 'services', at], value: { ours: 'shop', fixed: shop } }] },
        leave,
      ],
    },
  ];
}
