'use client';

import { columnSays } from '../../../lib/charts/index.ts';
import { viewToSearch } from '../../../lib/view/index.ts';
import { deviationColumn, deviations } from '../../../shared/deviations.ts';
import { defaultView } from '../../../shared/view.ts';
import type { JudgedLives, JudgementsChanged } from '../../_state/lives-desk.ts';
import { useView } from '../../_state/use-view.ts';
import { PageLink } from '../frame/page-link.tsx';

const words = ['yes', 'no', 'unknown', 'not-applicable'] as const;
const heads: Readonly<Record<(typeof words)[number], string>> = {
  yes: 'deviates',
  no: 'does not',
  unknown: 'not known',
  'not-applicable': 'does not apply',
};
const whole = (value: number): string => value.toLocaleString('en-US');

/** How lives are judged, by deviation; after a change, what was before it and how many are judged otherwise. */
export function JudgedTable({ judged, changed }: { judged: JudgedLives; changed: JudgementsChanged | null }) {
  const { units } = useView();
  const link = (code: string, word: string) =>
    viewToSearch({ ...defaultView, where: { [deviationColumn(code)]: [word], install_kind: ['replacement'] } }, units);
  return (
    <div className="wide" role="region" aria-label="Judgements, scrolls sideways" tabIndex={0}>
      <table className="judged" data-judged={judged.lives}>
        <caption>
          Seal lives that a job began, by how each deviation is judged
          {changed !== null && '; in brackets, before the change'}
        </caption>
        <thead>
          <tr>
            <th scope="col" className="text-cell">
              deviation
            </th>
            {words.map((word) => (
              <th key={word} scope="col">
                {heads[word]}
              </th>
            ))}
            {changed !== null && <th scope="col">judged otherwise</th>}
          </tr>
        </thead>
        <tbody>
          {deviations.map(({ code }) => {
            const other = changed?.changed[code] ?? 0;
            return (
              <tr key={code} data-code={code} className={other > 0 ? 'changed' : undefined}>
                <th scope="row" className="text-cell">
                  {columnSays(deviationColumn(code))}
                </th>
                {words.map((word) => {
                  const now = judged.counts[code]?.[word] ?? 0;
                  const before = changed?.before.counts[code]?.[word] ?? now;
                  return (
                    <td key={word} data-word={word}>
                      {now === 0 ? (
                        '0'
                      ) : (
                        <PageLink className="count-link" path="/lives/" search={link(code, word)}>
                          {whole(now)}
                        </PageLink>
                      )}
                      {before !== now && <small> ({whole(before)})</small>}
                    </td>
                  );
                })}
                {changed !== null && <td data-word="changed">{whole(other)}</td>}
              </tr>
            );
          })}
        </tbody>
      </table>
    </div>
  );
}
