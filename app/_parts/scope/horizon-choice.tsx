'use client';

import { useState, type SubmitEvent } from 'react';
import type { UnitSystem } from '../../../shared/units.ts';
import { rulerFor } from './horizon.ts';

interface Props {
  readonly horizonMiles: number;
  readonly units: UnitSystem;
  readonly onChoose: (miles: number) => void;
}

/** The horizon as a number, for one who knows it; the ruler is for one who looks for it. */
export function HorizonChoice({ horizonMiles, units, onChoose }: Props) {
  const { factor, symbol } = rulerFor(horizonMiles, units);
  const [text, setText] = useState(String(Math.round(horizonMiles * factor)));
  const miles = Number(text.replaceAll(/[ ,]/g, '')) / factor;
  const usable = miles > 0 && miles <= 5_000_000;
  const submit = (event: SubmitEvent) => {
    event.preventDefault();
    if (usable) onChoose(miles);
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
      {!usable && <p role="alert">A distance above 0 and at most 5,000,000 mi.</p>}
      <button type="submit" className="word" disabled={!usable}>
        Follow lives this far
      </button>
    </form>
  );
}
