import { daysAMonth } from '../../../shared/units.ts';
import { horizonOf } from '../../../shared/view.ts';
import {
  coxBaseline,
  coxExpected,
  coxRegression,
  type CoxRegression,
  type SurvivalData,
} from '../../statistics/index.ts';
import type { Asking } from '../asking.ts';
import { causesEvidence, type CausesEvidence } from '../causes/causes-evidence.ts';
import { LivesByScope } from '../causes/compared-lives.ts';
import type { Exposure } from '../causes/exposure.ts';
import { comparedOf } from '../causes/first-ranking.ts';
import { jointLevels } from '../causes/joint-ratios.ts';
import { reasonAgainst, type Compared } from '../causes/ranking-ratios.ts';
import { askedLives } from '../columns/asked-lives.ts';
import { gather } from '../gather.ts';

/** A deviation of the joint model. */
export interface JointDeviation {
  readonly code: string;
  readonly exposure: Exposure;
  readonly compared: Compared;
  /** Place of its "yes" among the terms of the fit; −1 where it has none. */
  readonly term: number;
  /** Why it has no ratio; null where it has one. */
  readonly reason: string | null;
}

/** Every deviation that can be told, in one model; columns are one a life. */
export interface SavingLives {
  readonly causes: CausesEvidence;
  readonly deviations: readonly JointDeviation[];
  /** Null where no deviation can be told. */
  readonly fit: CoxRegression | null;
  /** Failures expected of each life over what was watched of it. */
  readonly expected: Float64Array;
  /** Hazard of each life up to the horizon and up to its entry; NaN where its shop was not watched so far. */
  readonly hazard: Float64Array;
  readonly hazardAtEntry: Float64Array;
  readonly horizon: number;
  /** Lives whose miles were worked out from other readings. */
  readonly estimated: number;
  /** Day of the end of each life; NaN where lives tell none. */
  readonly endDay: Float64Array;
  /** The first and last day that failures would have been seen. */
  readonly seen: { readonly from: number; readonly to: number } | null;
}

export async function savingLives(asking: Asking): Promise<SavingLives> {
  const { view, source, signal } = asking;
  const causes = await causesEvidence({ ...asking, view: { ...view, by: [] } });
  const { lives } = causes;
  const scopes = new LivesByScope(lives);
  const told = causes.exposures.map((exposure) => {
    const compared = comparedOf(exposure, scopes);
    return { code: exposure.deviation ?? exposure.column, exposure, compared, reason: reasonAgainst(compared, 0) };
  });
  const usable = told.filter(({ reason }) => reason === null);
  const { entry, exit, event, strata, cluster } = lives;
  const data: SurvivalData = {
    ...{ entry, exit, event, strata, cluster },
    covariates: {
      ...lives.covariates,
      ...Object.fromEntries(usable.map(({ exposure }) => [exposure.column, jointLevels(exposure, null)])),
    },
  };
  const limitsOf = usable.map(({ exposure }) => `${exposure.column}=yes`);
  const fit = usable.length === 0 ? null : coxRegression(data, { level: view.level, concordance: false, limitsOf });
  const columns = await askedLives(source, causes.asked.component).columns(signal);
  const [day, months] = [gather(columns.installDay, causes.rows), gather(columns.months.exit, causes.rows)];
  return {
    causes,
    fit: fit?.converged === true ? fit : null,
    deviations: told.map((one) => withTerm(one, fit)),
    expected: fit?.converged === true ? coxExpected(data, fit).expected : new Float64Array(exit.length),
    ...hazards(lives, data, fit, horizonOf(view)),
    horizon: horizonOf(view),
    estimated: causes.rows.reduce((sum, row) => sum + (columns.estimated[row] as number), 0),
    endDay: day.map((own, at) => own + (months[at] as number) * daysAMonth),
    seen: seenBetween(source.account),
  };
}

function withTerm(one: Omit<JointDeviation, 'term'>, fit: CoxRegression | null): JointDeviation {
  const term = fit?.terms.indexOf(`${one.exposure.column}=yes`) ?? -1;
  const settled = term >= 0 && fit?.converged === true && Number.isFinite(fit.coefficients[term]);
  if (one.reason !== null || settled) return { ...one, term };
  return {
    ...one,
    term: -1,
    reason: 'it never differs among lives at risk together, or goes with what is taken into account',
  };
}

const dayOf = (iso: string): number => Date.parse(`${iso}T00:00:00Z`) / 86_400_000;

const seenBetween = ({ observedFrom, observedTo }: Asking['source']['account']): SavingLives['seen'] =>
  observedFrom === null || observedTo === null ? null : { from: dayOf(observedFrom), to: dayOf(observedTo) };

/** The hazard of each life to the horizon and to its entry, by its stratum's baseline and what is known of it. */
function hazards(
  { strata, exit, entry }: CausesEvidence['lives'],
  data: SurvivalData,
  fit: CoxRegression | null,
  horizon: number,
) {
  const none = new Float64Array(exit.length).fill(NaN);
  if (fit?.converged !== true) return { hazard: none, hazardAtEntry: none };
  const reach = new Float64Array(strata.levels.length);
  strata.codes.forEach((code, at) => (reach[code] = Math.max(reach[code] as number, exit[at] as number)));
  const curves = new Map(coxBaseline(data, fit).map((curve) => [curve.stratum, curve]));
  const ratio = relativeHazard(data, fit);
  const at = (place: number, age: number): number => {
    const curve = curves.get(strata.levels[strata.codes[place] as number] ?? '');
    if (!curve) return 0;
    let [low, high] = [0, curve.time.length];
    while (low < high) {
      const middle = (low + high) >> 1;
      if ((curve.time[middle] as number) <= age) low = middle + 1;
      else high = middle;
    }
    return low === 0 ? 0 : (curve.cumulativeHazard[low - 1] as number);
  };
  return {
    hazard: ratio.map((own, place) =>
      (reach[strata.codes[place] as number] as number) < horizon ? NaN : own * at(place, horizon),
    ),
    hazardAtEntry: ratio.map((own, place) => own * at(place, entry[place] as number)),
  };
}

/** exp(what is known of each life × its coefficient), reference levels 1. */
function relativeHazard({ covariates = {} }: SurvivalData, { terms, coefficients }: CoxRegression): Float64Array {
  const columns = Object.entries(covariates as Record<string, { levels: readonly string[]; codes: Int32Array }>);
  const parts = columns.map(([name, { levels, codes }]) => ({
    codes,
    log: levels.map((level) => {
      const value = coefficients[terms.indexOf(`${name}=${level}`)] ?? 0;
      return Number.isFinite(value) ? value : 0;
    }),
  }));
  const rows = columns[0]?.[1].codes.length ?? 0;
  return Float64Array.from({ length: rows }, (_, at) =>
    Math.exp(parts.reduce((sum, { codes, log }) => sum + (log[codes[at] as number] as number), 0)),
  );
}
