import { findingTable, groupSays } from '../charts/index.ts';
import type { Finding } from '../../shared/finding.ts';
import type { UnitSystem } from '../../shared/units.ts';
import { textTable } from './text-table.ts';

/** The numbers of a finding as aligned text; what a number lacks is said below. */
export function findingTableText(finding: Finding, units: UnitSystem): string {
  const { columns, rows } = findingTable(finding, units);
  const notes: string[] = [];
  const body = rows.map(({ cells }) =>
    cells.map(({ text, detail, note }) => {
      if (note !== '' && !notes.includes(note)) notes.push(note);
      const mark = note === '' ? '' : ` [${notes.indexOf(note) + 1}]`;
      return `${text}${detail === '' ? '' : ` (${detail})`}${mark}`;
    }),
  );
  const head = columns.map((column) => (column.unit === '' ? column.head : `${column.head} (${column.unit})`));
  return [textTable(head, body), ...notes.map((note, index) => `[${index + 1}] ${note}`)].join('\n');
}

/** What is said of single groups, where something is. */
function notesOf({ groups }: Finding): string[] {
  const told = groups.filter(({ lives, notes = [] }) => lives > 0 && notes.length > 0);
  if (told.length === 0) return [];
  return [
    'Each by itself',
    ...told.flatMap(({ by, notes = [] }) => [groupSays(by), ...notes.map((note) => `  - ${note}`)]),
    '',
  ];
}

/** A finding in words, its numbers, its doubts with the failing ones first, and the cautions. */
export function findingText(finding: Finding, units: UnitSystem): string {
  const doubts = finding.doubts.map(
    ({ name, state, detail, settledBy }) =>
      `${state === 'holds' ? '·' : '†'} ${name}. ${detail} Settled by: ${settledBy}.`,
  );
  return [
    finding.title,
    '',
    finding.answer,
    finding.asks ?? `Firmness: ${finding.firmness}. ${finding.firmnessReason}`,
    ...(finding.further === undefined ? [] : [finding.further]),
    ...(finding.data.invented ? ['Invented records: no number here is about a real fleet.'] : []),
    '',
    findingTableText(finding, units),
    '',
    ...notesOf(finding),
    'Doubts († stands against the answer or cannot be told, · was checked and holds)',
    ...doubts,
    '',
    'Cautions',
    ...finding.cautions.map((caution) => `- ${caution}`),
  ].join('\n');
}
