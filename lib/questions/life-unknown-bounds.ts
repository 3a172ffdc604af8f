import type { LifeChecks } from './life-doubts.ts';
import type { UnknownExposure } from './doubts/unknown-exposure.ts';
import { survivalAt } from '../statistics/index.ts';
import { curvesIf } from './life-curves.ts';

/**
 * Shares failed by the horizon with a deviation over without it: as recorded, and with the lives
 * whose record does not tell put to either side.
 */
export function unknownBounds({ drawn, groups, asking }: LifeChecks): UnknownExposure {
  const { view } = asking;
  const at = (label: string) => groups.findIndex((group) => group.label === label);
  const failed = (codes: Int32Array): ((label: string) => number | null) => {
    const curves = curvesIf({ ...drawn.rows, group: { levels: drawn.rows.group.levels, codes } }, view);
    return (label) => {
      const curve = curves[at(label)];
      const survival = curve ? survivalAt(curve, view.horizonMiles).survival : null;
      return survival === null ? null : 1 - survival;
    };
  };
  const ratio = (share: (label: string) => number | null) => {
    const [yes, no] = [share('yes'), share('no')];
    return yes === null || !no ? null : yes / no;
  };
  const { codes } = drawn.rows.group;
  const put = (side: string) => codes.map((code) => (code === at('unknown') && at(side) >= 0 ? at(side) : code));
  return {
    unknown: groups[at('unknown')]?.lives ?? 0,
    all: groups.reduce((sum, { lives }) => sum + lives, 0),
    ratio: ratio(failed(codes)),
    ifAllYes: ratio(failed(put('yes'))),
    ifAllNo: ratio(failed(put('no'))),
  };
}
