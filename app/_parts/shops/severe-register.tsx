'use client';

import { useState } from 'react';
import { distanceSays, valueSays } from '../../../lib/charts/index.ts';
import type { Finding, SevereEvent } from '../../../shared/finding.ts';
import { useView } from '../../_state/use-view.ts';
import { shopSays } from './shop-tables.ts';

const kindWords: Readonly<Record<SevereEvent['kinds'][number], string>> = {
  'hot-hub': 'hot hub',
  'wheel-lost': 'wheel lost',
  'out-of-service': 'out of service',
};
/** So many are shown until all are asked for. */
const firstShown = 20;

/** Too few to compare, and too grave to sum up: each one is to be looked at. */
export function SevereRegister({ finding }: { finding: Finding }) {
  const { units } = useView();
  const [all, setAll] = useState(false);
  const events = finding.severeEvents;
  if (events === undefined) return null;
  const newest = [...events].sort((a, b) => (a.date < b.date ? 1 : -1));
  const shown = all ? newest : newest.slice(0, firstShown);
  const heads = ['date', 'what', 'vehicle', 'wheel end', 'failure', 'fitted by', 'since fitted', 'record'];
  return (
    <section className="aspect" aria-labelledby="severe">
      <h2 id="severe">Register of severe events</h2>
      <p>
        Hot hubs, wheels lost otherwise than through their fasteners, and vehicles put out of service at a wheel end:{' '}
        {events.length.toLocaleString('en-US')}. Too few of a kind to compare; each one is to be looked at.
      </p>
      {events.length > 0 && (
        <div className="wide register" role="region" aria-label="Severe events, scrolls" tabIndex={0}>
          <table className="ratio-table">
            <thead>
              <tr>
                {heads.map((head) => (
                  <th key={head} scope="col" className={head === 'since fitted' ? undefined : 'text-cell'}>
                    {head}
                  </th>
                ))}
              </tr>
            </thead>
            <tbody>
              {shown.map((event) => (
                <tr key={event.failureId}>
                  <th scope="row" className="text-cell">
                    {event.date}
                  </th>
                  <td className="text-cell">
                    {event.kinds.map((kind) => kindWords[kind]).join(', ')}
                    {event.lostBy !== null && ` (${valueSays('lost_by', event.lostBy)})`}
                  </td>
                  <td className="text-cell">{event.unitId}</td>
                  <td className="text-cell">{valueSays('position', event.position)}</td>
                  <td className="text-cell">{event.mode}</td>
                  <td className="text-cell">{shopSays(finding, event.group)}</td>
                  <td>{event.milesSinceFitted === null ? 'not known' : distanceSays(event.milesSinceFitted, units)}</td>
                  <td className="text-cell">{event.failureId}</td>
                </tr>
              ))}
            </tbody>
          </table>
        </div>
      )}
      {events.length > shown.length && (
        <button type="button" className="word" onClick={() => setAll(true)}>
          Show all {events.length.toLocaleString('en-US')}
        </button>
      )}
    </section>
  );
}
