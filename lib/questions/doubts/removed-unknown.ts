import type { Doubt } from '../../../shared/finding.ts';
import type { SurvivalCurve } from '../../statistics/index.ts';
import type { LifeCurves } from '../life-curves.ts';
import { ended } from '../life-rows.ts';
import { counted } from '../words/wording.ts';
import type { ComponentWords } from '../words/component-words.ts';
import { boundedShare, type BoundedGroups } from './bounded-share.ts';

/**
 * Share failed by the horizon with further failures at some of a curve's own exits. Calling a
 * censored exit a failure leaves who was at risk as it was, so that the product is taken again over
 * the curve's own counts.
 */
function failedWith({ time, atRisk, events }: SurvivalCurve, more: ReadonlyMap<number, number>, horizon: number) {
  let survival = 1;
  for (let place = 0; place < time.length && (time[place] as number) <= horizon; place++) {
    const failures = (events[place] as number) + (more.get(time[place] as number) ?? 0);
    survival *= 1 - failures / (atRisk[place] as number);
  }
  return 1 - survival;
}

/** Lives that came off for no stated reason are taken as not failed; had all failed, how much would change. */
export function removedUnknown(
  { rows, curves }: LifeCurves,
  groups: BoundedGroups,
  thing: ComponentWords,
): Doubt | null {
  const exits = curves.map(() => new Map<number, number>());
  let lives = 0;
  for (let row = 0; row < rows.rows; row++) {
    if (rows.cause[row] !== ended.removedUnknown) continue;
    const [own, exit] = [exits[rows.group.codes[row] as number], rows.exit[row] as number];
    own?.set(exit, (own.get(exit) ?? 0) + 1);
    lives++;
  }
  if (lives === 0) return null;
  return boundedShare(groups, {
    name: 'Removed for no stated reason',
    about: `${counted(lives, thing.one, thing.many)} came off for no stated reason and count as not failed`,
    assumption: 'had all of them failed',
    settledBy: 'the reason of those services',
    shares: curves.map((curve, group) =>
      groups.shares[group]?.value == null
        ? null
        : failedWith(curve, exits[group] as ReadonlyMap<number, number>, groups.horizon),
    ),
  });
}
