import { deviationCodes, deviationColumn } from '../../../shared/deviations.ts';
import type { View } from '../../../shared/view.ts';
import { adjustingColumns } from '../adjustment/adjusting-columns.ts';
import { comparedColumn } from './shops-evidence.ts';

/** Every cut column that a comparison of shops under a view reads. */
export function shopsColumns(view: View): string[] {
  const compared = comparedColumn(view);
  const { covariates } = adjustingColumns(view, [compared], []);
  const recorded = deviationCodes.map(deviationColumn);
  return [...new Set([...Object.keys(view.where), compared, 'unit_id', ...covariates, ...recorded])];
}
