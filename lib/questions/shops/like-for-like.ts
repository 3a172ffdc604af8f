import { coxRiskSets, observedExpected, type ObservedExpected } from '../../statistics/index.ts';
import { deviationCovariates } from './deviation-covariates.ts';
import type { ShopsEvidence } from './shops-evidence.ts';

/** Each group's ratio once one more column is taken into account. */
export interface Step {
  /** `watched`: failures by what was watched; `age`: with the ages of the lives; then a column. */
  readonly name: string;
  readonly ratio: readonly (number | null)[];
}

/** The groups set against all of them together on like work. */
export interface LikeForLike {
  readonly plain: ObservedExpected;
  /** With the recorded deviations taken into account as well; null where none has failures enough. */
  readonly withDeviations: ObservedExpected | null;
  /** Codes of the deviations that are. */
  readonly deviations: readonly string[];
  readonly steps: readonly Step[];
}

/**
 * Observed and expected failures of every group, from what was watched alone to all that is taken
 * into account, one column at a time; null without a failure.
 */
export function likeForLike(evidence: ShopsEvidence, level: number, signal?: AbortSignal): LikeForLike | null {
  const { entry, exit, event, groups, adjustment } = evidence;
  if (!event.includes(1)) return null;
  const times = { entry, exit, event };
  const unstratified = { ...times, group: groups, cluster: adjustment.cluster };
  const stratified = { ...unstratified, ...(adjustment.strataOf.length > 0 ? { strata: adjustment.strata } : {}) };
  const riskSets = coxRiskSets(stratified);
  const covariates = Object.entries(adjustment.covariates);
  const steps: Step[] = [
    { name: 'watched', ratio: ratesOverAll(evidence) },
    { name: 'age', ratio: observedExpected(unstratified, { influence: false }).ratio },
  ];
  if (adjustment.strataOf.length > 0)
    steps.push({
      name: adjustment.strataOf.join(' · '),
      ratio: observedExpected(stratified, { riskSets, influence: false }).ratio,
    });
  for (const [place, [column]] of covariates.entries()) {
    signal?.throwIfAborted();
    if (place === covariates.length - 1) break;
    const some = Object.fromEntries(covariates.slice(0, place + 1));
    const { ratio } = observedExpected({ ...stratified, covariates: some }, { riskSets, influence: false });
    steps.push({ name: column, ratio });
  }
  const plain = observedExpected({ ...stratified, covariates: adjustment.covariates }, { level, riskSets });
  const last = covariates.at(-1);
  if (last) steps.push({ name: last[0], ratio: plain.ratio });
  signal?.throwIfAborted();
  const recorded = Object.fromEntries(
    Object.entries(deviationCovariates(evidence.deviations, event)).filter(
      ([column]) => !(column in adjustment.covariates),
    ),
  );
  const deviations = Object.keys(recorded);
  const all = { ...adjustment.covariates, ...recorded };
  const withDeviations =
    deviations.length > 0 ? observedExpected({ ...stratified, covariates: all }, { level, riskSets }) : null;
  return { plain, withDeviations, deviations, steps };
}

function ratesOverAll({ entry, exit, event, groups }: ShopsEvidence): (number | null)[] {
  const failed = groups.levels.map(() => 0);
  const watched = groups.levels.map(() => 0);
  groups.codes.forEach((group, at) => {
    failed[group] = (failed[group] as number) + (event[at] as number);
    watched[group] = (watched[group] as number) + (exit[at] as number) - (entry[at] as number);
  });
  const total = (values: readonly number[]) => values.reduce((sum, value) => sum + value, 0);
  const all = total(failed) / total(watched);
  return failed.map((events, group) =>
    (watched[group] as number) > 0 ? events / (watched[group] as number) / all : null,
  );
}
