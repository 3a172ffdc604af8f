import { shownLimits, type Estimate, type Group, type Series } from '../../../shared/finding.ts';
import { daysAMonth } from '../../../shared/units.ts';
import { earlyOf, horizonOf } from '../../../shared/view.ts';
import type { SurvivalCurve } from '../../statistics/index.ts';
import type { Asking } from '../asking.ts';
import { firmnessOfOne } from '../firmness.ts';
import { gather } from '../gather.ts';
import { lifeCurves } from '../life-curves.ts';
import { failedByHorizon, lifeAtShare } from '../life-estimates.ts';
import { ended } from '../life-rows.ts';
import { curveSeries } from '../life-series.ts';
import { wording } from '../words/wording.ts';
import { before } from './earlier-lives.ts';
import type { RepeatsEvidence } from './repeats-evidence.ts';

/** Lives told apart by what went before; a life is in one of the first two and in one of the others. */
export const afterFailure = 'after a failure';
export const afterRenewal = 'after a renewal without a failure';
const numbered = ['first there', 'second there', 'third there', 'fourth there or later'];

interface Kind {
  readonly label: string;
  readonly places: Int32Array;
}

function kinds({ aged, before: earlier, lifeNumber }: RepeatsEvidence): Kind[] {
  const where = (label: string, test: (place: number) => boolean): Kind => ({ label, places: aged.filter(test) });
  return [
    where(afterFailure, (place) => earlier[place] === before.failed),
    where(afterRenewal, (place) => earlier[place] === before.renewed),
    ...numbered.map((label, at) =>
      where(label, (place) => {
        const number = lifeNumber[place] as number;
        return at === numbered.length - 1 ? number > at : number === at + 1;
      }),
    ),
  ].filter(({ places }) => places.length > 0);
}

export interface RepeatsGroups {
  readonly groups: readonly Group[];
  readonly series: readonly Series[];
}

/** How soon lives of each kind fail: within the early stretch, in days, and by the horizon. */
export function repeatsGroups(evidence: RepeatsEvidence, asking: Asking): RepeatsGroups {
  const told = kinds(evidence).map((kind) => groupOf(evidence, kind, asking));
  return { groups: told.map(({ group }) => group), series: told.flatMap(({ series }) => series) };
}

function curveOf(
  { lives }: RepeatsEvidence,
  { label, places }: Kind,
  ages: { readonly entry: Float64Array; readonly exit: Float64Array },
  view: Asking['view'],
): { readonly curve: SurvivalCurve | undefined; readonly start: number | null } {
  const rows = {
    ...{ rows: places.length, group: new Int32Array(places.length), unit: gather(lives.unit, places) },
    ...{ entry: gather(ages.entry, places), exit: gather(ages.exit, places), ended: gather(lives.ended, places) },
  };
  const drawn = lifeCurves(rows, [label], view);
  return { curve: drawn.curves[0], start: drawn.starts[0] ?? null };
}

function groupOf(evidence: RepeatsEvidence, kind: Kind, { view, words }: Asking): { group: Group; series: Series[] } {
  const { lives, months } = evidence;
  const { label, places } = kind;
  const { curve, start } = curveOf(evidence, kind, lives, view);
  const failures = places.reduce((sum, place) => sum + (lives.ended[place] === ended.failed ? 1 : 0), 0);
  const estimates: Record<string, Estimate> = {};
  if (curve) {
    estimates['failedWithinEarly'] = failedByHorizon(curve, start, earlyOf(view), words);
    estimates['failedByHorizonHadNoneBeenRenewed'] = failedByHorizon(curve, start, horizonOf(view), words);
    estimates['b10Life'] = lifeAtShare(curve, start, 0.1, words);
  }
  const byDays = months && curveOf(evidence, kind, months, { ...view, axis: 'months' });
  if (byDays?.curve)
    for (const days of [30, 90])
      estimates[`comebackWithin${days}Days`] = failedByHorizon(
        byDays.curve,
        byDays.start,
        (days + 0.5) / daysAMonth,
        wording('us', 'months'),
      );
  return {
    group: {
      ...{ label, by: { lives: label }, lives: places.length, failures },
      miles: gather(lives.exposureMiles, places).reduce((sum, one) => sum + one, 0),
      firmness: firmnessOfOne(failures, limitsOf(estimates['failedWithinEarly'])),
      ...{ counts: {}, estimates },
    },
    series: curve && start !== null ? [curveSeries(curve, start, view)] : [],
  };
}

const limitsOf = (estimate: Estimate | undefined) => (estimate ? shownLimits(estimate) : { lower: null, upper: null });
