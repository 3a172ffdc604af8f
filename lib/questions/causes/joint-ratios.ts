import { coxRegression } from '../../statistics/index.ts';
import { gather } from '../gather.ts';
import { count } from '../words/wording.ts';
import { ComparedLives, someLives, type ModelLives } from './compared-lives.ts';
import type { Exposure } from './exposure.ts';
import { methodOf, reasonAgainst, termsOf, type Compared } from './ranking-ratios.ts';
import { noRatio, ratioOfTerm, type Ratio } from './ratios.ts';
import { sampledVehicles } from './sampled-vehicles.ts';

/** Beyond so many lives the model of everything at once is fitted to whole vehicles drawn. */
const mostJointLives = 60_000;

/**
 * The ratios of one model that holds every exposure ranked, by exposure and ranked level. Lives where
 * a deviation cannot exist are a level of their own there.
 */
export function jointRatios(all: ModelLives, every: readonly Compared[], level: number): Ratio[][] {
  const some = sampledVehicles(all.cluster, mostJointLives);
  const lives = some === null ? all : someLives(all, some);
  const over =
    some === null ? '' : `, over ${count(some.length)} of ${count(all.exit.length)} lives (whole vehicles drawn)`;
  const method = `${methodOf(new ComparedLives(lives, null), ' and the other deviations')}${over}`;
  const about = { level, method };
  const refusal = (compared: Compared, ranked: number) => reasonAgainst(compared, ranked);
  if (!every.some((compared) => compared.exposure.ranked.some((_, ranked) => refusal(compared, ranked) === null)))
    return every.map((compared) =>
      compared.exposure.ranked.map((_, at) => noRatio(about, refusal(compared, at) ?? '')),
    );
  const exposures = every.map(({ exposure }) => [exposure.column, jointLevels(exposure, some)] as const);
  const { entry, exit, event, strata, cluster } = lives;
  const covariates = { ...lives.covariates, ...Object.fromEntries(exposures) };
  const fit = coxRegression(
    { entry, exit, event, strata, cluster, covariates },
    {
      ...{ level, concordance: false },
      limitsOf: every.flatMap(termsOf),
    },
  );
  return every.map((compared) =>
    compared.exposure.ranked.map((one, ranked) => {
      const reason = refusal(compared, ranked);
      const { column, levels } = compared.exposure;
      return reason === null ? ratioOfTerm(fit, `${column}=${levels[one.level]}`, about) : noRatio(about, reason);
    }),
  );
}

/** An exposure's levels over some lives, or all; where it cannot exist is a level of its own. */
export function jointLevels({ levels, codes }: Exposure, some: Int32Array | null) {
  const own = some === null ? codes : gather(codes, some);
  if (!own.includes(-1)) return { levels, codes: own };
  return { levels: [...levels, 'not-applicable'], codes: own.map((code) => (code < 0 ? levels.length : code)) };
}
