import { recordTables, tableOfFile, type TableName } from '../../../../shared/record-tables.ts';
import { neededColumns, passedOver, positionColumn, type Feeds } from '../../../../shared/column-map.ts';
import { patternOf, wordOf } from '../cell-words.ts';
import { assignColumns, axlePart, sidePart } from './assign-columns.ts';
import type { ColumnProfile } from './column-profile.ts';
import { knownShare } from './header-score.ts';
import { headerWords } from './header-words.ts';
import { partFlags } from './part-flags.ts';

type Fed = TableName | typeof passedOver;

/** Words that tell what a row of a mixed list is; the first that fits counts. */
const kinds: readonly (readonly [Fed, string])[] = [
  [
    passedOver,
    '*tire*|*tyre*|*engine*|*electr*|*body*|*hvac*|a/c|*light*|*fuel*|*wash*|*transmission*|*battery*|*clutch*|*glass*|*dpf*|*coolant*|admin*|*regist*|*licen*',
  ],
  [
    'failures',
    'f|fail|*fail*|*leak*|*defect*|*break*down*|*road*call*|*complaint*|*incident*|*found*|*ausfall*|*schaden*|*defaut*',
  ],
  ['inspections', 'i|insp|*inspect*|*check*|*dvir*|*annual*|pm|pm-?|*kontrolle*|*prüf*'],
  [
    'services',
    's|svc|r|rep|*repl*|*r&r*|*r/r*|*install*|*service*|*reseal*|*repair*|*renew*|*rebuild*|*reline*|*seal*|*wheel*end*|*hub*|*bearing*|*brake*|*werkstatt*|*repar*',
  ],
];

const patterns = kinds.map(([fed, words]) => [fed, words.split('|').map(patternOf)] as const);
const kindOf = (text: string): Fed | null =>
  patterns.find(([, tested]) => tested.some((pattern) => pattern.test(wordOf(text))))?.[0] ?? null;

const telling = new Set(['type', 'class', 'record', 'event', 'group', 'operation']);
const tellingHeaders = new Set(['service', 'service comment']);
const mostKinds = 60;

export interface RowsFeed {
  readonly feeds: Feeds;
  /** Whether the columns leave hardly another table. */
  readonly sure: boolean;
  /** Words of rows that look like inspections, say nothing of what was seen, and are passed over. */
  readonly unseen: readonly string[];
}

/**
 * What the rows of a file feed; a list of work orders may feed several tables, told by the words of a column.
 * @param profilesOf profiles of the rows that a test picks by their cells
 */
export function rowsFeed(
  fileName: string,
  profiles: readonly ColumnProfile[],
  profilesOf: (picks: (row: readonly string[]) => boolean) => readonly ColumnProfile[],
): RowsFeed {
  const named = tableOfFile(fileName);
  if (named) return { feeds: { table: named }, sure: true, unseen: [] };
  for (const profile of profiles) {
    const mixed = mixedBy(profile, profilesOf);
    if (mixed) return { ...mixed, sure: true };
  }
  const [best, next] = (['services', 'failures', 'inspections', 'units', 'readings'] as const)
    .map((table) => ({ table, score: scoreOf(table, profiles) }))
    .sort((a, b) => b.score - a.score);
  const sure = (best?.score ?? 0) - (next?.score ?? 0) > 1.5;
  return { feeds: { table: best?.table ?? 'services' }, sure, unseen: [] };
}

type Mixed = Pick<RowsFeed, 'unseen'> & { readonly feeds: Extract<Feeds, { by: string }> };

