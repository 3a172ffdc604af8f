'use client';

import { useId, useState } from 'react';
import type { Quantity, UnitSystem } from '../../../shared/units.ts';
import { shownNumber, storedNumber } from './procedure-words.ts';

interface Props {
  readonly label: string;
  readonly value: number | null;
  readonly quantity: Quantity;
  readonly units: UnitSystem;
  readonly problem: string | undefined;
  readonly onChange: (value: number | null) => void;
}

/** A number in the reader's unit; blank is not known. What is no number stays in sight, and is told. */
export function NumberField({ label, value, quantity, units, problem, onChange }: Props) {
  const id = useId();
  const [typed, setTyped] = useState<{ text: string; units: UnitSystem } | null>(null);
  const shown = value === null || Number.isNaN(value) ? '' : shownNumber(value, quantity, units);
  // Kept as typed while it stands for the value; a value from elsewhere, or another unit, takes its place.
  const kept = typed !== null && typed.units === units && Object.is(storedNumber(typed.text, quantity, units), value);
  return (
    <label className="number-field">
      <span>{label}</span>
      <input
        {...{ id, inputMode: 'decimal', autoComplete: 'off', value: kept ? typed.text : shown }}
        aria-invalid={problem !== undefined}
        aria-describedby={problem === undefined ? undefined : `${id}-problem`}
        onChange={({ target }) => {
          setTyped({ text: target.value, units });
          onChange(storedNumber(target.value, quantity, units));
        }}
      />
      {problem !== undefined && (
        <span id={`${id}-problem`} className="field-problem">
          {problem}
        </span>
      )}
    </label>
  );
}
