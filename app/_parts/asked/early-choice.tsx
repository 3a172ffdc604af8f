'use client';

import { useState, type SubmitEvent } from 'react';
import type { UnitSystem } from '../../../shared/units.ts';
import { earlyOf, type View } from '../../../shared/view.ts';
import { rulerFor } from '../scope/horizon.ts';

interface Props {
  readonly view: View;
  readonly units: UnitSystem;
  readonly onChoose: (part: Partial<View>) => void;
}

/** Up to which age a failure is early. */
export function EarlyChoice({ view, units, onChoose }: Props) {
  const { factor, symbol } = rulerFor(view, units);
  const [text, setText] = useState(String(Math.round(earlyOf(view) * factor)));
  const early = Number(text.replaceAll(/[ ,]/g, '')) / factor;
  const byCalendar = view.axis === 'months';
  const usable = early > 0 && early <= (byCalendar ? 1_200 : 5_000_000);
  const submit = (event: SubmitEvent) => {
    event.preventDefault();
    if (usable) onChoose(byCalendar ? { earlyMonths: early } : { earlyMiles: early });
  };
  return (
    <form className="choices" onSubmit={submit}>
      <label className="stacked">
        Early is up to ({symbol})
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
        Part early from later here
      </button>
    </form>
  );
}
