import { drawBinomial } from './numeric/draw-binomial.ts';
import type { Random } from './numeric/random.ts';
import { StatisticsError } from './statistics-error.ts';

/**
 * Of drawn totals those with a mark, where `events` of `total` seen had it: for each draw a share from
 * its posterior under Jeffreys' prior, then whole things by that share.
 *
 * @throws StatisticsError where more had it than were seen.
 * @returns whole numbers, in the order of the draws.
 * Source: Gelman et al., Bayesian Data Analysis, §2.4 and §1.9. Outside check: beta-binomial mean and variance in closed form.
 */
export function drawnShare(
  drawn: Float64Array,
  { events, total }: { readonly events: number; readonly total: number },
  random: Random,
): Float64Array {
  if (!(events >= 0 && events <= total)) throw new StatisticsError('events', `${events} is not from 0 to ${total}`);
  return drawn.map((count) => {
    const [having, not] = [random.gamma(events + 0.5), random.gamma(total - events + 0.5)];
    return drawBinomial(count, having / (having + not), random);
  });
}
