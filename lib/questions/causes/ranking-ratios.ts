import { coxRegression } from '../../statistics/index.ts';
import { attributeName } from '../words/group-words.ts';
import { listed } from '../words/share-words.ts';
import type { ComparedLives } from './compared-lives.ts';
import type { Exposure } from './exposure.ts';
import type { LevelCounts } from './level-counts.ts';
import { noRatio, ratioOfTerm, tooFewFor, type Ratio, type RatioAbout } from './ratios.ts';

/** What of a comparison is known before anything is fitted. */
export interface Compared {
  readonly exposure: Exposure;
  readonly lives: ComparedLives;
  /** Level of the exposure of each of these lives. */
  readonly codes: Int32Array;
  readonly counts: LevelCounts;
  /** By ranked level: why no comparison is made, null where one is. */
  readonly refused: readonly (string | null)[];
}

/** `role and lubricant taken into account, within shops`. */
export function takenInto({ lives }: ComparedLives, more = ''): string {
  const names = Object.keys(lives.covariates).map(attributeName);
  const taken = names.length === 0 ? 'nothing taken into account' : `${listed(names)}${more} taken into account`;
  const within = lives.strataOf.length === 0 ? '' : `, within ${listed(lives.strataOf.map(attributeName))}`;
  return `${taken}${within}`;
}

/** `Cox, late entry, role and lubricant taken into account, within shops`. */
export const methodOf = (lives: ComparedLives, more = ''): string => `Cox, late entry, ${takenInto(lives, more)}`;

/** Why a level has no ratio; null where it may have one. */
export const reasonAgainst = ({ counts, refused, exposure }: Compared, ranked: number): string | null => {
  const level = exposure.ranked[ranked]?.level ?? 0;
  return tooFewFor(counts.failures[level] as number, counts.failures[0] as number) ?? refused[ranked] ?? null;
};

/** Terms of the ranked levels: of the others no limits are wanted. */
export const termsOf = ({ exposure }: Compared): string[] =>
  exposure.ranked.map(({ level }) => `${exposure.column}=${exposure.levels[level]}`);

/** Whether any ranked level of an exposure may have a ratio. */
export const anyRatio = (compared: Compared): boolean =>
  compared.exposure.ranked.some((_, ranked) => reasonAgainst(compared, ranked) === null);

/** One ratio a ranked level from one fit, or why there is none. */
export function ratiosFrom(compared: Compared, about: RatioAbout, fit: () => (term: string) => Ratio): Ratio[] {
  const { exposure } = compared;
  if (!anyRatio(compared))
    return exposure.ranked.map((_, ranked) => noRatio(about, reasonAgainst(compared, ranked) ?? ''));
  const read = fit();
  return exposure.ranked.map(({ level }, ranked) => {
    const reason = reasonAgainst(compared, ranked);
    return reason === null ? read(`${exposure.column}=${exposure.levels[level]}`) : noRatio(about, reason);
  });
}

/** Without anything taken into account. */
export function crudeRatios(compared: Compared, level: number): Ratio[] {
  const about = { level, method: 'Cox, late entry, nothing taken into account' };
  return ratiosFrom(compared, about, () => {
    const { data, riskSets } = compared.lives.crude;
    const { column, levels } = compared.exposure;
    const covariates = { [column]: { levels, codes: compared.codes } };
    const fit = coxRegression(
      { ...data, covariates },
      { level, riskSets, concordance: false, limitsOf: termsOf(compared) },
    );
    return (term) => ratioOfTerm(fit, term, about);
  });
}

/** With the covariates, within the strata. */
export function adjustedRatios(compared: Compared, level: number): Ratio[] {
  return ratiosOfCodes(compared, level, compared.codes, compared.exposure.levels);
}

/** The adjusted ratio under another reading of the exposure, of the same lives. */
export function ratiosOfCodes(
  compared: Compared,
  level: number,
  codes: Int32Array,
  levels: readonly string[],
): Ratio[] {
  const about = { level, method: methodOf(compared.lives) };
  return ratiosFrom(compared, about, () => {
    const { data, riskSets } = compared.lives.adjusted;
    // Behind the others: where it is a combination of them, it is the one that cannot be told.
    const covariates = { ...compared.lives.lives.covariates, [compared.exposure.column]: { levels, codes } };
    const fit = coxRegression(
      { ...data, covariates },
      { level, riskSets, concordance: false, limitsOf: termsOf(compared) },
    );
    return (term) => ratioOfTerm(fit, term, about);
  });
}
