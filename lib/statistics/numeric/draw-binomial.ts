import type { Random } from './random.ts';

/** Trials taken at once: the chance of no success among them, at most a half a trial, stays a number. */
const AT_ONCE = 500;

/** Successes among independent trials, by inversion of the distribution function (Devroye 1986, §X.4.2). */
export function drawBinomial(trials: number, probability: number, random: Random): number {
  if (probability <= 0 || trials === 0) return 0;
  if (probability > 0.5) return trials - drawBinomial(trials, 1 - probability, random);
  let successes = 0;
  for (let left = trials; left > 0; left -= AT_ONCE) successes += invert(Math.min(left, AT_ONCE), probability, random);
  return successes;
}

function invert(trials: number, probability: number, random: Random): number {
  const odds = probability / (1 - probability);
  let term = Math.exp(trials * Math.log1p(-probability));
  let rest = random.uniform();
  let successes = 0;
  while (rest > term && successes < trials) {
    rest -= term;
    successes++;
    term *= (odds * (trials - successes + 1)) / successes;
  }
  return successes;
}
