import { horizonOf } from '../../shared/view.ts';
import type { Group } from '../../shared/finding.ts';
import type { Asking } from './asking.ts';
import type { UnknownExposure } from './doubts/unknown-exposure.ts';
import { failedBy, sharesIf, type LifeCurves } from './life-curves.ts';

interface Cut {
  readonly asking: Asking;
  readonly drawn: LifeCurves;
  readonly groups: readonly Group[];
}

/**
 * Shares failed by the horizon with a deviation over without it: as recorded, and with the lives
 * whose record does not tell put to either side.
 */
export function unknownBounds({ drawn, groups, asking }: Cut): UnknownExposure {
  const { view } = asking;
  const [yes, no, unknown] = ['yes', 'no', 'unknown'].map((label) =>
    groups.findIndex((group) => group.label === label),
  ) as [number, number, number];
  const { codes, levels } = drawn.rows.group;
  const ratio = (shares: readonly (number | null)[]) => {
    const [withIt, without] = [shares[yes] ?? null, shares[no] ?? null];
    return withIt === null || !without ? null : withIt / without;
  };
  const allPutTo = (side: number) => {
    const put = codes.map((code) => (code === unknown && side >= 0 ? side : code));
    return ratio(sharesIf({ ...drawn.rows, group: { levels, codes: put } }, view));
  };
  const lives = groups[unknown]?.lives ?? 0;
  const asRecorded = ratio(drawn.curves.map((curve) => failedBy(curve, horizonOf(view))));
  return {
    ...{ unknown: lives, all: groups.reduce((sum, group) => sum + group.lives, 0), ratio: asRecorded },
    ifAllYes: lives > 0 ? allPutTo(yes) : asRecorded,
    ifAllNo: lives > 0 ? allPutTo(no) : asRecorded,
  };
}
