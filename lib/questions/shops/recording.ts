import type { Estimate } from '../../../shared/finding.ts';
import { proportion } from '../../statistics/index.ts';
import { toEstimate } from '../estimate.ts';
import { deviationValues, type DeviationColumns } from './deviation-covariates.ts';

const [yes, no, unknown] = deviationValues.map((_, index) => index) as [number, number, number, number];

/** Lives by what one deviation says of them, in the order of `deviationValues`. */
export function valueCounts(values: Uint8Array, own: ArrayLike<number>): number[] {
  const counts = deviationValues.map(() => 0);
  for (let at = 0; at < own.length; at++) {
    const value = values[own[at] as number] as number;
    counts[value] = (counts[value] as number) + 1;
  }
  return counts;
}

/** Of everything that could be told of every deviation at these lives, what is. */
function toldOf(deviations: DeviationColumns, own: ArrayLike<number>): { told: number; of: number } {
  let [told, of] = [0, 0];
  for (const values of deviations.values()) {
    const counts = valueCounts(values, own);
    told += (counts[yes] as number) + (counts[no] as number);
    of += (counts[yes] as number) + (counts[no] as number) + (counts[unknown] as number);
  }
  return { told, of };
}

/** Jobs with at least one recorded deviation, and the answers given and blank behind that. */
export function deviationCounts(deviations: DeviationColumns, own: Int32Array): Record<string, number> {
  let withOne = 0;
  for (const at of own) if ([...deviations.values()].some((values) => values[at] === yes)) withOne++;
  const { told, of } = toldOf(deviations, own);
  return { jobsWithDeviation: withOne, deviationAnswers: told, deviationBlanks: of - told };
}

/** Completeness of recording: answers given over answers that could be, over every deviation that can exist at each job. */
export function recordingShare(deviations: DeviationColumns, own: Int32Array, level: number): Estimate {
  const { told, of } = toldOf(deviations, own);
  const about = { level, unit: 'share', method: 'answers recorded of those that could be', reason: 'no job' };
  const share = of === 0 ? null : told / of;
  // Every answer is counted, none sampled: limits would say chance where there is none.
  return toEstimate(
    of === 0 ? proportion({ events: 0, total: 0 }) : { value: share, lower: share, upper: share },
    about,
  );
}
