import { deviationColumn, deviations } from '../../shared/deviations.ts';

const columnWords: Readonly<Record<string, string>> = {
  role: 'axle role',
  axle: 'axle number',
  side: 'side',
  position: 'wheel end',
  shop: 'installing shop',
  site: 'place of work',
  lubricant: 'lubricant',
  hub_build: 'hub build',
  hub_material: 'hub material',
  seal_lot: 'seal lot',
  duty: 'duty',
  install_kind: 'original or replacement',
  install_year: 'year installed',
  life_number: 'life number',
  prior_failures: 'earlier failures there',
  technician_key: 'technician (pseudonym)',
  mileage_quality: 'how miles are known',
  unit_id: 'vehicle',
  ...Object.fromEntries(deviations.map(({ code, says }) => [deviationColumn(code), says])),
};

const valueWords: Readonly<Record<string, Readonly<Record<string, string>>>> = {
  deviation: Object.fromEntries(deviations.map(({ code, says }) => [code, says])),
  lubricant: { 'semi-fluid': 'semi-fluid grease', packed: 'packed grease' },
  hub_build: { adjusted: 'adjusted by hand', spacer: 'preset by spacer' },
  site: { shop: 'own shop', vendor: 'outside vendor' },
  life_number: { '1': 'first', '2': 'second', '3': 'third' },
};

/** A lives column in the reader's words. */
export const columnSays = (column: string): string => columnWords[column] ?? column.replaceAll('_', ' ');

/** A stored value of a column in the reader's words. */
export function valueSays(column: string, value: string): string {
  if (value === 'unknown' || value === '') return 'not known';
  if (value === 'not-applicable') return 'does not apply';
  if (column === 'position') return value.replace(/^(\d+) /, 'axle $1, ');
  return valueWords[column]?.[value] ?? value;
}

/** A group's name where nothing beside it says what it is cut by: `nut backed off: yes`. */
export function groupNamed(by: Readonly<Record<string, string>>): string {
  const parts = Object.entries(by).map(([column, value]) =>
    ['yes', 'no', 'unknown', 'not-applicable', ''].includes(value)
      ? `${columnSays(column)}: ${valueSays(column, value)}`
      : valueSays(column, value),
  );
  return parts.length === 0 ? 'all of them' : parts.join(' · ');
}

/** A group's name in words, from the values it is cut by; `all` where nothing is cut. */
export function groupSays(by: Readonly<Record<string, string>>): string {
  const parts = Object.entries(by).map(([column, value]) => valueSays(column, value));
  return parts.length === 0 ? 'all' : parts.join(' · ');
}
