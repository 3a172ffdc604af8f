import type { RecordQuality } from '../../../shared/record-quality.ts';
import { QualityTable } from './quality-table.tsx';

const days = (value: number) => value.toLocaleString('en-US');

/** Rows by month and table as strips of one height, the darkest month of each table being its fullest. */
export function TimeCoverage({ quality: { coverage, silent } }: { quality: RecordQuality }) {
  const months = [...new Set(coverage.flatMap((table) => table.months.map(({ month }) => month)))].sort();
  return (
    <section>
      <h2>Which times are covered</h2>
      {coverage.length === 0 ? (
        <p>No dated row was kept.</p>
      ) : (
        <>
          <div className="coverage" aria-hidden="true">
            {coverage.map(({ table, months: held }) => {
              const most = Math.max(...held.map(({ rows }) => rows));
              const rowsOf = new Map(held.map(({ month, rows }) => [month, rows]));
              return (
                <div key={table} className="coverage-line">
                  <span>{table}</span>
                  <span className="coverage-months">
                    {months.map((month) => (
                      <i
                        key={month}
                        title={`${month}: ${days(rowsOf.get(month) ?? 0)} rows`}
                        style={{ opacity: rowsOf.has(month) ? 0.2 + (0.8 * (rowsOf.get(month) ?? 0)) / most : 0 }}
                      />
                    ))}
                  </span>
                </div>
              );
            })}
            <div className="coverage-line coverage-axis">
              <span />
              <span>
                <b>{months[0]}</b>
                <b>{months.at(-1)}</b>
              </span>
            </div>
          </div>
          <QualityTable
            caption="First and last row of each table"
            heads={['table', 'first', 'last', 'months with rows', 'rows']}
            words={3}
            rows={coverage.map(({ table, first, last, months: held }) => [
              ...[table, first, last, days(held.length)],
              days(held.reduce((sum, { rows }) => sum + rows, 0)),
            ])}
          />
        </>
      )}
      {silent.length > 0 && (
        <QualityTable
          caption="Shops that wrote no service for 60 days or more, and ten times longer than is usual there"
          heads={['shop', 'from', 'to', 'days', 'usual days between services']}
          words={3}
          rows={silent.map(({ shop, from, to, days: length, usualDays }) => [
            ...[shop, from, to, days(length), days(usualDays)],
          ])}
        />
      )}
    </section>
  );
}
