import { positionColumn, positionedTables, type ColumnMap, type PositionRule } from '../../../../shared/column-map.ts';
import { piecesOf, positionTokens } from '../../positions/position-tokens.ts';
import { positionText } from '../../positions/position-text.ts';
import { positionChoices, readPosition, type Position } from '../../positions/read-position.ts';
import { sampleRow } from '../sample.ts';
import { textOfCell } from '../cell-maker.ts';
import type { UnitAxles, UnitRoles } from '../unit-roles.ts';
import type { Ask } from './proposal.ts';

/** One spelling on units with the same axles. */
interface Place {
  readonly text: string;
  readonly side: string | null;
  readonly axles: UnitAxles | null;
  rows: number;
}

/** Most asks of one file about single spellings; the commonest come first. */
const mostSpellings = 8;

/** What the places of the sample leave open: where the driver sits, how trailer axles are counted, spellings that say too little. */
export function placeAsks(
  map: ColumnMap,
  names: readonly string[],
  rows: readonly (readonly string[])[],
  roles: UnitRoles,
): Ask[] {
  const places = placesIn(map, names, rows, roles);
  return [...driverAsk(places), ...combinationAsk(places), ...spellingAsks(places)];
}

function placesIn(
  map: ColumnMap,
  names: readonly string[],
  rows: readonly (readonly string[])[],
  roles: UnitRoles,
): Place[] {
  const found = new Map<string, Place>();
  const at = new Map(names.map((name, place) => [name, place]));
  const cut = sampleRow();
  for (const table of positionedTables) {
    const sources = map.tables[table] ?? [];
    const parts = sources.find(({ ours }) => ours === positionColumn)?.from ?? [];
    const unit = at.get(sources.find(({ ours }) => ours === 'unit_id')?.from?.[0]?.header ?? '');
    if (parts.length === 0) continue;
    for (const row of rows) {
      cut.at(row);
      const text = (only: boolean) =>
        parts.flatMap(({ header, only: side }) =>
          (side === 'side') === only ? [textOfCell(cut, at.get(header)!) ?? ''] : [],
        );
      const axles = unit === undefined ? null : roles.of(textOfCell(cut, unit) ?? '');
      const [place, side] = [text(false).join(' ').trim(), text(true).join(' ').trim()];
      const key = `${axles?.key ?? ''}|${place}|${side}`;
      const known = found.get(key);
      if (known) known.rows++;
      else found.set(key, { text: place, side: side === '' ? null : side, axles, rows: 1 });
    }
    // The same columns say the place in every table of a mixed list.
    break;
  }
  return [...found.values()].sort((a, b) => b.rows - a.rows);
}

function driverAsk(places: readonly Place[]): Ask[] {
  const one = places.find(({ text, side, axles }) => {
    const found = readPosition(text, side, axles?.roles ?? null, {});
    return typeof found === 'string' && found.includes('where the driver sits');
  });
  if (!one) return [];
  const set = (side: string) => [{ path: ['positions', 'driverSits'], value: side }];
  return [
    {
      id: 'driver',
      question: `Sides are named by the driver, the curb or the road ("${`${one.text} ${one.side ?? ''}`.trim()}"). On which side does the driver sit?`,
      options: [
        { label: 'On the left: traffic keeps right', set: set('left') },
        { label: 'On the right: traffic keeps left', set: set('right') },
      ],
    },
  ];
}

const isTrailer = ({ axles }: Place): boolean => axles?.roles.every((role) => role === 'trailer') ?? false;
const bareNumber = (text: string): number | null => {
  const numbers = piecesOf(text).filter((piece) => /^\d+$/.test(piece));
  return numbers.length === 1 && !/\bT(RL|RAILER)?\b/.test(piecesOf(text).join(' ')) ? Number(numbers[0]) : null;
};

/** Axle numbers beyond the trailer's own are counted from the tractor's front. */
function combinationAsk(places: readonly Place[]): Ask[] {
  const known = places.some(({ axles }) => axles !== null);
  const beyond = places.filter((place) => {
    const number = bareNumber(place.text);
    return number !== null && (known ? isTrailer(place) && number > (place.axles?.roles.length ?? 0) : number > 3);
  });
  const rows = beyond.reduce((sum, { rows }) => sum + rows, 0);
  const [one] = beyond;
  if (!one) return [];
  const option = (ahead: number) => ({
    label: `Through the combination, behind ${ahead} axles of the tractor`,
    set: [{ path: ['positions', 'axlesAhead'], value: ahead }],
  });
  const least = Math.min(...beyond.map(({ text }) => bareNumber(text) ?? 9)) - 1;
  const aheads = [...new Set([Math.min(3, Math.max(2, least)), 3, 2])];
  return [
    {
      id: 'combination',
      question: `${rows} rows of the sample count axles further than a trailer has ("${one.text}"). How are trailer axles counted here?`,
      options: [...aheads.map(option), { label: 'Each unit from its own front', set: [] }],
    },
  ];
}

/** Spellings that may be one of several places on the same units: one rule settles them all. */
function spellingAsks(places: readonly Place[]): Ask[] {
  const asks: Ask[] = [];
  for (const { text, side, axles, rows } of places) {
    if (asks.length >= mostSpellings) break;
    if (axles === null || typeof readPosition(text, side, axles.roles, { driverSits: 'left' }) !== 'string') continue;
    const choices = positionChoices(text, side, axles.roles, { driverSits: 'left' });
    if (choices.length < 2 || choices.length > 4 || isSideless(choices, text, side)) continue;
    const spelling = `${text} ${side ?? ''}`.trim();
    const set = (rule: PositionRule) => [{ path: ['positions', 'rules', asks.length], value: rule }];
    asks.push({
      id: `place ${spelling} ${axles.key}`,
      question: `"${spelling}" on units with the axles ${axles.roles.join(', ')} (${rows} rows of the sample) may be more than one wheel end. Which is it?`,
      options: [
        { label: 'Not to be told: set these rows aside', set: [] },
        ...choices.map((position) => ({
          label: `Always ${positionText(position, axles.roles)} (axle ${position.axle})`,
          set: set({ spelling, roles: axles.key, ...position }),
        })),
      ],
    });
  }
  return asks;
}

const sides: ReadonlySet<string> = new Set(['left', 'right', 'driver', 'curb']);

/** Whether nothing but the side is open, and no word says any: no rule could be right for all such rows. */
function isSideless(choices: readonly Position[], text: string, side: string | null): boolean {
  if (new Set(choices.map(({ axle }) => axle)).size > 1) return false;
  const tokens = [...positionTokens(text, false), ...positionTokens(side ?? '', true)];
  return !tokens.some(
    (token) => token.kind === 'word' && token.readings.some(({ says }) => says.some((word) => sides.has(word))),
  );
}
