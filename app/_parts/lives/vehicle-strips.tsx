'use client';

import type { UnitSystem } from '../../../shared/units.ts';
import type { Component } from '../../../shared/vocabulary.ts';
import type { LivesAsked } from '../../_state/lives-desk.ts';
import type { OpenRecordSet } from '../../_state/record-sets.ts';
import { useDeskAnswer } from '../../_state/use-desk-answer.ts';
import { LifeStrips } from './life-strips.tsx';

interface Props {
  readonly open: OpenRecordSet;
  readonly asked: LivesAsked;
  readonly component: Component;
  readonly units: UnitSystem;
}

/** The one vehicle that the list has come down to, wheel end by wheel end along its miles. */
export function VehicleStrips({ asked, component, units }: Props) {
  const { value, trouble } = useDeskAnswer(`${component} ${JSON.stringify(asked)}`, async (set, job) => {
    const [first] = await set.desk.listLives(job, asked, 0, 1);
    if (first === undefined) return null;
    return { unitId: first.unitId, histories: await set.desk.vehicleHistory(job, component, first.unitId) };
  });
  if (trouble) return <p role="alert">The vehicle could not be shown: {trouble}</p>;
  if (value === null) return null;
  return (
    <section className="vehicle-strips" aria-labelledby="vehicle-strips" data-vehicle={value.unitId}>
      <h2 id="vehicle-strips">Vehicle {value.unitId}, wheel end by wheel end</h2>
      <LifeStrips histories={value.histories} units={units} chosen={null} />
      <p className="strip-caution">
        A strip shows what was written down. No row, and no dry check, clears a wheel end for service: a qualified
        inspector at the wheel end decides.
      </p>
    </section>
  );
}
