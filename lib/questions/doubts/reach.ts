import type { Doubt } from '../../../shared/finding.ts';
import { survivalAt, type SurvivalCurve } from '../../statistics/index.ts';
import { leastAtRisk } from '../curve-rows.ts';
import { inWords, listed } from '../words/share-words.ts';
import { count, type Wording } from '../words/wording.ts';
import { doubt } from './doubt.ts';

/** Whether the lives go as far as the horizon asked about, and how many still stand there. */
export function reach(curves: readonly SurvivalCurve[], horizon: number, words: Wording): Doubt {
  const name = 'As far as the horizon';
  const settledBy = 'a nearer horizon, or lives followed for longer';
  if (curves.length === 0) return doubt(name, 'cannot-tell', 'Too few are watched for a curve at all.', settledBy);
  const whose = (label: string) => (curves.length === 1 ? '' : ` of “${label}”`);
  const short = curves.filter(({ time, survival }) => {
    const last = time.length - 1;
    return last < 0 || ((time[last] as number) < horizon && (survival[last] as number) > 0);
  });
  if (short.length > 0) {
    const say = short
      .slice(0, 3)
      .map(({ group, time }) => `lives${whose(group)} go to ${words.age(time[time.length - 1] ?? 0)}`);
    const more = short.length > 3 ? ` and ${inWords(short.length - 3)} more groups fall short` : '';
    return doubt(name, 'cannot-tell', `Short of ${words.age(horizon)}: ${listed(say)}${more}.`, settledBy);
  }
  const left = curves.map((curve) => ({ label: curve.group, atRisk: survivalAt(curve, horizon).atRisk }));
  const few = left.filter(({ atRisk }) => atRisk < leastAtRisk);
  if (few.length === 0) {
    const least = Math.min(...left.map(({ atRisk }) => atRisk));
    const each = left.length === 1 ? count(least) : `${count(least)} or more`;
    return doubt(name, 'holds', `${each} lives are still watched at ${words.age(horizon)}.`, settledBy);
  }
  const say = few.slice(0, 3).map(({ label, atRisk }) => `${count(atRisk)}${whose(label)}`);
  return doubt(name, 'fails', `Only ${listed(say)} still watched at ${words.age(horizon)}.`, settledBy);
}
