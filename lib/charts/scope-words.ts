import { columnSays, valueSays } from './plain-words.ts';
import { kilometresPerMile, type UnitSystem } from '../../shared/units.ts';
import type { View } from '../../shared/view.ts';

/** Columns that have a word of their own in the sentence; any other narrowing is said after it. */
const spoken = ['role', 'position', 'lubricant', 'hub_build', 'shop'];

export const otherColumns = (view: View): string[] =>
  Object.keys(view.where).filter((column) => !spoken.includes(column));

/** `oil`, `oil or packed grease`, `3 shops`. */
function oneOf(column: string, values: readonly string[], many: string): string {
  const says = values.map((value) => valueSays(column, value));
  return says.length > 2 ? `${says.length} ${many}` : says.join(' or ');
}

function axlesSay({ where }: View): string {
  const roles = where['role'];
  const axles = roles === undefined ? 'all axles' : `${oneOf('role', roles, 'kinds of')} axles`;
  const ends = where['position'];
  return ends === undefined ? axles : `${axles}, ${oneOf('position', ends, 'wheel ends')}`;
}

function buildsSay(values: readonly string[]): string {
  const builds: Readonly<Record<string, string>> = {
    adjusted: 'hand-adjusted',
    spacer: 'spacer',
    unitized: 'unitized',
  };
  if (values.length > 2) return `${values.length} hub builds`;
  return `${values.map((value) => builds[value] ?? valueSays('hub_build', value)).join(' or ')} hubs`;
}

function yearsSay({ installedFrom: from, installedTo: to }: View): string {
  const start = from?.endsWith('-01-01') ? from.slice(0, 4) : from;
  const end = to?.endsWith('-12-31') ? to.slice(0, 4) : to;
  if (start !== null && start === end) return `in ${start}`;
  if (start != null && end != null) return `${start} to ${end}`;
  if (start != null) return `since ${start}`;
  return end == null ? 'at any time' : `up to ${end}`;
}

export function horizonSays({ axis, horizonMiles, horizonMonths }: View, units: UnitSystem): string {
  if (axis === 'months') return `${horizonMonths.toLocaleString('en-US')} ${horizonMonths === 1 ? 'month' : 'months'}`;
  const shown = Math.round(horizonMiles * (units === 'us' ? 1 : kilometresPerMile));
  return `${shown.toLocaleString('en-US')} ${units === 'us' ? 'miles' : 'km'}`;
}

export interface ScopeWords {
  readonly parts: string;
  readonly axles: string;
  readonly lubricant: string;
  readonly build: string;
  readonly shop: string;
  readonly years: string;
  readonly horizon: string;
  readonly apart: string;
}

const partsSay = { seal: 'Seals', gasket: 'Gaskets', bearing: 'Bearings' } as const;

/** Each word of the scope sentence as the view has it. `suggested` is said where nothing is cut. */
export function scopeWords(view: View, units: UnitSystem, suggested: string): ScopeWords {
  const { where, by } = view;
  return {
    parts: partsSay[view.component],
    axles: axlesSay(view),
    lubricant: where['lubricant'] ? oneOf('lubricant', where['lubricant'], 'lubricants') : 'any lubricant',
    build: where['hub_build'] ? buildsSay(where['hub_build']) : 'any hub build',
    shop: where['shop'] ? oneOf('shop', where['shop'], 'shops') : 'any shop',
    years: yearsSay(view),
    horizon: horizonSays(view, units),
    apart: by.length === 0 ? suggested : by.map(columnSays).join(' and '),
  };
}

export const otherSays = (column: string, values: readonly string[]): string =>
  `${columnSays(column)}: ${oneOf(column, values, 'values')}`;

/** The whole sentence as plain text, for titles and descriptions. */
export function scopeSentence(view: View, units: UnitSystem): string {
  const words = scopeWords(view, units, '');
  const others = otherColumns(view).map((column) => `, ${otherSays(column, view.where[column] ?? [])}`);
  const apart = words.apart === '' ? '' : `, told apart by ${words.apart}`;
  return `${words.parts} on ${words.axles}, in ${words.lubricant} and ${words.build}, installed by ${words.shop} ${words.years}${others.join('')}, followed for ${words.horizon}${apart}.`;
}
