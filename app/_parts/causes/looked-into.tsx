'use client';

import { lineWords, valueSays } from '../../../lib/charts/index.ts';
import { deviationCodes } from '../../../shared/deviations.ts';
import type { Finding, Group } from '../../../shared/finding.ts';
import type { UnitSystem } from '../../../shared/units.ts';
import { useView } from '../../_state/use-view.ts';
import { FirmnessLine } from '../finding/firmness-line.tsx';
import { CountLink } from '../finding/lives-link.tsx';
import { RatioTable } from '../finding/ratio-table.tsx';
import { depthRows, shadowsOf } from './depth-words.ts';
import { EstimateList } from './estimate-list.tsx';
import { ShadowStrip } from './shadow-strip.tsx';

interface Props {
  readonly finding: Finding;
  readonly units: UnitSystem;
}

/** The deviation looked into: counts, mechanism, where it holds, without whom, what chance alone shows. */
export function LookedInto({ finding, units }: Props) {
  const { view, change } = useView();
  if (view.deviation === null || !deviationCodes.includes(view.deviation)) return null;
  const group = finding.groups.find(({ by }) => by['deviation'] === view.deviation);
  return (
    <section className="aspect looked-into" aria-labelledby="looked-into" data-deviation={view.deviation}>
      <h2 id="looked-into">{valueSays('deviation', view.deviation)}</h2>
      {group === undefined ? (
        <p>It is not among what is ranked here.</p>
      ) : (
        <Line {...{ finding, group, units }} depth={finding.settings.deviation === view.deviation} />
      )}
      <button type="button" className="word" onClick={() => change({ deviation: null })}>
        Close
      </button>
    </section>
  );
}

function Line({ finding, group, units, depth }: Props & { group: Group; depth: boolean }) {
  const { mechanism, critical, others } = lineWords(group);
  const seen = group.estimates['hazardRatio']?.value ?? null;
  const shadows = depth ? shadowsOf(finding, seen) : null;
  const count = (value: number) => value.toLocaleString('en-US');
  const without = group.counts['livesWithout'] ?? 0;
  const unknown = group.counts['livesUnknown'] ?? 0;
  return (
    <>
      <FirmnessLine firmness={group.firmness} reason="for this deviation alone" />
      <p>
        With it{' '}
        <CountLink {...{ finding, group }} counted="lives">
          {count(group.lives)}
        </CountLink>{' '}
        lives and{' '}
        <CountLink {...{ finding, group }} counted="failures">
          {count(group.failures)}
        </CountLink>{' '}
        failures; without it{' '}
        <CountLink {...{ finding, group }} counted="livesWithout">
          {count(without)}
        </CountLink>{' '}
        lives and {count(group.counts['failuresWithout'] ?? 0)} failures; not known of{' '}
        <CountLink {...{ finding, group }} counted="livesUnknown">
          {count(unknown)}
        </CountLink>
        .
      </p>
      <ul className="line-notes">
        {[...(mechanism === null ? [] : [mechanism]), ...others].map((note) => (
          <li key={note}>{note}</li>
        ))}
        {critical !== null && (
          <li>
            Safety-critical: changed on mechanism, not on statistics. {critical.said};{' '}
            <a href="#critical">case by case</a>.
          </li>
        )}
      </ul>
      {depth && (
        <div className="depth">
          <RatioTable {...partHeads('Within each shop', 'shop')} rows={depthRows(finding, 'one-shop', 'shop')} />
          <RatioTable
            {...partHeads('Within each hub build', 'hub build')}
            rows={depthRows(finding, 'one-build', 'hub_build')}
          />
          <RatioTable
            {...partHeads('Without one shop', 'left out')}
            rows={depthRows(finding, 'without-one-shop', 'shop')}
          />
          <RatioTable
            {...partHeads('Without one year of installation', 'left out')}
            rows={depthRows(finding, 'without-one-year', 'install_year')}
          />
        </div>
      )}
      {shadows && <ShadowStrip shadows={shadows} seen={seen} />}
      <EstimateList {...{ finding, group, units }} />
    </>
  );
}

const partHeads = (caption: string, name: string) => ({
  caption,
  heads: [name, 'times, adjusted', 'failures with', 'without'] as const,
});
