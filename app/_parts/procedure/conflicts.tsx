'use client';

import { useState } from 'react';
import { columnSays, valueSays } from '../../../lib/charts/index.ts';
import { searchWithPick } from '../../../lib/view/index.ts';
import { deviationColumn } from '../../../shared/deviations.ts';
import { wholePick } from '../../../shared/lives-pick.ts';
import type { UnitSystem } from '../../../shared/units.ts';
import type { Conflict, JudgedLives } from '../../_state/lives-desk.ts';
import { useDeskAnswer } from '../../_state/use-desk-answer.ts';
import { PageLink } from '../frame/page-link.tsx';
import { PageTurner } from '../frame/page-turner.tsx';
import { evidenceFor } from './conflict-words.ts';

const pageRows = 25;

/** Lives whose own evidence says both yes and no; the stronger kind decides, and the contradiction is shown. */
export function Conflicts({ judged, units }: { judged: JudgedLives; units: UnitSystem }) {
  const total = judged.conflicts.reduce((sum, { lives }) => sum + lives, 0);
  const [offset, setOffset] = useState(0);
  const { value, settled, trouble } = useDeskAnswer(total === 0 ? null : `conflicts ${offset}`, (set, job) =>
    set.desk.conflicts(job, offset, pageRows),
  );
  return (
    <section aria-labelledby="conflicts" data-conflicts={total}>
      <h2 id="conflicts">Where the evidence contradicts itself</h2>
      {total === 0 ? (
        <p>No life’s evidence contradicts itself.</p>
      ) : (
        <p>
          {judged.conflicts
            .map(({ code, lives }) => `${columnSays(deviationColumn(code))}: ${lives.toLocaleString('en-US')}`)
            .join('; ')}
          . What was measured counts before what was written down, and that before the steps ticked.
        </p>
      )}
      {trouble && <p role="alert">They could not be listed: {trouble}</p>}
      {total > 0 && (
        <div className={settled ? undefined : 'stale'}>
          <ConflictTable rows={value ?? []} units={units} />
        </div>
      )}
      <PageTurner
        label="Pages of contradictions"
        {...{ offset, total, rows: pageRows }}
        words={['Later jobs', 'Earlier jobs']}
        onTurn={setOffset}
      />
    </section>
  );
}

function ConflictTable({ rows, units }: { rows: readonly Conflict[]; units: UnitSystem }) {
  const search = (lifeId: string, unitId: string) =>
    searchWithPick(units === 'us' ? '' : `?units=${units}`, { ...wholePick, life: lifeId, vehicle: unitId });
  return (
    <div className="wide" role="region" aria-label="Contradictions, scrolls sideways" tabIndex={0}>
      <table className="conflicts">
        <thead>
          <tr>
            {['life', 'job', 'deviation', 'says yes', 'says no'].map((head) => (
              <th key={head} scope="col" className="text-cell">
                {head}
              </th>
            ))}
          </tr>
        </thead>
        <tbody>
          {rows.map((conflict) => {
            const { lifeId, unitId, position, serviceId, day, code } = conflict;
            return (
              <tr key={`${lifeId} ${code}`}>
                <th scope="row" className="text-cell">
                  <PageLink path="/lives/" search={search(lifeId, unitId)}>
                    {unitId}, {valueSays('position', position)}
                  </PageLink>
                </th>
                <td className="text-cell">
                  {serviceId}
                  <small> {day}</small>
                </td>
                <td className="text-cell">{columnSays(deviationColumn(code))}</td>
                <td className="text-cell">{evidenceFor('yes', conflict, units)}</td>
                <td className="text-cell">{evidenceFor('no', conflict, units)}</td>
              </tr>
            );
          })}
        </tbody>
      </table>
    </div>
  );
}
