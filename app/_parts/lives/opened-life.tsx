'use client';

import { useEffect, useRef } from 'react';
import { distanceSays, lifeSays, stateWords, valueSays } from '../../../lib/charts/index.ts';
import type { UnitSystem } from '../../../shared/units.ts';
import type { Component } from '../../../shared/vocabulary.ts';
import type { OpenedLife as Opened } from '../../_state/lives-desk.ts';
import type { OpenRecordSet } from '../../_state/record-sets.ts';
import { useDeskAnswer } from '../../_state/use-desk-answer.ts';
import { usePick } from '../../_state/use-pick.ts';
import { PageLink } from '../frame/page-link.tsx';
import { LifeRows } from './life-rows.tsx';
import { LifeStrips } from './life-strips.tsx';

interface Props {
  readonly open: OpenRecordSet;
  readonly component: Component;
  readonly lifeId: string;
  readonly units: UnitSystem;
}

/** One life down to its rows: what it came to, why it began and ended so, and what would have altered it. */
export function OpenedLife({ open, component, lifeId, units }: Props) {
  const { value, settled, trouble } = useDeskAnswer(`${component} ${units} ${lifeId}`, (set, job) =>
    set.desk.openLife(job, component, lifeId, units),
  );
  const { searchWith } = usePick();
  const section = useRef<HTMLElement>(null);
  const came = settled ? lifeId : null;
  useEffect(() => {
    if (came === null) return;
    section.current?.scrollIntoView({ block: 'start' });
    section.current?.focus({ preventScroll: true });
  }, [came]);
  const life = value?.facts.lifeId === lifeId ? value : null;
  return (
    <section
      {...{ ref: section, className: 'opened-life', tabIndex: -1, 'aria-labelledby': 'opened-life' }}
      data-life={settled && life !== null ? lifeId : undefined}
      aria-busy={!settled}
    >
      <div className="opened-head">
        <h2 id="opened-life">{life === null ? `Life ${lifeId}` : headSays(life)}</h2>
        <PageLink path="/lives/" search={searchWith({ life: null })}>
          Close it
        </PageLink>
      </div>
      {trouble && <p role="alert">This life could not be opened: {trouble}</p>}
      {settled && trouble === null && life === null && (
        <p>No {component} life of these records is called so. The list above has those there are.</p>
      )}
      {life && <Told {...{ life, open, units }} />}
    </section>
  );
}

function headSays({ facts }: Opened): string {
  const place = valueSays('position', `${facts.axle} ${facts.side}`);
  return `Vehicle ${facts.unitId}, ${place}${facts.role === null ? '' : ` · ${facts.role}`}: ${facts.component} life ${facts.slot + 1}`;
}

function ranSays({ facts }: Opened, units: UnitSystem): string {
  const { state, mode, exitMiles, exposureMiles } = facts;
  const end = state === 'failed' ? lifeSays(state, mode) : `${stateWords[state]}, not failed`;
  const ran = exitMiles === null ? 'Its age is not known' : `It ran ${distanceSays(exitMiles, units)}`;
  const watched = exposureMiles === exitMiles ? '' : `, watched for ${distanceSays(exposureMiles, units)} of them`;
  return `${ran}${exitMiles === null ? `; it was watched for ${distanceSays(exposureMiles, units)}` : watched}: ${end}.`;
}

function Told({ life, open, units }: { life: Opened; open: OpenRecordSet; units: UnitSystem }) {
  const { facts, began, ended, rows, histories } = life;
  const near = histories.filter(({ axle }) => axle === facts.axle);
  const rest = histories.filter(({ axle }) => axle !== facts.axle);
  return (
    <>
      <p className="life-answer">{ranSays(life, units)}</p>
      <div className="why">
        <div>
          <h3>Why it began there</h3>
          <p>{began}</p>
          <h3>Why it ended there</h3>
          <p data-rule={ended.rule}>{ended.says}</p>
        </div>
        <div>
          <h3>What would have altered its end</h3>
          {ended.altered.length > 0 && (
            <ul>
              {ended.altered.map(({ had, becomes }) => (
                <li key={had}>
                  {had}, it would count as <b>{stateWords[becomes]}</b>.
                </li>
              ))}
            </ul>
          )}
          <p>{ended.besides}</p>
        </div>
      </div>
      <h3>Along its miles, with the wheel end across the axle</h3>
      <LifeStrips histories={near} units={units} chosen={facts.lifeId} />
      {rest.length > 0 && (
        <details className="other-ends">
          <summary>The other wheel ends of vehicle {facts.unitId}</summary>
          <LifeStrips histories={rest} units={units} chosen={facts.lifeId} />
        </details>
      )}
      <p className="strip-caution">
        A strip shows what was written down. No row, and no dry check, clears this wheel end for service: a qualified
        inspector at the wheel end decides.
      </p>
      <LifeRows open={open} rows={rows} units={units} />
    </>
  );
}
