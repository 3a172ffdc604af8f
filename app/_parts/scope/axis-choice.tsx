import type { UnitSystem } from '../../../shared/units.ts';
import type { Axis } from '../../../shared/view.ts';

interface Props {
  readonly axis: Axis;
  readonly units: UnitSystem;
  readonly onChoose: (axis: Axis) => void;
}

/** Whether ages count in distance or in months by the calendar. */
export function AxisChoice({ axis, units, onChoose }: Props) {
  const axes: readonly (readonly [Axis, string])[] = [
    ['miles', `${units === 'us' ? 'Miles' : 'Kilometres'} since installation`],
    ['months', 'Months since installation'],
  ];
  return (
    <fieldset className="choices">
      <legend>Ages in</legend>
      {axes.map(([name, says]) => (
        <label key={name}>
          <input type="radio" name="axis" checked={axis === name} onChange={() => onChoose(name)} /> {says}
        </label>
      ))}
    </fieldset>
  );
}
