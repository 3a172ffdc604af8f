import { deviationColumn, deviationCodes } from '../../../shared/deviations.ts';
import type { Group } from '../../../shared/finding.ts';
import { deviationSays } from './deviation-says.ts';
import { deviationWords } from './deviation-words.ts';

const codeOf = new Map(deviationCodes.map((code) => [deviationColumn(code), code]));

/** The deviation a column of the lives table tells of, or null where it is another attribute. */
export const deviationOf = (column: string): string | null => codeOf.get(column) ?? null;

const fixed: Readonly<Record<string, Readonly<Record<string, string>>>> = {
  role: { tag: 'on tag axles', pusher: 'on pusher axles', lift: 'on lift axles' },
  side: { left: 'on the left', right: 'on the right' },
  site: {
    shop: 'where fitted in a shop',
    vendor: 'where fitted by a vendor',
    roadside: 'where fitted at the roadside',
  },
  lubricant: { oil: 'in oil', 'semi-fluid': 'in semi-fluid grease', packed: 'in packed grease' },
  hub_build: { adjusted: 'on hubs adjusted by hand', spacer: 'on spacer hubs', unitized: 'on unitized hubs' },
  hub_material: { iron: 'in iron hubs', aluminium: 'in aluminium hubs' },
  install_kind: { original: 'where fitted when new', replacement: 'where fitted as replacements' },
};

const ordinal = (text: string): string => {
  const value = Number(text);
  const last = value % 100 >= 11 && value % 100 <= 13 ? 0 : value % 10;
  return `${text}${['th', 'st', 'nd', 'rd'][last] ?? 'th'}`;
};

const written: Readonly<Record<string, (value: string) => string>> = {
  role: (value) => `on ${value} axles`,
  axle: (value) => `on axle ${value}`,
  position: (value) => `on axle ${value}`,
  shop: (value) => `where installed by ${value}`,
  technician_key: (value) => `where installed under key ${value}`,
  seal_lot: (value) => `with seals of lot ${value}`,
  duty: (value) => `in ${value} duty`,
  life_number: (value) => `where it was the ${ordinal(value)} at its wheel end`,
  prior_failures: (value) => `after ${value === '0' ? 'no' : value} earlier ${value === '1' ? 'failure' : 'failures'}`,
  mileage_quality: (value) => `with ${value} miles`,
  install_year: (value) => `where installed in ${value}`,
  unit_id: (value) => `on vehicle ${value}`,
};

const attributeNames: Readonly<Record<string, string>> = {
  role: 'axle role',
  hub_build: 'hub build',
  hub_material: 'hub material',
  seal_lot: 'seal lot',
  install_kind: 'kind of installation',
  life_number: 'life number',
  prior_failures: 'earlier failures',
  technician_key: 'technician key',
  mileage_quality: 'mileage quality',
  install_year: 'year of installation',
  unit_id: 'vehicle',
};

/** The column in the reader's words: `axle role`, `nut backed off`. */
export function attributeName(column: string): string {
  const code = deviationOf(column);
  if (code !== null) return deviationSays(code);
  return attributeNames[column] ?? column.replaceAll('_', ' ');
}

/** One value of one column, as it closes a sentence: `on trailer axles`, `where the nut was backed off`. */
export function valueWords(column: string, value: string): string {
  const code = deviationOf(column);
  if (value === 'unknown') return code === null ? `with ${attributeName(column)} not known` : 'where it is not known';
  if (code !== null) {
    const words = deviationWords[code];
    if (words && (value === 'yes' || value === 'no')) return words[value];
    return `where ${attributeName(column)} cannot exist`;
  }
  return fixed[column]?.[value] ?? written[column]?.(value) ?? `with ${attributeName(column)} ${value}`;
}

/** A group in words; empty for the group of everything. */
export const groupWords = (group: Pick<Group, 'by'>): string =>
  Object.entries(group.by)
    .map(([column, value]) => valueWords(column, value))
    .join(', ');
