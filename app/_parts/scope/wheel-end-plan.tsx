'use client';

import { shownLimits } from '../../../shared/finding.ts';
import { displayUnit, type UnitSystem } from '../../../shared/units.ts';
import type { View } from '../../../shared/view.ts';
import { useFinding } from '../../_state/use-finding.ts';
import { axlesOf, isChosen, planView, pressed, wheelEndsOf, type WheelEnd } from './wheel-ends.ts';

interface Props {
  readonly view: View;
  readonly units: UnitSystem;
  readonly onChoose: (where: View['where']) => void;
}

const shortRoles: Readonly<Record<string, string>> = { trailer: 'trl', drive: 'drv', pusher: 'push' };

/** The vehicle from above, front to the left: axle lines and wheel ends, hatched by failures per mile. */
export function WheelEndPlan({ view, units, onChoose }: Props) {
  const { finding } = useFinding('mean-miles', planView(view), units);
  const ends = finding ? wheelEndsOf(finding) : [];
  const axles = axlesOf(ends);
  const press = (these: readonly WheelEnd[]) => onChoose(pressed(view, ends, these));
  return (
    <div
      className="plan"
      role="group"
      aria-label="Wheel-end plan: choose positions; denser hatching, more failures per mile"
    >
      <Hatching />
      {axles.length > 0 && (
        <div className="plan-sides" aria-hidden="true">
          <span>right</span>
          <span>left</span>
        </div>
      )}
      {axles.map((axle) => (
        <Axle key={`${axle[0]?.role} ${axle[0]?.axle}`} {...{ axle, view, units, press }} />
      ))}
    </div>
  );
}

interface AxleProps {
  readonly axle: readonly WheelEnd[];
  readonly view: View;
  readonly units: UnitSystem;
  readonly press: (ends: readonly WheelEnd[]) => void;
}

function Axle({ axle, view, units, press }: AxleProps) {
  const [first] = axle;
  if (first === undefined) return null;
  const name = `${shortRoles[first.role] ?? first.role} ${first.axle}`;
  return (
    <div className="plan-axle">
      {['right', 'left'].map((side) => {
        const end = axle.find((candidate) => candidate.side === side);
        return end ? (
          <EndButton key={side} {...{ end, view, units, press }} />
        ) : (
          <span key={side} className="plan-end" />
        );
      })}
      <button
        type="button"
        className="plan-name"
        aria-pressed={axle.every((end) => isChosen(view, end))}
        onClick={() => press(axle)}
      >
        {name}
        <span className="unseen"> axle, both sides</span>
      </button>
    </div>
  );
}

function EndButton({ end, view, units, press }: Omit<AxleProps, 'axle'> & { end: WheelEnd }) {
  const chosen = isChosen(view, end);
  return (
    <button
      type="button"
      className={chosen ? 'plan-end' : 'plan-end plan-left-out'}
      aria-pressed={chosen}
      aria-label={endSays(end, units)}
      title={endSays(end, units)}
      onClick={() => press([end])}
    >
      <svg viewBox="0 0 22 12" width="22" height="12" aria-hidden="true">
        <rect x="0.5" y="0.5" width="21" height="11" className="plan-wheel" />
        {end.hatch > 0 && <rect x="0.5" y="0.5" width="21" height="11" fill={`url(#hatch-${end.hatch})`} />}
      </svg>
    </button>
  );
}

function endSays({ role, axle, side, rate, group }: WheelEnd, units: UnitSystem): string {
  const { factor, symbol } = displayUnit('perMillionMiles', units);
  const place = `${role} axle ${axle}, ${side}`;
  const estimate = group.estimates['failuresPerMillionMiles'];
  if (rate === null || !estimate) return `${place}: ${group.failures} failures, too few to tell`;
  const { lower, upper } = shownLimits(estimate);
  const text = (value: number | null) => (value === null ? 'open' : (value * factor).toPrecision(3));
  return `${place}: ${text(rate)} failures ${symbol} (${text(lower)} to ${text(upper)})`;
}

/** Line patterns of growing density, in ink, so that they hold in print and for the colour-blind. */
function Hatching() {
  return (
    <svg width="0" height="0" className="unseen" aria-hidden="true">
      <defs>
        {[1, 2, 3, 4].map((density) => (
          <pattern
            key={density}
            id={`hatch-${density}`}
            width={6.5 - density}
            height={6.5 - density}
            patternUnits="userSpaceOnUse"
            patternTransform="rotate(45)"
          >
            <line x1="0" y1="0" x2="0" y2="7" className="plan-hatch" strokeWidth={0.9 + density * 0.35} />
          </pattern>
        ))}
      </defs>
    </svg>
  );
}
