import type { CountRows } from './poisson-data.ts';
import type { CountEstimate } from './poisson-estimate.ts';
import type { CountFit } from './poisson-fit.ts';
import { clusterWarnings, unknownTerm, type RegressionWarning } from './regression-result.ts';

/** What a fit of counts could not do as asked; `calm` where it was to allow for overdispersion and found none. */
export function countWarnings(
  terms: readonly string[],
  fit: CountFit,
  { infinite, unknown, alone }: CountEstimate,
  { cluster }: CountRows,
  calm: boolean,
): RegressionWarning[] {
  const warnings: RegressionWarning[] = [];
  infinite.forEach((sign, j) => {
    if (sign === 0) return;
    const term = terms[j] as string;
    const what = j === 0 ? 'rate' : `ratio of ${term}`;
    const message = `the likelihood rises without end as the ${what} goes to ${sign > 0 ? 'infinity' : 'zero'}`;
    warnings.push({ kind: 'separation', term, message });
  });
  for (const j of unknown) warnings.push(unknownTerm(terms[j] as string));
  if (!fit.converged)
    warnings.push({ kind: 'not-converged', term: null, message: `no maximum after ${fit.iterations} iterations` });
  else if (calm) {
    const message = 'the counts vary no more than Poisson counts do, so that their limits are given';
    warnings.push({ kind: 'no-overdispersion', term: null, message });
  }
  for (const j of alone) {
    const term = terms[j] as string;
    const message = `one cluster alone tells of ${term}, so that its robust limits are unbounded`;
    warnings.push({ kind: 'few-clusters', term, message });
  }
  return [...warnings, ...clusterWarnings(cluster?.count ?? null)];
}
