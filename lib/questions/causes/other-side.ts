import { coxRegression } from '../../statistics/index.ts';
import { methodOf, ratiosFrom, termsOf, type Compared } from './ranking-ratios.ts';
import { ratioOfTerm, type Ratio } from './ratios.ts';
import { discordant, type Discordant } from './discordant.ts';

/** The ratio among lives that share a vehicle, or an axle of one, and how much there is to tell it by. */
export interface SameVehicle {
  readonly ratios: readonly Ratio[];
  /** By ranked level. */
  readonly discordant: readonly Discordant[];
}

/**
 * The adjusted ratio with a baseline for each vehicle, or each axle of one: driver, duty and road are
 * shared there, and whatever of them nobody wrote down cancels out. Shops differ within a vehicle
 * and are taken into account as a covariate.
 */
export function sameVehicleRatios(compared: Compared, level: number, within: 'cluster' | 'axle'): SameVehicle {
  const { lives } = compared.lives;
  const { column, levels, ranked } = compared.exposure;
  const strata = lives[within];
  const where = within === 'cluster' ? 'within each vehicle' : 'within each axle of a vehicle';
  const about = { level, method: `${methodOf(compared.lives).replace(/, within.*/, '')}, the shop too, ${where}` };
  const ratios = ratiosFrom(compared, about, () => {
    const { entry, exit, event, cluster } = lives;
    const shop = lives.strataOf.includes('shop') && lives.shop.levels.length > 1 ? { shop: lives.shop } : {};
    const covariates = { ...lives.covariates, ...shop, [column]: { levels, codes: compared.codes } };
    const fit = coxRegression(
      { entry, exit, event, strata, cluster, covariates },
      { level, concordance: false, limitsOf: termsOf(compared) },
    );
    return (term) => ratioOfTerm(fit, term, about);
  });
  return { ratios, discordant: ranked.map((one) => discordant(lives, strata, compared.codes, one.level)) };
}
