import type { UnitSystem } from '../../../shared/units.ts';
import { earlyOf, type View } from '../../../shared/view.ts';
import { AgeChoice } from '../scope/age-choice.tsx';

interface Props {
  readonly view: View;
  readonly units: UnitSystem;
  readonly onChoose: (part: Partial<View>) => void;
}

/** Up to which age a failure is early. */
export const EarlyChoice = ({ view, units, onChoose }: Props) => (
  <AgeChoice
    {...{ view, units, age: earlyOf(view), label: 'Early is up to', act: 'Part early from later here' }}
    onAge={(early) => onChoose(view.axis === 'months' ? { earlyMonths: early } : { earlyMiles: early })}
  />
);
