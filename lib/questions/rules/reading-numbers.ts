import type { Estimate } from '../../../shared/finding.ts';
import { horizonOf } from '../../../shared/view.ts';
import { coxRegression } from '../../statistics/index.ts';
import { adjustmentOf } from '../adjustment/adjustment.ts';
import type { Asking } from '../asking.ts';
import { noRatio, ratioOfTerm, tooFewFor } from '../causes/ratios.ts';
import { askedLives } from '../columns/asked-lives.ts';
import type { Pair } from '../comparison.ts';
import { gather, placesWhere } from '../gather.ts';
import { lifeCurves } from '../life-curves.ts';
import { failedByHorizon } from '../life-estimates.ts';
import { ended } from '../life-rows.ts';
import { noEstimate } from '../estimate.ts';
import type { Reading, RuleEvidence } from './readings.ts';

/** Share failed by the horizon, had none been renewed, of all lives of a reading. */
export function shareOf({ evidence }: RuleEvidence, reading: Reading, { view, words }: Asking): Estimate {
  const { places, entry, exit, event } = reading;
  if (places.length === 0)
    return noEstimate({ level: view.level, unit: 'share', method: '1 − product-limit', reason: 'no life is left' });
  const lives = {
    ...{ rows: places.length, group: new Int32Array(places.length), entry, exit },
    unit: gather(evidence.lives.unit, places),
    ended: event.map((one) => (one === 1 ? ended.failed : ended.renewed)),
  };
  const drawn = lifeCurves(lives, ['all'], view);
  const [curve] = drawn.curves;
  return curve
    ? failedByHorizon(curve, drawn.starts[0] ?? null, horizonOf(view), words)
    : noEstimate({ level: view.level, unit: 'share', method: '1 − product-limit', reason: 'no life is left' });
}

/** Adjusted ratio of the hazards of the pair compared, in the lives of a reading. */
export async function ratioOf(given: RuleEvidence, reading: Reading, pair: Pair, asking: Asking): Promise<Estimate> {
  const { view } = asking;
  const { evidence } = given;
  const group = evidence.lives.group;
  const at = placesWhere(reading.places.length, (place) => {
    const own = group[reading.places[place] as number] as number;
    return own === pair.compared || own === pair.reference;
  });
  const places = gather(reading.places, at);
  const event = gather(reading.event, at);
  const codes = places.map((place) => (group[place] === pair.compared ? 1 : 0));
  const failures = (code: number) => event.reduce((sum, one, row) => sum + (codes[row] === code ? one : 0), 0);
  const about = { level: view.level, method: 'Cox, late entry, what else is known taken into account' };
  const few = tooFewFor(failures(1), failures(0));
  if (few !== null) return noRatio(about, few).estimate;
  const rows = gather(evidence.rows, places);
  const lives = askedLives(asking.source, view.component);
  const { covariates, strata, cluster } = await adjustmentOf(asking, lives, { rows, event, compared: evidence.by });
  const fit = coxRegression(
    {
      ...{ entry: gather(reading.entry, at), exit: gather(reading.exit, at), event, strata, cluster },
      covariates: { ...covariates, compared: { levels: ['reference', 'compared'], codes } },
    },
    { level: view.level, concordance: false, limitsOf: ['compared=compared'] },
  );
  return ratioOfTerm(fit, 'compared=compared', about).estimate;
}
