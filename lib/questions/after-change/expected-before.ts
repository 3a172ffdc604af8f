import { coxBaseline, coxRegression, kaplanMeier, type CoxRegression } from '../../statistics/index.ts';
import type { ChangeEvidence } from './change-evidence.ts';
import type { WithinAges } from './common-ages.ts';
import { modelData } from './model-data.ts';

/** Failures expected of any life between two of its ages, had it been fitted as some lives were. */
export type Expecting = (at: number, from: number, to: number) => number;

/** Cumulative hazard as a step function. */
interface Steps {
  readonly time: Float64Array;
  readonly hazard: Float64Array;
}

function hazardAt({ time, hazard }: Steps, age: number): number {
  let [low, high] = [0, time.length];
  while (low < high) {
    const middle = (low + high) >> 1;
    if ((time[middle] as number) <= age) low = middle + 1;
    else high = middle;
  }
  return low === 0 ? 0 : (hazard[low - 1] as number);
}

/**
 * A fit to some lives alone, read at others: baseline by shop, times what is known of the life. A
 * shop without a life among those fitted has no baseline, and nothing is expected of it.
 */
export function expectingAs(evidence: ChangeEvidence, fitted: WithinAges): Expecting {
  const data = modelData(evidence, fitted, false);
  const { adjustment } = evidence;
  const names = Object.keys(data.covariates);
  const fit = names.length === 0 ? null : coxRegression(data, { concordance: false, limitsOf: [] });
  const useful = fit?.converged === true && fit.terms.length > 0;
  const curves: { stratum: string; steps: Steps }[] = useful
    ? coxBaseline(data, fit).map((curve) => ({
        stratum: curve.stratum,
        steps: { time: curve.time, hazard: curve.cumulativeHazard },
      }))
    : kaplanMeier({ exit: data.exit, event: data.event, entry: fitted.entry, group: data.strata }).map((curve) => ({
        stratum: curve.group,
        steps: { time: curve.time, hazard: hazardOf(curve) },
      }));
  const steps = new Map(curves.map(({ stratum, steps: own }) => [stratum, own]));
  const ratios = names.map((name) => {
    const column = adjustment.covariates[name] ?? { levels: [], codes: new Int32Array() };
    return {
      codes: column.codes,
      ratio: column.levels.map((level) => (useful ? ratioOf(fit, `${name}=${level}`) : 1)),
    };
  });
  return (at, from, to) => {
    const own = steps.get(adjustment.strata.levels[adjustment.strata.codes[at] as number] ?? '');
    if (!own || !(to > from)) return 0;
    const ratio = ratios.reduce((product, { codes, ratio: by }) => product * (by[codes[at] as number] ?? 1), 1);
    return ratio * (hazardAt(own, to) - hazardAt(own, from));
  };
}

function hazardOf(curve: { readonly events: Float64Array; readonly atRisk: Float64Array }): Float64Array {
  let sum = 0;
  return curve.events.map((events, at) => (sum += events / (curve.atRisk[at] as number)));
}

const ratioOf = (fit: CoxRegression, term: string): number => {
  const at = fit.terms.indexOf(term);
  const value = at < 0 ? 1 : (fit.ratio[at] as number);
  return Number.isFinite(value) ? value : 1;
};
