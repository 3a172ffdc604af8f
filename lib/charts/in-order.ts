/** Where each stretch stands, first occurrence after the one before, without overlap. */
export function inOrder(text: string, emphasis: readonly string[]): { start: number; end: number }[] {
  const found = emphasis
    .map((stretch) => ({ start: text.indexOf(stretch), end: text.indexOf(stretch) + stretch.length }))
    .filter(({ start, end }) => start >= 0 && end > start)
    .sort((a, b) => a.start - b.start || b.end - a.end);
  const kept: { start: number; end: number }[] = [];
  for (const stretch of found) if (stretch.start >= (kept.at(-1)?.end ?? 0)) kept.push(stretch);
  return kept;
}
