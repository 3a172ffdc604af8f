import { StatisticsError } from './statistics-error.ts';

/**
 * P-values corrected for the number of comparisons made, in the order given. A comparison that could not be made is
 * null (or NaN) in and null out, and is not counted.
 *
 * `benjamini-hochberg` (default) bounds the expected share of false findings among those named; `holm` bounds the
 * chance of even one false finding.
 *
 * Source: Benjamini & Hochberg 1995, JRSS B 57:289; Holm 1979, Scand. J. Statist. 6:65. Outside check: R's p.adjust
 * (reference cases padj-*).
 *
 * @throws StatisticsError for a value outside [0, 1], naming its row.
 */
export function adjustPValues(
  pValues: ArrayLike<number | null>,
  options: { readonly method?: 'benjamini-hochberg' | 'holm' } = {},
): (number | null)[] {
  const tested: { row: number; p: number }[] = [];
  for (let row = 0; row < pValues.length; row++) {
    const p = pValues[row] as number | null;
    if (p === null || Number.isNaN(p)) continue;
    if (!(p >= 0 && p <= 1)) throw new StatisticsError('pValues', `${p} is not between 0 and 1`, row);
    tested.push({ row, p });
  }
  tested.sort((one, other) => one.p - other.p);
  const adjusted = new Array<number | null>(pValues.length).fill(null);
  const count = tested.length;
  if (options.method === 'holm') {
    let most = 0;
    tested.forEach(({ row, p }, rank) => (adjusted[row] = most = Math.min(1, Math.max(most, (count - rank) * p))));
  } else {
    let least = 1;
    tested
      .reverse()
      .forEach(({ row, p }, back) => (adjusted[row] = least = Math.min(least, (count / (count - back)) * p)));
  }
  return adjusted;
}
