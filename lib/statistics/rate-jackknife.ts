/**
 * Standard error of a log estimate from its values with each cluster left out in turn, about the whole one; null with
 * the reason where the clusters cannot tell it. Spread of none at all would give limits of no width, so it is no answer.
 *
 * Source: Efron & Tibshirani, An Introduction to the Bootstrap, eq. 11.5, taken about the estimate itself, which is the
 * conservative form (MacKinnon & White 1985).
 */
export function jackknife(
  whole: number,
  without: readonly number[],
): { standardErrorLog: number | null; reason: string | null } {
  const clusters = without.length;
  if (!Number.isFinite(whole)) return { standardErrorLog: null, reason: clusters === 0 ? 'no exposure' : 'no events' };
  if (clusters < 2) return { standardErrorLog: null, reason: 'fewer than two clusters' };
  if (!without.every(Number.isFinite)) return { standardErrorLog: null, reason: 'one cluster has all the events' };
  const squares = without.reduce((sum, log) => sum + (log - whole) ** 2, 0);
  const standardErrorLog = Math.sqrt(((clusters - 1) / clusters) * squares);
  if (standardErrorLog < 1e-12) return { standardErrorLog: null, reason: 'the clusters do not differ' };
  return { standardErrorLog, reason: null };
}
