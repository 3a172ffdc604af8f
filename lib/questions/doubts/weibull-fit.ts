import { type Doubt } from '../../../shared/finding.ts';
import { survivalAt, type LifeFit, type SurvivalCurve } from '../../statistics/index.ts';
import { listed } from '../words/share-words.ts';
import { doubt } from './doubt.ts';

/** A fitted group: its curve, the age it starts at, and the Weibull fitted to the same lives. */
export interface Fitted {
  readonly label: string;
  readonly curve: SurvivalCurve;
  readonly start: number;
  readonly fit: LifeFit<'weibull'>;
}

/** Ages compared, as shares of the events seen; one of nine pointwise limits may be missed by chance. */
const shares = [0.1, 0.2, 0.3, 0.4, 0.5, 0.6, 0.7, 0.8, 0.9];
const mostMissed = 1;

/** Whether the fitted line leaves the curve's limits at more than one of nine ages spread over the failures. */
export function weibullMisses({ curve, start, fit }: Fitted): boolean {
  const total = curve.events.reduce((sum, value) => sum + value, 0);
  const reached = fit.survivalAt(start).value;
  let [seen, missed, next] = [0, 0, 0];
  for (let place = 0; place < curve.time.length && next < shares.length; place++) {
    seen += curve.events[place] as number;
    if (seen < total * (shares[next] as number)) continue;
    while (next < shares.length && seen >= total * (shares[next] as number)) next++;
    const time = curve.time[place] as number;
    const point = survivalAt(curve, time);
    const fitted = fit.survivalAt(time).value / reached;
    const lower = Math.min(point.lower ?? 0, point.robustLower ?? point.lower ?? 0);
    const upper = Math.max(point.upper ?? 1, point.robustUpper ?? point.upper ?? 1);
    if (fitted < lower || fitted > upper) missed++;
  }
  return missed > mostMissed;
}

/** Whether one Weibull shape describes the lives: a mixture of early failures and wear has no single shape. */
export function weibullFit(fitted: readonly Fitted[]): Doubt | null {
  if (fitted.length === 0) return null;
  const missed = fitted.filter(weibullMisses).map(({ label }) => `“${label}”`);
  const settledBy = 'the curve itself, which takes no shape for granted';
  if (missed.length === 0)
    return doubt('One shape', 'holds', 'The fitted Weibull line stays within the limits of the curve.', settledBy);
  const whose = fitted.length === 1 ? '' : ` of ${listed(missed)}`;
  return doubt(
    'One shape',
    'fails',
    `The fitted Weibull line leaves the limits of the curve${whose}: no single shape fits.`,
    settledBy,
  );
}
