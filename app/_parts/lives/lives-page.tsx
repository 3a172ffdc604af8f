'use client';

import type { UnitSystem } from '../../../shared/units.ts';
import { listedView } from '../../../lib/view/index.ts';
import type { LivesAsked, LivesCounted } from '../../_state/lives-desk.ts';
import type { OpenRecordSet } from '../../_state/record-sets.ts';
import { useDeskAnswer } from '../../_state/use-desk-answer.ts';
import { usePick } from '../../_state/use-pick.ts';
import { useRecordSet } from '../../_state/use-record-set.ts';
import { useView } from '../../_state/use-view.ts';
import { NoLives } from '../finding/no-lives.tsx';
import { NoRecords } from '../records/no-records.tsx';
import { LivesActs } from './lives-acts.tsx';
import { LivesTable } from './lives-table.tsx';
import { counted, extentSays, livesNamed, stateCounts } from './lives-words.ts';
import { OpenedLife } from './opened-life.tsx';
import { PickLine } from './pick-line.tsx';
import { VehicleStrips } from './vehicle-strips.tsx';

/** Which lives stand behind the numbers: a list of any length, each life down to its rows. */
export function LivesPage() {
  const { view, units } = useView();
  const { pick, notices } = usePick();
  const { open, opening, untouched } = useRecordSet();
  const { asked, component } = listedView(view, pick);
  const { value, settled, trouble } = useDeskAnswer(JSON.stringify(asked), (set, job) =>
    set.desk.countLives(job, asked),
  );
  const waiting = untouched || opening !== null;
  return (
    <article className="lives" data-ready={settled} data-lives={settled ? value?.lives : undefined}>
      <h1>Which lives stand behind the numbers?</h1>
      {notices.map((notice) => (
        <p key={notice} className="notice" role="status">
          {notice}
        </p>
      ))}
      {open === null && !waiting && <NoRecords />}
      {trouble && (
        <p className="notice" role="alert">
          The lives could not be listed: {trouble}
        </p>
      )}
      {(open !== null || waiting) && trouble === null && (
        <div className={settled || value === null ? undefined : 'stale'}>
          <p className="answer" aria-live="polite">
            {value !== null && <Answer {...{ counted: value, component, units }} />}
          </p>
          {open?.report.invented && <p className="invented">Invented records: no number here is about a real fleet.</p>}
          <PickLine units={units} />
          {open !== null && value !== null && <Listed {...{ open, asked, component, units, found: value }} />}
          {value === null && <div className="waiting-lives" />}
        </div>
      )}
    </article>
  );
}

interface ListedProps {
  readonly open: OpenRecordSet;
  readonly asked: LivesAsked;
  readonly component: LivesAsked['view']['component'];
  readonly units: UnitSystem;
  readonly found: LivesCounted;
}

function Listed({ open, asked, component, units, found }: ListedProps) {
  const { pick } = usePick();
  return (
    <>
      {found.lives === 0 ? (
        <NoLives />
      ) : (
        <>
          <LivesTable {...{ open, units, asked }} total={found.lives} />
          <LivesActs {...{ open, asked, component }} />
        </>
      )}
      {pick.life !== null && <OpenedLife {...{ open, component, units }} lifeId={pick.life} />}
      {pick.life === null && found.vehicles === 1 && <VehicleStrips {...{ open, asked, component, units }} />}
    </>
  );
}

function Answer({
  counted: found,
  component,
  units,
}: {
  counted: LivesCounted;
  component: ListedProps['component'];
  units: UnitSystem;
}) {
  const { changePick } = usePick();
  if (found.lives === 0) return <b>No life is listed.</b>;
  const states = stateCounts(found);
  return (
    <>
      <b>{livesNamed(found.lives, component)}</b> {extentSays(found, units)}
      {found.episodes !== null &&
        `, with ${counted(found.episodes, 'failure')} of the kind asked for found in them`}:{' '}
      {states.map(({ state, says }, place) => (
        <span key={state}>
          <span className="state-count">
            {states.length === 1 ? (
              <>all {says.replace(/^[\d,]+ /, '')}</>
            ) : (
              <button type="button" className="scope-word" onClick={() => changePick({ ended: [state] })}>
                <span className="unseen">List only: </span>
                {says}
              </button>
            )}
            {place < states.length - 2 ? ',' : place === states.length - 1 ? '.' : ''}
          </span>
          {place < states.length - 2 ? ' ' : place === states.length - 2 ? ' and ' : ''}
        </span>
      ))}
    </>
  );
}
