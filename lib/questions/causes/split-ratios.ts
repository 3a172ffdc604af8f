import { coxTimeSplit, type CoxTimeSplit, type SplitRatio } from '../../statistics/index.ts';
import type { Estimate } from '../../../shared/finding.ts';
import { noEstimate, toEstimate } from '../estimate.ts';
import { gather } from '../gather.ts';
import type { Limits } from '../words/wording.ts';
import { anyRatio, methodOf, reasonAgainst, type Compared } from './ranking-ratios.ts';

/** The adjusted ratio up to an age and from there on, and the later over the early one. */
export interface EarlyAndLater {
  readonly early: Estimate;
  readonly later: Estimate;
  /** The wider limits; null where a side cannot be told. */
  readonly change: (Limits & { readonly value: number }) | null;
}

const finite = (value: number | null | undefined): number | null =>
  value != null && Number.isFinite(value) ? value : null;

function sideOf(side: SplitRatio, about: { level: number; method: string }, when: string): Estimate {
  const [value, lower, upper] = [finite(side.ratio), finite(side.lower), finite(side.upper)];
  const reason = side.ratio === null ? `the lives tell nothing of it ${when}` : `every failure ${when} was with it`;
  if (side.ratio === null || ((lower ?? 0) === 0 && upper === null))
    return noEstimate({ ...about, unit: 'ratio', reason });
  // Of an infinite coefficient the robust errors tell nothing.
  const settled = value !== null && value > 0 && side.robustLower != null;
  const vehicle = settled ? { value: null, lower: finite(side.robustLower), upper: finite(side.robustUpper) } : null;
  return toEstimate({ value, lower, upper }, { ...about, unit: 'ratio', reason }, vehicle);
}

/** One fit in which every ranked level has a ratio before and after the cut. */
export function earlyAndLater(compared: Compared, level: number, cut: number, said: string): EarlyAndLater[] {
  const about = { level, method: `${methodOf(compared.lives)}; a ratio of its own up to ${said} and after` };
  const none = (reason: string): EarlyAndLater => {
    const missing = noEstimate({ ...about, unit: 'ratio', reason });
    return { early: missing, later: missing, change: null };
  };
  if (!anyRatio(compared)) return compared.exposure.ranked.map((_, at) => none(reasonAgainst(compared, at) ?? ''));
  const { lives, sets } = compared.lives.splitAt(cut);
  const { column, levels, ranked } = compared.exposure;
  const codes = gather(compared.codes, lives.row);
  const covariates = { ...lives.covariates, [column]: { levels, codes } };
  const split = coxTimeSplit(
    { ...lives, covariates },
    {
      ...{ covariate: column, level, riskSets: sets, concordance: false },
      limitsOf: ranked.flatMap((one) => ['early', 'later'].map((when) => `${column}, ${when}=${levels[one.level]}`)),
    },
  );
  return ranked.map((one, at) => {
    const reason = reasonAgainst(compared, at);
    const term = split.terms[one.level - 1];
    if (reason !== null || !term) return none(reason ?? 'no life tells of it');
    return {
      early: sideOf(term.early, about, `by ${said}`),
      later: sideOf(term.later, about, `after ${said}`),
      change: changeOf(term.change),
    };
  });
}

function changeOf(change: CoxTimeSplit['terms'][number]['change']): EarlyAndLater['change'] {
  const { ratio, lower, upper, robustLower, robustUpper } = change;
  if (ratio === null || lower === null || upper === null) return null;
  return {
    value: ratio,
    lower: Math.min(lower, robustLower ?? lower),
    upper: Math.max(upper, robustUpper ?? upper),
  };
}
