import type { Doubt, Firmness } from '../../shared/finding.ts';
import { firmnessRule } from '../../shared/firmness-rule.ts';
import { inWords, listed } from './words/share-words.ts';
import { count, counted, significant, type Limits } from './words/wording.ts';

export { firmnessRule };

export interface Verdict {
  readonly firmness: Firmness;
  readonly reason: string;
}

function byFailures(least: number, mayBeFirm: boolean): Firmness {
  if (least < firmnessRule.thinFailures) return 'too few';
  if (least < firmnessRule.fairFailures) return 'thin';
  return least >= firmnessRule.firmFailures && mayBeFirm ? 'firm' : 'fair';
}

function width({ lower, upper }: Limits): number {
  return lower !== null && upper !== null && lower > 0 ? upper / lower : Infinity;
}

/** Firmness of one group alone: by failures and by the width of its (wider) interval. */
export function firmnessOfOne(failures: number, limits: Limits): Firmness {
  return byFailures(failures, width(limits) <= firmnessRule.firmWidth);
}

const failing = (doubts: readonly Doubt[]): number => doubts.filter(({ state }) => state === 'fails').length;

function standing(doubts: readonly Doubt[]): string {
  const number = failing(doubts);
  if (number === 0) return 'no doubt stands';
  return number === 1 ? 'one doubt stands' : `${inWords(number)} doubts stand`;
}

export interface OneGroup {
  readonly failures: number;
  readonly limits: Limits;
  /** What is counted: `failure`, `leak`, `soaked lining`. */
  readonly event: string;
}

/** The verdict on an answer about one group; a failing doubt keeps it from firm. */
export function verdictOnOne({ failures, limits, event }: OneGroup, doubts: readonly Doubt[]): Verdict {
  const narrow = width(limits) <= firmnessRule.firmWidth;
  const firmness = byFailures(failures, narrow && failing(doubts) === 0);
  const wide = failures >= firmnessRule.firmFailures && !narrow ? ', but a wide interval' : '';
  return { firmness, reason: `${counted(failures, event)}${wide}; ${standing(doubts)}` };
}

export interface ComparedGroups {
  /** Failures of every group compared. */
  readonly failures: readonly number[];
  readonly event: string;
  /** Larger of the model's and the vehicle-robust p-value, corrected for the number compared; null = cannot be had. */
  readonly pValue: number | null;
  /** Wider limits of the ratio of the two groups named in the answer; null = cannot be had. */
  readonly ratio: Limits | null;
}

const within = ({ lower, upper }: Limits): boolean =>
  lower !== null && upper !== null && lower >= firmnessRule.noDifference[0] && upper <= firmnessRule.noDifference[1];

/** The verdict on a comparison. */
export function verdictOnComparison(compared: ComparedGroups, doubts: readonly Doubt[]): Verdict {
  const { failures, event, pValue, ratio } = compared;
  if (failures.length < 2)
    return { firmness: 'too few', reason: `fewer than two groups with ${firmnessRule.thinFailures} ${event}s or more` };
  const differs = pValue !== null && pValue < firmnessRule.firmPValue;
  const same = ratio !== null && within(ratio);
  const firmness = byFailures(Math.min(...failures), (differs || same) && failing(doubts) === 0);
  const chance = differs ? '' : same ? '; no difference worth the name' : '; the difference may be chance';
  return { firmness, reason: `${failureWords(failures, event)}${chance}; ${standing(doubts)}` };
}

/** Firmness of one comparison among many: the rule of `verdictOnComparison`, its doubts already weighed. */
export function firmnessOfComparison(compared: {
  readonly least: number;
  readonly pValue: number | null;
  readonly ratio: Limits | null;
  readonly doubted: boolean;
}): Firmness {
  const { least, pValue, ratio, doubted } = compared;
  const told = (pValue !== null && pValue < firmnessRule.firmPValue) || (ratio !== null && within(ratio));
  return byFailures(least, told && !doubted);
}

function failureWords(failures: readonly number[], event: string): string {
  if (failures.length === 2) return `${listed(failures.map(count))} ${event}s`;
  const [least, most] = [Math.min(...failures), Math.max(...failures)];
  return `${count(least)} to ${count(most)} ${event}s in ${inWords(failures.length)} groups`;
}

/** `p = 0.034`, `p < 0.001`, never parted at the end of a line. */
export const pWords = (pValue: number): string =>
  (pValue < 0.001 ? 'p < 0.001' : pValue > 0.99 ? 'p > 0.99' : `p = ${significant(pValue, 2)}`).replaceAll(
    ' ',
    '\u00a0',
  );
