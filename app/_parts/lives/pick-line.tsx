'use client';

import { useEffect, useState } from 'react';
import type { UnitSystem } from '../../../shared/units.ts';
import { wholePick } from '../../../shared/lives-pick.ts';
import { usePick } from '../../_state/use-pick.ts';
import { Chooser } from '../scope/chooser.tsx';
import { EndedChoice } from './ended-choice.tsx';
import { endedSays, narrowings } from './lives-words.ts';

const settleMilliseconds = 350;

/** Which lives of the scope are listed, as a sentence, and the search for a vehicle. */
export function PickLine({ units }: { units: UnitSystem }) {
  const { pick, changePick } = usePick();
  const further = narrowings(pick, units);
  const narrowed = pick.ended.length > 0 || pick.vehicle !== '' || further.length > 0;
  return (
    <div className="pick">
      <div className="pick-sentence">
        Listed are lives that{' '}
        <Chooser label="How they ended" word={endedSays(pick.ended)}>
          <EndedChoice ended={pick.ended} onChoose={(ended) => changePick({ ended })} />
        </Chooser>
        {further.map(({ says, without }) => (
          <span key={says}>
            ; {says}{' '}
            <button type="button" className="word" onClick={() => changePick(without)}>
              (give up)
              <span className="unseen"> the narrowing to: {says}</span>
            </button>
          </span>
        ))}
        .{' '}
        {narrowed && (
          <button
            type="button"
            className="word all-again"
            onClick={() => changePick({ ...wholePick, order: pick.order, down: pick.down })}
          >
            List all of the scope
          </button>
        )}
      </div>
      <VehicleSearch vehicle={pick.vehicle} onSeek={(vehicle) => changePick({ vehicle })} />
    </div>
  );
}

/** Part of a number is enough; the list follows once the typing rests. */
function VehicleSearch({ vehicle, onSeek }: { vehicle: string; onSeek: (vehicle: string) => void }) {
  const [typed, setTyped] = useState<string | null>(null);
  useEffect(() => {
    if (typed === null) return;
    const timer = setTimeout(() => {
      if (typed !== vehicle) onSeek(typed);
      setTyped(null);
    }, settleMilliseconds);
    return () => clearTimeout(timer);
  }, [typed, vehicle, onSeek]);
  return (
    <label className="vehicle-search">
      Vehicle number{' '}
      <input
        type="search"
        value={typed ?? vehicle}
        placeholder="any part of it"
        onChange={(event) => setTyped(event.target.value)}
      />
    </label>
  );
}
