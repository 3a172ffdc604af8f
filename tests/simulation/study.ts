import betaQuantile from '@stdlib/stats-base-dists-beta-quantile';
import { createRandom, type Random } from '../../lib/statistics/numeric/random.ts';

/**
 * What must be seen over many fleets. Shares: of intervals that hold the truth, of tests that reject. Means: of an
 * estimate over its truth, less 1.
 */
export type Claim =
  /** Asymptotic 95 % limits: 93 to 97 % hold the truth. */
  | 'covers'
  /** Exact 95 % limits, conservative by nature: at least 93 %. */
  | 'covers at least'
  /** A test at 5 % when nothing is there: at most 7 %. */
  | 'rejects at most'
  /** Shown to be wrong, so that the correction is shown to matter: under 92 % hold the truth. */
  | 'falls short'
  /** Shown to be wrong: over 8 % reject though nothing is there. */
  | 'rejects too often'
  /** A study of the planned size finds the effect it was planned for: 75 to 85 %, planned 80 %. */
  | 'finds'
  /** Off by at most 3 % on average. */
  | 'on target'
  /** Shown to be wrong: off by more than 10 % on average. */
  | 'off target'
  /** A limit of the method, said in its documentation; printed without a verdict. */
  | 'labelled';

const BOUNDS: Record<Claim, readonly [number, number]> = {
  covers: [0.93, 0.97],
  'covers at least': [0.93, 1],
  'rejects at most': [0, 0.07],
  'falls short': [0, 0.92],
  'rejects too often': [0.08, 1],
  finds: [0.75, 0.85],
  'on target': [-0.03, 0.03],
  'off target': [0.1, Infinity],
  labelled: [-Infinity, Infinity],
};

export interface Study {
  /** The function, by its name in the library. */
  readonly method: string;
  /** The fleet, in words. */
  readonly setting: string;
  readonly claims: Readonly<Record<string, Claim>>;
  /** Fleets in the short run under `npm test`, 100 unless given: fewer where one fleet takes long; 0 where it takes too long. */
  readonly shortRun?: number;
  /**
   * What one fleet shows of each claim: true or false (or the share of its own intervals that hold), an estimate over
   * its truth less 1, or null for no answer.
   */
  play(random: Random): Shown | Promise<Shown>;
}

type Shown = Readonly<Record<string, boolean | number | null>>;

export interface Outcome {
  readonly method: string;
  readonly setting: string;
  readonly what: string;
  readonly claim: Claim;
  readonly fleets: number;
  /** Fleets in which the method gave no answer (said so), left out of the share. */
  readonly unanswered: number;
  readonly value: number;
  /** What chance alone leaves open about `value`. */
  readonly lower: number;
  readonly upper: number;
  readonly holds: boolean;
}

/** Plays a study over many fleets; `tail` is the chance left beyond each end of the interval for a claim's value. */
export async function playStudy(study: Study, fleets: number, seed: number, tail = 0.025): Promise<Outcome[]> {
  const random = createRandom(seed + hash(`${study.method} ${study.setting}`));
  const shown = new Map<string, (boolean | number | null)[]>(Object.keys(study.claims).map((what) => [what, []]));
  for (let fleet = 0; fleet < fleets; fleet++) {
    const seen = await study.play(random);
    for (const [what, values] of shown) values.push(seen[what] ?? null);
  }
  return [...shown].map(([what, values]) => {
    const claim = study.claims[what] as Claim;
    const answers = values.filter((value) => value !== null);
    const summary =
      typeof answers[0] === 'number' ? meanOf(answers as number[], tail) : shareOf(answers as boolean[], tail);
    const value = claim === 'off target' ? Math.abs(summary.value) : summary.value;
    const [from, to] = BOUNDS[claim];
    const holds = answers.length > 0.9 * fleets && value >= from && value <= to;
    const unanswered = fleets - answers.length;
    return { method: study.method, setting: study.setting, what, claim, fleets, unanswered, ...summary, holds };
  });
}

/** Whether the claim is still possible given chance: for runs too short to judge it outright. */
export function couldHold({ claim, lower, upper, fleets, unanswered }: Outcome): boolean {
  const [from, to] = BOUNDS[claim];
  const enough = fleets - unanswered > 0.8 * fleets;
  if (claim === 'off target') return enough && (upper >= from || lower <= -from);
  return enough && upper >= from && lower <= to;
}

function shareOf(answers: boolean[], tail: number) {
  const [hits, count] = [answers.filter(Boolean).length, answers.length];
  const lower = hits === 0 ? 0 : betaQuantile(tail, hits, count - hits + 1);
  const upper = hits === count ? 1 : betaQuantile(1 - tail, hits + 1, count - hits);
  return { value: hits / count, lower, upper };
}

function meanOf(answers: number[], tail: number) {
  const count = answers.length;
  const value = answers.reduce((sum, one) => sum + one, 0) / count;
  const variance = answers.reduce((sum, one) => sum + (one - value) ** 2, 0) / (count - 1);
  // 4 at the short run's 1e-4, 2 at the table's 0.025: near enough for a mean over a hundred fleets or more.
  const reach = (tail < 0.01 ? 4 : 2) * Math.sqrt(variance / count);
  return { value, lower: value - reach, upper: value + reach };
}

/** FNV-1a, so that a study keeps its fleets when others come and go. */
function hash(text: string): number {
  let h = 0x811c9dc5;
  for (let i = 0; i < text.length; i++) h = Math.imul(h ^ text.charCodeAt(i), 0x01000193);
  return h >>> 0;
}

/** Whether limits hold the truth; null limits are unbounded. */
export function holds(
  limits: { readonly lower?: number | null | undefined; readonly upper?: number | null | undefined },
  truth: number,
): boolean {
  return (limits.lower ?? -Infinity) <= truth && truth <= (limits.upper ?? Infinity);
}