function mixedBy(
  { header, place, texts, filled }: ColumnProfile,
  profilesOf: (picks: (row: readonly string[]) => boolean) => readonly ColumnProfile[],
): Mixed | null {
  const told = headerWords(header);
  const tells = told.some((word) => telling.has(word)) || tellingHeaders.has(told.join(' '));
  if (!tells || texts.length < 2 || texts.length > mostKinds) return null;
  const fed = new Map(texts.map(([text]) => [text, kindOf(text)]));
  const known = texts.reduce((sum, [text, rows]) => sum + (fed.get(text) === null ? 0 : rows), 0);
  if (known < 0.6 * filled) return null;
  const rowsOf = (test: (text: string) => boolean) => profilesOf((row) => test((row[place] ?? '').trim()));
  // Under one word shops book both looks and work: rows that say what was done are services.
  for (const [text, kind] of fed)
    if (kind === 'inspections' && saysWork(rowsOf((own) => own === text))) fed.set(text, 'services');
  // Without what was wrong a row is the record of a job, and without what was seen none of a look.
  const own = (table: Fed) => rowsOf((text) => fed.get(text) === table);
  const failures = new Set([...fed.values()]).has('failures') && saysMode(own('failures'), header);
  const looks = assignColumns('inspections', own('inspections')).some(
    ({ ours, profile }) => profile.filled > 0 && (ours === 'leak' || ours === 'checked'),
  );
  const words: Record<string, Fed> = {};
  const unseen: string[] = [];
  for (const [text, kind] of fed) {
    if (kind === null) continue;
    const passed = kind === 'inspections' && !looks;
    if (passed) unseen.push(wordOf(text));
    words[wordOf(text)] = kind === 'failures' && !failures ? 'services' : passed ? passedOver : kind;
  }
  const tables = new Set(Object.values(words).filter((table) => table !== passedOver));
  return tables.size >= 2 || (tables.size === 1 && Object.values(words).includes(passedOver))
    ? { feeds: { by: header, words, others: 'set-aside' }, unseen }
    : null;
}

const workColumns = new Set(['seal_lot', 'seating_torque_ftlb', 'inner_torque_ftlb', 'outer_torque_ftlb']);

/** Whether rows say what was done: a part replaced, a torque set, the lot of a seal. */
function saysWork(profiles: readonly ColumnProfile[]): boolean {
  const flags = partFlags(profiles);
  if (flags?.parts.some(({ words = {} }) => Object.values(words).some((part) => part !== ''))) return true;
  const replaced = recordTables.services.find(({ name }) => name === 'replaced');
  return assignColumns('services', profiles).some(
    ({ ours, profile }) =>
      profile.filled > 0 &&
      (workColumns.has(ours) || (ours === 'replaced' && replaced !== undefined && knownShare(profile, replaced) > 0.5)),
  );
}

const mode = recordTables.failures.find(({ name }) => name === 'mode');

/** Whether some column says what failed; the one that tells the rows apart may do that, too. */
function saysMode(profiles: readonly ColumnProfile[], by: string): boolean {
  return (
    assignColumns('failures', profiles).some(({ ours }) => ours === 'mode') ||
    isMode(profiles.find(({ header }) => header === by))
  );
}

/** Whether all words of a column are ways to fail. */
export const isMode = (profile: ColumnProfile | undefined): boolean =>
  profile !== undefined && mode !== undefined && profile.filled > 0 && knownShare(profile, mode) > 0.8;

/** How well a table's columns are found: what it needs counts most, then what only this table has. */
function scoreOf(table: TableName, profiles: readonly ColumnProfile[]): number {
  const found = assignColumns(table, profiles);
  const names = new Set(found.map(({ ours }) => ours));
  const placed = names.has(positionColumn) || (names.has(axlePart) && names.has(sidePart));
  // Ids can be made, and `checked` and `mode` are asked for.
  const needed = neededColumns(table).filter((name) => !/^(service|failure|inspection)_id$|^checked$/.test(name));
  const missing = needed.filter((name) => (name === positionColumn ? !placed : !names.has(name))).length;
  const own = found.filter(
    ({ ours }) => !['unit_id', 'date', 'miles', positionColumn, axlePart, sidePart].includes(ours),
  );
  const weight = own.reduce((sum, { confidence }) => sum + confidence, 0);
  // A row with a place on a vehicle is no reading and no unit.
  const place = placed || profiles.some(({ places, filled }) => filled > 0 && places > 0.95);
  const astray = (table === 'readings' || table === 'units') && place && table !== 'units' ? 3 : 0;
  return weight - 4 * missing - astray;
}
