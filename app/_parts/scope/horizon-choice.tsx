'use client';

import { useState, type SubmitEvent } from 'react';
import type { UnitSystem } from '../../../shared/units.ts';
import { horizonOf, type View } from '../../../shared/view.ts';
import { horizonAs, rulerFor } from './horizon.ts';

interface Props {
  readonly view: View;
  readonly units: UnitSystem;
  readonly onChoose: (change: Partial<View>) => void;
}

/** The horizon as a number, for one who knows it; the ruler is for one who looks for it. */
export function HorizonChoice({ view, units, onChoose }: Props) {
  const { factor, symbol } = rulerFor(view, units);
  const [text, setText] = useState(String(Math.round(horizonOf(view) * factor)));
  const horizon = Number(text.replaceAll(/[ ,]/g, '')) / factor;
  const byCalendar = view.axis === 'months';
  const usable = horizon > 0 && horizon <= (byCalendar ? 1_200 : 5_000_000);
  const submit = (event: SubmitEvent) => {
    event.preventDefault();
    if (usable) onChoose(horizonAs(view.axis, horizon));
  };
  return (
    <form className="choices" onSubmit={submit}>
      <label className="stacked">
        Followed for ({symbol})
        <input
          inputMode="numeric"
          value={text}
          aria-invalid={!usable}
          onChange={(event) => setText(event.target.value)}
        />
      </label>
      {!usable && (
        <p role="alert">
          {byCalendar ? 'Months above 0, at most 1,200.' : 'A distance above 0 and at most 5,000,000 mi.'}
        </p>
      )}
      <button type="submit" className="word" disabled={!usable}>
        Follow lives this far
      </button>
    </form>
  );
}
