/** Days are whole numbers since 1970-01-01, without a time zone; no clock is read. */
export const DAYS_PER_YEAR = 365.25;
const MILLISECONDS_PER_DAY = 86_400_000;
const FIRST_KEPT = 15_000; // 2011-01-26
const written: string[] = [];

export function dayOf(isoDate: string): number {
  return Date.parse(`${isoDate}T00:00:00Z`) / MILLISECONDS_PER_DAY;
}

export function isoDateOf(day: number): string {
  const kept = written[day - FIRST_KEPT];
  if (kept !== undefined) return kept;
  const text = new Date(day * MILLISECONDS_PER_DAY).toISOString().slice(0, 10);
  written[day - FIRST_KEPT] = text;
  return text;
}
