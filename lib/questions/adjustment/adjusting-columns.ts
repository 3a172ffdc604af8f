import type { View } from '../../../shared/view.ts';

/** What is taken into account unless the view names columns of its own. */
export const usualAdjustment = ['role', 'lubricant', 'hub_build', 'duty', 'install_year'] as const;

export interface AdjustingColumns {
  /** Covariates of the model. */
  readonly covariates: readonly string[];
  /** Each value has a baseline of its own; none where it is what is compared. */
  readonly strata: readonly string[];
}

/** The columns a view takes into account; what is compared is never taken into account itself. */
export function adjustingColumns(
  { adjust }: Pick<View, 'adjust'>,
  compared: readonly string[],
  strata: readonly string[] = ['shop'],
): AdjustingColumns {
  const isFree = (column: string) => !compared.includes(column);
  const wanted: readonly string[] = adjust.length > 0 ? adjust : usualAdjustment;
  return {
    covariates: [...new Set(wanted)].filter((column) => isFree(column) && !strata.includes(column)),
    strata: strata.filter(isFree),
  };
}
