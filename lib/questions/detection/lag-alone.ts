import type { DetectionDelay } from '../../statistics/index.ts';

/** Steps of the sum over ages at which a leak may begin. */
const steps = 400;

/**
 * Share found by the horizon where leaks begin by a Weibull and come to light at one rate from then
 * on: ∫ f(t) (1 − e^(−rate (horizon − t))) dt. Checks that come at random, so many to the mile, and
 * see a leak with one chance find it at the rate checks × chance.
 */
export function foundBy(
  onset: { readonly shape: number; readonly scale: number },
  rate: number,
  horizon: number,
): number {
  const begunBy = (age: number) => -Math.expm1(-((age / onset.scale) ** onset.shape));
  let share = 0;
  for (let step = 0; step < steps; step++) {
    const [from, to] = [(horizon * step) / steps, (horizon * (step + 1)) / steps];
    const z = rate * (to - from);
    const hidden = z > 1e-12 ? (Math.exp(-rate * (horizon - to)) * -Math.expm1(-z)) / z : 1;
    share += (begunBy(to) - begunBy(from)) * (1 - hidden);
  }
  return share;
}

/** At which a leak comes to light: by checks that see it, and between them. */
export const rateOfFinding = ({ chance, rateBetween }: DetectionDelay, checksPerAge: number): number =>
  (chance.value ?? 0) * checksPerAge + (rateBetween.value ?? 0);
