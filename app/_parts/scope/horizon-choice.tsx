import type { UnitSystem } from '../../../shared/units.ts';
import { horizonOf, type View } from '../../../shared/view.ts';
import { AgeChoice } from './age-choice.tsx';
import { horizonAs } from './horizon.ts';

interface Props {
  readonly view: View;
  readonly units: UnitSystem;
  readonly onChoose: (change: Partial<View>) => void;
}

/** The horizon as a number, for one who knows it; the ruler is for one who looks for it. */
export const HorizonChoice = ({ view, units, onChoose }: Props) => (
  <AgeChoice
    {...{ view, units, age: horizonOf(view), label: 'Followed for', act: 'Follow lives this far' }}
    onAge={(horizon) => onChoose(horizonAs(view.axis, horizon))}
  />
);
