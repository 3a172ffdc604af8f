import { mappableColumns, positionColumn } from '../../../../shared/column-map.ts';
import { recordTables, type RecordColumn, type TableName } from '../../../../shared/record-tables.ts';
import { quantityOf } from '../column-quantity.ts';
import type { ColumnProfile } from './column-profile.ts';
import { knownShare, nameScore, valueScore } from './header-score.ts';
import { closedWords, headerWords, openedWords } from './header-words.ts';
import { unitInHeader } from './unit-of-column.ts';

/** One of their columns thought to be one of ours. */
export interface Assigned {
  readonly ours: string;
  readonly profile: ColumnProfile;
  /** 0 to 1. */
  readonly confidence: number;
  readonly why: string;
}

const leastScore = 0.42;

/** Pseudo-columns for a place that stands in two columns. */
export const axlePart = 'axle';
export const sidePart = 'side';

/** Finds for each of our columns of a table the header that names it best and whose values it can take. */
export function assignColumns(table: TableName, profiles: readonly ColumnProfile[]): Assigned[] {
  const columns = new Map(recordTables[table].map((column) => [column.name, column]));
  const names = mappableColumns(table);
  // Places come first: of two that are named alike `side_desc` is a side rather than a comment.
  const wanted = names.includes(positionColumn) ? [axlePart, sidePart, ...names] : names;
  const scored = wanted.flatMap((ours) =>
    profiles.map((profile) => ({ ours, profile, ...scoreOf(ours, columns.get(ours), profile, table) })),
  );
  scored.sort((a, b) => b.score - a.score || a.profile.place - b.profile.place);
  const found = new Map<string, Assigned>();
  const used = new Set<number>();
  for (const { ours, profile, score, why } of scored) {
    if (score < leastScore || found.has(ours) || used.has(profile.place)) continue;
    found.set(ours, { ours, profile, confidence: Math.min(1, score), why });
    used.add(profile.place);
  }
  const [day, ...days] = profiles.filter(({ place, header, filled, dates }) => {
    const free = !used.has(place) && filled > 0 && dates > 0.9;
    return free && dayNote(header).bonus === 0;
  });
  // No header says it, but no other column can be it either.
  if (columns.has('date') && !found.has('date') && day && days.length === 0)
    found.set('date', { ours: 'date', profile: day, confidence: 0.5, why: 'it is the one column of days' });
  return placesSettled([...found.values()]);
}

/** Either one column says the place, or one the axle and one the side. */
function placesSettled(found: readonly Assigned[]): Assigned[] {
  const of = (ours: string) => found.find((one) => one.ours === ours);
  const [whole, axle, side] = [of(positionColumn), of(axlePart), of(sidePart)];
  const two = axle !== undefined && side !== undefined;
  if (two && (whole === undefined || axle.confidence + side.confidence > 1.2 * whole.confidence))
    return found.filter(({ ours }) => ours !== positionColumn);
  if (whole !== undefined)
    return found.filter(({ ours }) => ours !== axlePart && (ours !== sidePart || !bothSides(whole)));
  return [...found];
}

/** Whether the one column says sides itself, so that none is needed beside it. */
const bothSides = ({ profile }: Assigned): boolean =>
  profile.texts
    .slice(0, 20)
    .some(([text]) => /(^|[^a-z])(l|r|lh|rh|left|right|lf|rf|lr|rr)([^a-z]|$)|\d[lr]/i.test(text));

interface Score {
  readonly score: number;
  readonly why: string;
}

function scoreOf(ours: string, column: RecordColumn | undefined, profile: ColumnProfile, table: TableName): Score {
  const name = nameScore(profile.header, ours);
  if (name === 0 && ours !== positionColumn) return { score: 0, why: '' };
  const values =
    [positionColumn, axlePart, sidePart].includes(ours) || !column
      ? placeScore(ours, profile)
      : valueScore(profile, column);
  const noted = noteOf(ours, column, profile, table);
  const bonus = name > 0 ? noted.bonus : noted.bonus > 0 ? noted.bonus / 2 : 0;
  const byValues = ours === positionColumn && profile.filled > 0 && saysAxleAndSide(profile) ? 0.5 : 0;
  const score = Math.max(name * (0.35 + 0.65 * values), byValues) + (values > 0.5 ? bonus : Math.min(0, bonus));
  return {
    score: values < 0.3 ? 0 : score,
    why: [whyNamed(name, profile.header), noted.why].filter(Boolean).join('; '),
  };
}

const whyNamed = (name: number, header: string): string =>
  name >= 0.9
    ? `"${header}" is a name of it`
    : name > 0
      ? `"${header}" is near a name of it`
      : 'its values look like it';

/** Letters for a side and a place or number: `LF`, `2R`. */
const saysAxleAndSide = ({ places, texts }: ColumnProfile): boolean =>
  places > 0.9 &&
  texts.length >= 2 &&
  texts.slice(0, 10).every(([text]) => /[lr]/i.test(text) && /[a-z]{2}|\d/i.test(text));

function placeScore(ours: string, profile: ColumnProfile): number {
  if (ours !== sidePart && ours !== axlePart) return profile.places > 0 ? profile.places : profile.numbers * 0.3;
  if (ours === sidePart) return profile.texts.length <= 24 ? profile.places : 0;
  const small = profile.numbers > 0.9 && profile.greatest <= 20;
  return small ? 1 : profile.places * 0.9;
}

/** What else speaks for or against: units in the header, ids that repeat, days of opening and closing. */
function noteOf(
  ours: string,
  column: RecordColumn | undefined,
  profile: ColumnProfile,
  table: TableName,
): { bonus: number; why: string } {
  const none = { bonus: 0, why: '' };
  if (!column || ours === axlePart || ours === sidePart) return none;
  const quantity = quantityOf(column);
  if (quantity && unitInHeader(profile.header, quantity)) return { bonus: 0.12, why: `its unit fits` };
  if (ours === recordTables[table][0]?.name && ours !== 'unit_id')
    return profile.unique ? { bonus: 0.05, why: 'every row has another' } : { bonus: -0.6, why: '' };
  if (ours === 'date') return dayNote(profile.header);
  if (column.kind === 'choice' || (column.kind === 'list' && column.choices)) {
    const share = knownShare(profile, column);
    return share > 0.8 && profile.texts.length > 1 ? { bonus: 0.08, why: 'its words are known' } : none;
  }
  return none;
}

/** Days of opening or closing an order are not the day of the work. */
function dayNote(header: string): { bonus: number; why: string } {
  const words = headerWords(header);
  if (words.some((word) => closedWords.has(word)))
    return { bonus: -0.25, why: 'it is a day of closing, not of the work' };
  if (words.some((word) => openedWords.has(word)))
    return { bonus: -0.2, why: 'it is a day of opening, not of the work' };
  return { bonus: 0, why: '' };
}
