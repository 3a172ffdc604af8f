'use client';

import { useState } from 'react';
import { distanceSays, lifeListCsv, valueSays } from '../../../lib/charts/index.ts';
import type { Finding, LifeList, NamedLife } from '../../../shared/finding.ts';
import { wholePick } from '../../../shared/lives-pick.ts';
import { percentSign } from '../../../shared/percent-sign.ts';
import type { UnitSystem } from '../../../shared/units.ts';
import { useView } from '../../_state/use-view.ts';
import { LivesLink } from '../finding/lives-link.tsx';
import { saveFile } from '../finding/save-file.ts';

const titles: Readonly<Record<LifeList['name'], string>> = {
  inspection: 'Where to look first',
  teardown: 'Which removed parts to cut open',
};
const firstShown = 12;
const chanceSays = (chance: number): string => `${(chance * 100).toFixed(1)}${percentSign}`;

/** A list to be worked through: each life opens, and the whole can be taken away. */
export function LifeListTable({ finding, list }: { readonly finding: Finding; readonly list: LifeList }) {
  const { units } = useView();
  const [all, setAll] = useState(false);
  const shown = all ? list.lives : list.lives.slice(0, firstShown);
  const inspection = list.name === 'inspection';
  const heads = [
    ...['vehicle', 'wheel end'],
    // What the list is for comes first: a narrow screen shows no more than that without scrolling.
    ...(inspection ? ['chance to fail', 'run so far', 'will run'] : ['kind', 'run in all']),
    ...['axle role', 'fitted by', 'fitted on'],
  ];
  const numbers = new Set(['run so far', 'run in all', 'will run', 'chance to fail']);
  return (
    <section className="aspect" aria-labelledby={list.name}>
      <h2 id={list.name}>{titles[list.name]}</h2>
      <p>{list.says}</p>
      <div className="wide" role="region" aria-label={`${titles[list.name]}, scrolls sideways`} tabIndex={0}>
        <table className="ratio-table">
          <thead>
            <tr>
              {heads.map((head) => (
                <th key={head} scope="col" className={numbers.has(head) ? undefined : 'text-cell'}>
                  {head}
                </th>
              ))}
            </tr>
          </thead>
          <tbody>
            {shown.map((life) => (
              <Line key={life.lifeId} {...{ finding, life, units, inspection }} />
            ))}
          </tbody>
        </table>
      </div>
      <div className="acts" role="group" aria-label={`Take away: ${titles[list.name]}`}>
        {list.lives.length > shown.length && (
          <button type="button" className="word" onClick={() => setAll(true)}>
            Show all {list.lives.length}
          </button>
        )}
        <button
          type="button"
          className="word"
          onClick={() =>
            saveFile(
              `\uFEFF${lifeListCsv(finding, list)}`,
              `${list.name}${finding.data.invented ? '-invented' : ''}.csv`,
              'text/csv',
            )
          }
        >
          List (CSV)
        </button>
      </div>
    </section>
  );
}

interface LineProps {
  readonly finding: Finding;
  readonly life: NamedLife;
  readonly units: UnitSystem;
  readonly inspection: boolean;
}

function Line({ finding, life, units, inspection }: LineProps) {
  const view = { ...finding.settings, by: [] };
  const miles = (value: number | null) => (value === null ? 'not known' : distanceSays(value, units));
  return (
    <tr>
      <th scope="row" className="text-cell">
        <LivesLink behind={{ view, pick: { ...wholePick, life: life.lifeId, vehicle: life.unitId } }}>
          {life.unitId}
        </LivesLink>
      </th>
      <td className="text-cell">{valueSays('position', life.position)}</td>
      {inspection ? (
        <>
          <td>{life.chance === null ? '' : chanceSays(life.chance)}</td>
          <td>{miles(life.miles)}</td>
          <td>{miles(life.aheadMiles)}</td>
        </>
      ) : (
        <>
          <td className="text-cell">{life.kind}</td>
          <td>{miles(life.miles)}</td>
        </>
      )}
      <td className="text-cell">{valueSays('role', life.role)}</td>
      <td className="text-cell">{valueSays('shop', life.shop)}</td>
      <td className="text-cell">{life.installDate ?? 'not known'}</td>
    </tr>
  );
}
