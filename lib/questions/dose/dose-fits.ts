import type { Series } from '../../../shared/finding.ts';
import { coxRegression, type CoxRegression, type Covariates } from '../../statistics/index.ts';
import { noRatio, ratioOfTerm, tooFewFor, type Ratio } from '../causes/ratios.ts';
import { firmnessRule } from '../firmness.ts';
import { attributeName } from '../words/group-words.ts';
import { listed } from '../words/share-words.ts';
import type { DoseEvidence } from './dose-evidence.ts';
import { smoothBasis } from './smooth-basis.ts';
import { nominalOf, sideOf } from './value-window.ts';

const fitOf = (
  { entry, exit, event, adjustment }: DoseEvidence,
  covariates: Covariates,
  level: number,
  limitsOf: string[],
) =>
  coxRegression(
    {
      ...{ entry, exit, event, strata: adjustment.strata, cluster: adjustment.cluster },
      covariates: { ...adjustment.covariates, ...covariates },
    },
    { level, concordance: false, limitsOf },
  );

/** `Cox, late entry, axle role taken into account, within shop`. */
function methodOf({ adjustment: { covariates, strataOf } }: DoseEvidence): string {
  const names = Object.keys(covariates).map(attributeName);
  const taken = names.length === 0 ? 'nothing' : listed(names);
  const within = strataOf.length === 0 ? '' : `, within ${listed(strataOf.map(attributeName))}`;
  return `Cox, late entry, ${taken} taken into account${within}`;
}

/** Ratio of each level to the first, what else is known taken into account. */
export function ratiosToFirst(
  evidence: DoseEvidence,
  levels: readonly string[],
  codes: Int32Array,
  level: number,
): Ratio[] {
  const about = { level, method: methodOf(evidence) };
  const failures = levels.map((_, code) =>
    codes.reduce((sum, own, at) => sum + (own === code ? (evidence.event[at] as number) : 0), 0),
  );
  const reasons = levels.map((_, code) => tooFewFor(failures[code] as number, failures[0] as number));
  if (reasons.slice(1).every((reason) => reason !== null))
    return levels.map((_, code) => noRatio(about, reasons[code] ?? 'the others are held against it'));
  const terms = levels.map((label) => `value=${label}`);
  const fit = fitOf(evidence, { value: { levels, codes } }, level, terms.slice(1));
  return levels.map((_, code) => {
    const reason = code === 0 ? 'the others are held against it' : (reasons[code] ?? null);
    return reason === null ? ratioOfTerm(fit, terms[code] as string, about) : noRatio(about, reason);
  });
}

/** Under and over the window against inside it. */
export function outsideRatios(evidence: DoseEvidence, level: number): { readonly under: Ratio; readonly over: Ratio } {
  const levels = ['inside', 'under', 'over'] as const;
  const codes = Int32Array.from(evidence.value, (value) => levels.indexOf(sideOf(evidence.window, value)));
  const [, under, over] = ratiosToFirst(evidence, levels, codes, level) as [Ratio, Ratio, Ratio];
  return { under, over };
}

const drawn = 80;

/** Hazard over the value, 1 at the middle of the window, with limits; nothing where no curve can be fitted. */
export function hazardOverValue(evidence: DoseEvidence, level: number): Series[] {
  // A curve of three terms from fewer failures follows chance.
  if (evidence.event.reduce((sum, one) => sum + one, 0) < firmnessRule.fairFailures) return [];
  // In units of the middle of the window: the ratio of one inch of end play is past all numbers.
  const middleOf = nominalOf(evidence.window);
  const unit = middleOf > 0 ? middleOf : 1;
  const basis = smoothBasis(evidence.value.map((value) => value / unit));
  const names = basis.at(0).map((_, at) => `value ${at}`);
  const columns = names.map((_, at) => evidence.value.map((value) => basis.at(value / unit)[at] as number));
  const covariates = Object.fromEntries(names.map((name, at) => [name, columns[at] as Float64Array]));
  const fit = fitOf(evidence, covariates, level, names.slice(0, 1));
  const places = names.map((name) => fit.terms.indexOf(name));
  if (!fit.converged || places.some((at) => at < 0 || !Number.isFinite(fit.coefficients[at]))) return [];
  const first = places[0] as number;
  const z =
    Math.log((fit.ratio[first] as number) / (fit.lower[first] as number)) / (fit.standardErrors[first] as number);
  const sorted = evidence.value.slice().sort();
  const valueAt = (share: number) => sorted[Math.floor(share * (sorted.length - 1))] as number;
  const [from, to] = [valueAt(0.01), valueAt(0.99)];
  const values = Array.from({ length: drawn }, (_, at) => from + ((to - from) * at) / (drawn - 1));
  const middle = basis.at(middleOf / unit);
  const told = values.map((value) => {
    const moved = basis.at(value / unit).map((own, at) => own - (middle[at] as number));
    return { log: dotAt(fit.coefficients, places, moved), error: errorAt(fit, places, moved) };
  });
  return [
    {
      ...{ name: 'hazard-over-value', group: 'all' },
      columns: {
        value: values,
        ratio: told.map(({ log }) => bounded(Math.exp(log))),
        lower: told.map(({ log, error }) => bounded(Math.exp(log - z * error))),
        upper: told.map(({ log, error }) => bounded(Math.exp(log + z * error))),
      },
    },
  ];
}

/** Far from where readings lie nothing bounds the curve: null, not a number past all numbers. */
const bounded = (ratio: number): number | null => (Number.isFinite(ratio) ? ratio : null);

const dotAt = (coefficients: Float64Array, places: readonly number[], moved: readonly number[]): number =>
  places.reduce((sum, at, own) => sum + (coefficients[at] as number) * (moved[own] as number), 0);

/** The larger of the model's and the vehicle-robust standard error of a log ratio. */
function errorAt(
  { covariance, robustCovariance, terms }: CoxRegression,
  places: readonly number[],
  moved: readonly number[],
): number {
  const size = terms.length;
  const around = (matrix: Float64Array) =>
    places.reduce(
      (sum, row, i) =>
        sum +
        places.reduce(
          (inner, column, j) =>
            inner + (moved[i] as number) * (matrix[row * size + column] as number) * (moved[j] as number),
          0,
        ),
      0,
    );
  const variance = Math.max(around(covariance), robustCovariance ? around(robustCovariance) : 0);
  return Math.sqrt(Math.max(0, variance));
}
