/** Width in pixels of a text in the figure's typeface, from the mean advance of its letters; no canvas needed. */
export function textWidth(text: string, size: number, bold = false): number {
  let units = 0;
  for (const letter of text) units += advance(letter);
  return units * size * (bold ? 1.06 : 1);
}

// Advances in em of the sans typeface, by kind of letter, rounded up so that text is never cut.
function advance(letter: string): number {
  if (/[ilj.,:;'|!·]/.test(letter)) return 0.27;
  if (/[frt()\- ]/.test(letter)) return 0.33;
  if (/[mwMW%]/.test(letter)) return 0.84;
  if (/[A-Z]/.test(letter)) return 0.6;
  return 0.52;
}

/** The text, or its beginning with `…` where it would be wider than `room` pixels. */
export function fitText(text: string, size: number, room: number): string {
  if (textWidth(text, size) <= room) return text;
  let end = text.length - 1;
  while (end > 1 && textWidth(`${text.slice(0, end)}…`, size) > room) end -= 1;
  return `${text.slice(0, end).trimEnd()}…`;
}
