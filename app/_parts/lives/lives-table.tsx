'use client';

import { memo, useMemo } from 'react';
import { displayUnit, type UnitSystem } from '../../../shared/units.ts';
import type { ListedLife, LivesAsked } from '../../_state/lives-desk.ts';
import type { OpenRecordSet } from '../../_state/record-sets.ts';
import { usePick } from '../../_state/use-pick.ts';
import { PageLink } from '../frame/page-link.tsx';
import { lifeNamed, livesColumns, type LivesColumn } from './lives-columns.ts';
import { useLifePages } from './use-life-pages.ts';
import { useLongScroll } from './use-long-scroll.ts';

const rowHeight = 34;
const headHeight = 48;
const mostShown = 16;
const tracks = livesColumns.map(({ width }) => `${width}fr`).join(' ');
const leastWidth = livesColumns.reduce((sum, { width }) => sum + width, 0);

interface Props {
  readonly open: OpenRecordSet;
  readonly asked: LivesAsked;
  readonly total: number;
  readonly units: UnitSystem;
}

/**
 * The list of lives: however many there are, only those in sight are on the page. Column heads sort,
 * the vehicle's number opens the life.
 */
export function LivesTable({ open, asked, total, units }: Props) {
  const view = Math.min(mostShown, Math.max(3, total)) * rowHeight;
  const list = JSON.stringify([open.number, asked]);
  const { scroller, spacer, offset, onScroll, onKeyDown } = useLongScroll(list, total, rowHeight, view);
  const first = Math.min(Math.floor(offset / rowHeight), Math.max(0, total - 1));
  const count = Math.min(total - first, mostShown + 1);
  const { line, trouble } = useLifePages(open, asked, first, count);
  const { pick, searchWith } = usePick();
  const search = useMemo(() => searchWith({ life: null }), [searchWith]);
  return (
    <>
      <div
        {...{ ref: scroller, onScroll, onKeyDown, className: 'lives-scroller', tabIndex: 0, role: 'region' }}
        aria-label="Lives, scrolls; Home and End lead to the first and the last"
        style={{ height: view + headHeight }}
      >
        <div className="lives-spacer" style={{ height: spacer + headHeight, minWidth: leastWidth }}>
          <div className="lives-table" role="table" aria-label="Lives" aria-rowcount={total + 1}>
            <Heads units={units} />
            <div role="rowgroup" className="lives-rows" style={{ height: view }}>
              <div style={{ transform: `translateY(${first * rowHeight - offset}px)` }}>
                {Array.from({ length: count }, (_, place) => (
                  <Line
                    key={first + place}
                    {...{ life: line(first + place), place: first + place, units, search }}
                    chosen={pick.life !== null && line(first + place)?.lifeId === pick.life}
                  />
                ))}
              </div>
            </div>
          </div>
        </div>
      </div>
      {trouble && <p role="alert">The lives could not be fetched: {trouble}</p>}
    </>
  );
}

function Heads({ units }: { units: UnitSystem }) {
  const { pick, changePick } = usePick();
  const press = (key: LivesColumn['key']) => {
    if (pick.order !== key) changePick({ order: key, down: false });
    else changePick(pick.down ? { order: null, down: false } : { down: true });
  };
  return (
    <div role="rowgroup" className="lives-heads">
      <div role="row" aria-rowindex={1} className="lives-line" style={{ gridTemplateColumns: tracks }}>
        {livesColumns.map(({ key, head, number, unit }) => {
          const sorted = pick.order === key ? (pick.down ? 'descending' : 'ascending') : undefined;
          return (
            <span key={key} role="columnheader" aria-sort={sorted} className={number ? 'number-cell' : undefined}>
              <button type="button" className="sorter" onClick={() => press(key)}>
                {head}
                {unit !== '' && <span className="unit"> ({displayUnit(unit, units).symbol})</span>}
                <span className="sort-mark" aria-hidden="true">
                  {sorted === undefined ? '' : sorted === 'descending' ? ' ↓' : ' ↑'}
                </span>
              </button>
            </span>
          );
        })}
      </div>
    </div>
  );
}

interface LineProps {
  readonly life: ListedLife | undefined;
  readonly place: number;
  readonly units: UnitSystem;
  readonly chosen: boolean;
  /** Of the list, with no life open. */
  readonly search: string;
}

const withLife = (search: string, lifeId: string): string =>
  `${search}${search === '' ? '?' : '&'}${new URLSearchParams({ life: lifeId }).toString()}`;

/** Lines that stay in sight while others come and go are not drawn again. */
const Line = memo(function Line({ life, place, units, chosen, search }: LineProps) {
  return (
    <div
      role="row"
      aria-rowindex={place + 2}
      className={chosen ? 'lives-line chosen' : 'lives-line'}
      style={{ gridTemplateColumns: tracks, height: rowHeight }}
    >
      {livesColumns.map(({ key, number, text }, column) => (
        <span
          key={key}
          role={column === 0 ? 'rowheader' : 'cell'}
          className={number ? 'number-cell' : key === 'state' && life?.state === 'failed' ? 'failed-cell' : undefined}
        >
          {life === undefined ? (
            column === 0 && <span className="quiet">…</span>
          ) : column === 0 ? (
            <PageLink className="count-link" path="/lives/" search={withLife(search, life.lifeId)} current={chosen}>
              {life.unitId}
              <span className="unseen">: open {lifeNamed(life)}</span>
            </PageLink>
          ) : (
            text(life, units)
          )}
        </span>
      ))}
    </div>
  );
});
