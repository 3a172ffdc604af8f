import { unknownOf } from './climb-to-top.ts';
import type { CoxEstimate } from './cox-estimate.ts';
import type { PreparedCox } from './cox-prepare.ts';
import { clusterWarnings, unknownTerm, type RegressionWarning } from './regression-result.ts';

/** All that a fit could not do as asked. */
export function coxWarnings(
  { terms, warnings: leftOut }: PreparedCox,
  { fit, clusters }: Pick<CoxEstimate, 'fit' | 'clusters'>,
): RegressionWarning[] {
  const warnings = [...leftOut];
  fit.infinite.forEach((sign, j) => {
    if (sign === 0) return;
    const term = terms[j] as string;
    const message = `the likelihood rises without end as the ratio of ${term} goes to ${sign > 0 ? 'infinity' : 'zero'}`;
    warnings.push({ kind: 'separation', term, message });
  });
  for (const j of unknownOf(fit)) warnings.push(unknownTerm(terms[j] as string));
  if (!fit.converged)
    warnings.push({ kind: 'not-converged', term: null, message: `no maximum after ${fit.iterations} iterations` });
  return [...warnings, ...clusterWarnings(clusters)];
}
