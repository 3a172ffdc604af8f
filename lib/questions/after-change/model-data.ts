import type { SurvivalData } from '../../statistics/index.ts';
import { pooledLevels } from '../adjustment/pooled-levels.ts';
import type { ChangeEvidence } from './change-evidence.ts';
import { takenLevels } from './change-sides.ts';
import type { WithinAges } from './common-ages.ts';

/** The year of installation is what is compared, unless other shops show how the years differ. */
export const covariateNames = ({ adjustment }: ChangeEvidence, withYear: boolean): string[] =>
  Object.keys(adjustment.covariates).filter((name) => withYear || name !== 'install_year');

/** Some lives as the models take them: within shop, vehicles as clusters. */
export function modelData(
  evidence: ChangeEvidence,
  { places, entry, exit, event }: WithinAges,
  withYear: boolean,
): SurvivalData & Required<Pick<SurvivalData, 'covariates' | 'strata'>> {
  const { strata, cluster, covariates } = evidence.adjustment;
  return {
    ...{ entry, exit, event, strata: takenLevels(strata, places), cluster: takenLevels(cluster, places) },
    covariates: Object.fromEntries(
      covariateNames(evidence, withYear).flatMap((name) => {
        const column = covariates[name];
        return column ? [[name, takenLevels(column, places)]] : [];
      }),
    ),
  };
}

/** The covariates with levels of few failures put together among these lives alone; those left with one level say nothing. */
export function pooledAgain({
  covariates = {},
  event,
}: SurvivalData): Record<string, { levels: readonly string[]; codes: Int32Array }> {
  const every = Int32Array.from({ length: event.length }, (_, at) => at);
  return Object.fromEntries(
    Object.entries(covariates as Record<string, { levels: readonly string[]; codes: Int32Array }>).flatMap(
      ([name, column]) => {
        const pooled = pooledLevels(name, column, every, event);
        return pooled.levels.length > 1 ? [[name, { levels: pooled.levels, codes: pooled.codes }]] : [];
      },
    ),
  );
}
