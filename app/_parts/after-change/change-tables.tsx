import { ratioSays, valueSays } from '../../../lib/charts/index.ts';
import type { Finding } from '../../../shared/finding.ts';
import { percentSign } from '../../../shared/percent-sign.ts';
import { TextTable } from '../shops/text-table.tsx';

type Columns = Readonly<Record<string, readonly (number | null)[]>>;

const first = (columns: Columns, name: string): number | null => columns[name]?.[0] ?? null;
const count = (value: number | null): string => (value === null ? '—' : value.toLocaleString('en-US'));
const some = (columns: Columns, part: string, whole: string): string =>
  `${count(first(columns, part))} in ${count(first(columns, whole))}`;

/** What must not get worse, and how often each deviation was there, before and after. */
export function ChangeTables({ finding }: { readonly finding: Finding }) {
  const named = (name: string) => finding.series.filter((one) => one.name === name);
  const [guards, deviations] = [named('guard'), named('deviation')];
  return (
    <>
      {guards.length > 0 && (
        <section className="aspect" aria-labelledby="guards">
          <h2 id="guards">What must not get worse</h2>
          <p>Failures in lives where the change was made, like for like as the answer is.</p>
          <TextTable
            caption="Bearing failures, hot hubs and comebacks before and after"
            corner="failure"
            table={{
              heads: ['before', 'after', 'times as often after'],
              rows: guards.map(({ group, columns }) => ({
                name: group,
                cells: [
                  some(columns, 'failuresBefore', 'livesBefore'),
                  some(columns, 'failuresAfter', 'livesAfter'),
                  first(columns, 'ratio') === null
                    ? 'too few to tell'
                    : ratioSays(first(columns, 'ratio'), first(columns, 'lower'), first(columns, 'upper')),
                ],
              })),
            }}
          />
        </section>
      )}
      {deviations.length > 0 && (
        <section className="aspect" aria-labelledby="followed">
          <h2 id="followed">Was it followed?</h2>
          <p>Jobs with each deviation, of those whose record tells, where the change was made.</p>
          <TextTable
            caption="Deviations before and after"
            corner="deviation"
            table={{
              heads: ['before', 'after', 'points apart'],
              rows: deviations.map(({ group, columns }) => ({
                name: valueSays('deviation', group),
                cells: [share(columns, 'Before'), share(columns, 'After'), points(columns)],
              })),
            }}
          />
        </section>
      )}
    </>
  );
}

function share(columns: Columns, when: string): string {
  const [withIt, told] = [first(columns, `with${when}`) ?? 0, first(columns, `told${when}`) ?? 0];
  return told === 0 ? 'not told' : `${((100 * withIt) / told).toFixed(1)}${percentSign} of ${count(told)}`;
}

function points(columns: Columns): string {
  const text = (name: string) => {
    const value = first(columns, name);
    return value === null ? '—' : (100 * value).toFixed(1).replace('-', '−');
  };
  return `${text('difference')} (${text('lower')} to ${text('upper')})`;
}
