import type { View } from '../../../shared/view.ts';
import { adjustingColumns } from '../adjustment/adjusting-columns.ts';
import { deviationOf } from '../words/group-words.ts';
import { rankedColumns } from './exposure.ts';

/** Every cut column that a ranking under a view reads. */
export function causesColumns(view: View): string[] {
  const ranked = rankedColumns(view);
  const { covariates, strata } = adjustingColumns(
    view,
    ranked.filter((column) => deviationOf(column) === null),
  );
  const others = ['unit_id', 'axle', 'shop', 'install_year', 'hub_build'];
  return [...new Set([...Object.keys(view.where), ...ranked, ...covariates, ...strata, ...others])];
}
