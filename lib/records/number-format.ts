/** How a spreadsheet shows a number: as itself, as a day, as a time or span of time, or filled up with zeros. */
export type ShownAs = 'number' | 'day' | 'time' | { readonly digits: number };

const dayIds: readonly (readonly [from: number, to: number])[] = [
  [14, 17],
  [22, 22],
  // Days of East Asian and Thai settings, ECMA-376 part 1, 18.8.30.
  [27, 36],
  [50, 58],
  [71, 74],
  [77, 77],
  [81, 81],
];
const timeIds: readonly (readonly [from: number, to: number])[] = [
  [18, 21],
  [45, 47],
  [75, 76],
  [78, 80],
];

const within = (id: number, ranges: typeof dayIds): boolean => ranges.some(([from, to]) => id >= from && id <= to);

/**
 * Tells what a number format shows, by ECMA-376 part 1, 18.8.30 and 18.8.31.
 * @param code of the format where the workbook gives one: `yyyy\-mm\-dd;@`
 */
export function shownAs(id: number, code: string | undefined): ShownAs {
  if (code === undefined) return within(id, dayIds) ? 'day' : within(id, timeIds) ? 'time' : 'number';
  const section = firstSection(code);
  if (/^0{2,}$/.test(section)) return { digits: section.length };
  // Fractions of a second are the only digits that a day or a time can have.
  const letters = section.replaceAll(/(s\]?)[.,]0+/g, '$1');
  if (/[0#?]/.test(letters) || section.includes('general')) return 'number';
  if (/[yd]/.test(letters) || /(^|[^a-z])e{1,4}($|[^a-z])/.test(letters)) return 'day';
  if (/[hs]/.test(letters)) return 'time';
  return letters.includes('m') ? 'day' : 'number';
}

/** The part for positive numbers, in lower case, without what is shown as it stands. */
function firstSection(code: string): string {
  const bare = code
    .toLowerCase()
    .replaceAll(/"[^"]*"?/g, '')
    .replaceAll(/\\./g, '')
    .replaceAll(/[_*]./g, '')
    .replaceAll(/\[(?!(h+|m+|s+)\])[^\]]*\]/g, '');
  return (bare.split(';')[0] ?? '').replaceAll(/am\/pm|a\/p/g, 'h').trim();
}

const daysTo1970 = 25_569;
const daysTo1904 = 1_462;
const lastSerial = 2_958_465;
/** A tenth of a second: days computed in floating point may end a hair before midnight. */
const hair = 1e-6;

/** A serial number as an ISO day, its time of day cut off, or null beyond the years 1900 to 9999. */
export function serialDay(serial: number, from1904: boolean): string | null {
  let days = Math.floor(serial + hair) + (from1904 ? daysTo1904 : 0);
  if (!(days >= 1 && days <= lastSerial)) return null;
  // The 1900 system counts a 29 February 1900 that never was.
  if (days < 60) days++;
  return new Date((days - daysTo1970) * 86_400_000).toISOString().slice(0, 10);
}

/** A fraction of a day, or a span of several, as `H:MM:SS`. */
export function serialTime(serial: number): string {
  const seconds = Math.round(Math.abs(serial) * 86_400);
  const two = (value: number) => String(value).padStart(2, '0');
  const hours = Math.floor(seconds / 3600);
  return `${serial < 0 ? '-' : ''}${hours}:${two(Math.floor(seconds / 60) % 60)}:${two(seconds % 60)}`;
}
