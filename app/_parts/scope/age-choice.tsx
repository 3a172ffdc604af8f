'use client';

import { useState, type SubmitEvent } from 'react';
import type { UnitSystem } from '../../../shared/units.ts';
import type { View } from '../../../shared/view.ts';
import { rulerFor } from './horizon.ts';

interface Props {
  readonly view: View;
  readonly units: UnitSystem;
  /** As it stands, in miles or months by the view's axis. */
  readonly age: number;
  readonly label: string;
  readonly act: string;
  readonly onAge: (age: number) => void;
}

/** An age of a life as a number, in the reader's unit. */
export function AgeChoice({ view, units, age, label, act, onAge }: Props) {
  const { factor, symbol } = rulerFor(view, units);
  const [text, setText] = useState(String(Math.round(age * factor)));
  const typed = Number(text.replaceAll(/[ ,]/g, '')) / factor;
  const byCalendar = view.axis === 'months';
  const usable = typed > 0 && typed <= (byCalendar ? 1_200 : 5_000_000);
  const submit = (event: SubmitEvent) => {
    event.preventDefault();
    if (usable) onAge(typed);
  };
  return (
    <form className="choices" onSubmit={submit}>
      <label className="stacked">
        {label} ({symbol})
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
        {act}
      </button>
    </form>
  );
}
