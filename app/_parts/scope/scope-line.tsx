'use client';

import { usePathname } from 'next/navigation';
import { useRecordSet } from '../../_state/use-record-set.ts';
import { useView } from '../../_state/use-view.ts';
import { horizonOf } from '../../../shared/view.ts';
import { questionPages } from '../contents.ts';
import { bare } from '../frame/page-link.tsx';
import { ApartChoice } from './apart-choice.tsx';
import { AxisChoice } from './axis-choice.tsx';
import { Chooser } from './chooser.tsx';
import { HorizonChoice } from './horizon-choice.tsx';
import { horizonAs, rulerFor } from './horizon.ts';
import { MileRuler } from './mile-ruler.tsx';
import { otherColumns, otherSays, scopeWords } from '../../../lib/charts/index.ts';
import { ValueList } from './value-list.tsx';
import { WheelEndPlan } from './wheel-end-plan.tsx';
import { YearsChoice } from './years-choice.tsx';

/** What the reader is looking at, as a sentence; each underlined word opens its choices. */
export function ScopeLine() {
  const { view, units, change } = useView();
  const choices = useRecordSet().open?.choices;
  const path = usePathname();
  // A list of lives follows them to their own ends, and tells nothing apart.
  const listing = path.startsWith('/lives');
  const asked = questionPages.find((page) => bare(page.path) === bare(path));
  const suggested = path === '/' ? 'what suits each question' : asked?.apart === undefined ? 'nothing' : asked.apart;
  const words = scopeWords(view, units, suggested ?? '');
  const narrow = (column: string, values: readonly string[] | undefined) => {
    const { [column]: _before, ...rest } = view.where;
    change({ where: values === undefined ? rest : { ...rest, [column]: [...values] } });
  };
  const list = (column: string, any: string) => (
    <ValueList
      {...{ column, any }}
      choices={choices?.columns.find((offered) => offered.column === column) ?? deviationValues(column)}
      chosen={view.where[column]}
      onChoose={(values) => narrow(column, values)}
    />
  );
  const narrowed = Object.keys(view.where).length > 0 || view.installedFrom !== null || view.installedTo !== null;
  return (
    <section className="scope" aria-label="Scope: what is looked at">
      <div className="sentence">
        {words.parts} on{' '}
        <Chooser label="Axles and wheel ends" word={words.axles}>
          {list('role', 'all axles')}
          {list('position', 'every wheel end')}
        </Chooser>
        , in{' '}
        <Chooser label="Lubricant" word={words.lubricant}>
          {list('lubricant', 'any lubricant')}
        </Chooser>{' '}
        and{' '}
        <Chooser label="Hub build" word={words.build}>
          {list('hub_build', 'any hub build')}
        </Chooser>
        , installed by{' '}
        <Chooser label="Installing shop" word={words.shop}>
          {list('shop', 'any shop')}
        </Chooser>{' '}
        <Chooser label="Years of installation" word={words.years}>
          <YearsChoice {...{ view, choices }} onChoose={change} />
        </Chooser>
        {otherColumns(view).map((column) => (
          <span key={column}>
            ,{' '}
            <Chooser label="Further narrowing" word={otherSays(column, view.where[column] ?? [])}>
              {list(column, 'any')}
            </Chooser>
          </span>
        ))}
        {!listing && (
          <>
            , followed for{' '}
            <Chooser label="Horizon" word={words.horizon}>
              <AxisChoice axis={view.axis} units={units} onChoose={(axis) => change({ axis })} />
              <HorizonChoice key={view.axis} view={view} units={units} onChoose={change} />
            </Chooser>
            {suggested !== null && (
              <>
                , told apart by{' '}
                <Chooser label="Told apart by" word={words.apart}>
                  <ApartChoice by={view.by} none={suggested} choices={choices} onChoose={(by) => change({ by })} />
                </Chooser>
              </>
            )}
          </>
        )}
        .{' '}
        {narrowed && (
          <button
            type="button"
            className="word all-again"
            onClick={() => change({ where: {}, installedFrom: null, installedTo: null })}
          >
            Look at all again
          </button>
        )}
      </div>
      <WheelEndPlan view={view} units={units} onChoose={(where) => change({ where })} />
      {!listing && (
        <MileRuler
          horizon={horizonOf(view)}
          ruler={rulerFor(view, units)}
          onChoose={(horizon) => change(horizonAs(view.axis, horizon))}
        />
      )}
    </section>
  );
}

/** A deviation is only ever one of its four words, whatever the records hold. */
const deviationValues = (column: string) =>
  column.startsWith('dev_')
    ? { column, values: ['yes', 'no', 'unknown', 'not-applicable'].map((value) => ({ value, lives: 0 })) }
    : undefined;
