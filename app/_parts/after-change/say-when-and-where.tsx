'use client';

import { BAD_SPELL, CHANGE, PLACEBO } from '../../../data/demo/story.ts';
import type { Finding } from '../../../shared/finding.ts';
import { useRecordSet } from '../../_state/use-record-set.ts';
import { useView } from '../../_state/use-view.ts';
import { TextTable } from '../shops/text-table.tsx';

/** What the invented fleet's story has changed, and where: days to try the page on. */
const invented = [
  { shop: CHANGE.shop, date: CHANGE.date, what: CHANGE.what },
  { shop: PLACEBO.shop, date: PLACEBO.date, what: 'a poster on clean work' },
  { shop: BAD_SPELL.shop, date: BAD_SPELL.visitDate, what: 'a training visit after a bad spell' },
];

const count = (value: number): string => value.toLocaleString('en-US');

/** Shown until a change is asked for: who could change, what it would take to see it, and on the demo what to try. */
export function SayWhenAndWhere({ finding }: { readonly finding: Finding }) {
  const { open } = useRecordSet();
  const { change } = useView();
  const shops = finding.groups.filter(({ label }) => label !== 'unknown');
  return (
    <>
      {open?.demo === true && finding.data.invented && (
        <section className="aspect" aria-labelledby="try">
          <h2 id="try">Changes of the invented fleet to try</h2>
          <ul>
            {invented.map(({ shop, date, what }) => (
              <li key={shop}>
                <button type="button" className="word" onClick={() => change({ change: date, changedShops: [shop] })}>
                  {shop} from {date}
                </button>
                : {what} (invented)
              </li>
            ))}
          </ul>
        </section>
      )}
      <section className="aspect" aria-labelledby="who">
        <h2 id="who">Shops that could change, and what it would take to see it</h2>
        <p>
          Failures and months needed until a change to 0.7 times as many failures is found four times in five, at the
          pace each shop works at now.
        </p>
        <TextTable
          caption="Shops with the lives of their work, and what finding a change takes"
          corner="shop"
          table={{
            heads: ['lives', 'failures', 'jobs a month', 'failures needed after', 'months needed'],
            rows: shops.map(({ label, lives, failures }) => ({
              name: label,
              cells: [count(lives), count(failures), ...planCells(finding, label)],
            })),
          }}
        />
      </section>
    </>
  );
}

function planCells({ series }: Finding, shop: string): string[] {
  const columns = series.find(({ name, group }) => name === 'plan' && group === shop)?.columns;
  const at = columns?.['ratio']?.indexOf(0.7) ?? -1;
  const read = (name: string) => columns?.[name]?.[at] ?? null;
  const [jobs, failures, months] = [read('jobsPerMonth'), read('failuresNeeded'), read('monthsNeeded')];
  return [
    jobs === null ? '—' : jobs.toFixed(1),
    failures === null ? 'too few before' : count(failures),
    months === null ? (failures === null ? '—' : 'over 240') : count(months),
  ];
}
