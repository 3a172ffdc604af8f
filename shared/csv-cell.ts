/** What a spreadsheet would take for a formula, or pass over to find one; and such a text with marks in front already. */
const runnable = /^'*[=+\-@\t\r]/;

/**
 * One cell by RFC 4180. A text that a spreadsheet would run gets an apostrophe in front, numbers
 * written as text (-5) like any other, so that the rule has no exception: whoever takes one apostrophe
 * away where several or one stand before such a mark has the text that was given. A number is written
 * as it is, null as blank.
 */
export function csvCell(value: string | number | null): string {
  if (value === null) return '';
  if (typeof value === 'number') return String(value);
  return quotedCell(runnable.test(value) ? `'${value}` : value);
}

/** One cell by RFC 4180 and nothing else, for texts that are shown or stand inside another cell. */
export const quotedCell = (text: string): string => (/[",\n\r]/.test(text) ? `"${text.replaceAll('"', '""')}"` : text);
