import { ratioAxis, ratioSays } from '../../../lib/charts/index.ts';
import type { Finding, Series } from '../../../shared/finding.ts';
import { RatioInterval } from '../finding/ratio-interval.tsx';
import { RatioTable, type RatioRow } from '../finding/ratio-table.tsx';
import { shopSays } from './shop-tables.ts';

const [width, height, margin] = [360, 110, 26];
/** Under one failure expected a quarter tells nothing yet: it is left out of the picture, not of the table. */
const leastExpected = 1;

interface Quarter {
  readonly name: string;
  readonly at: number;
  readonly observed: number;
  readonly expected: number;
  readonly ratio: number | null;
  readonly lower: number | null;
  readonly upper: number | null;
}

function quartersOf({ columns }: Series): Quarter[] {
  const column = (name: string) => columns[name] ?? [];
  return column('year').map((year, index) => ({
    name: `${year} Q${column('quarter')[index]}`,
    at: (year ?? 0) + ((column('quarter')[index] ?? 1) - 1) / 4,
    ...{ observed: column('observed')[index] ?? 0, expected: column('expected')[index] ?? 0 },
    ...{ ratio: column('ratio')[index] ?? null, lower: column('lower')[index] ?? null },
    upper: column('upper')[index] ?? null,
  }));
}

/** Whether a shop got better or worse: times the expected by the quarter in which the part was fitted. */
export function QuarterTrends({ finding }: { finding: Finding }) {
  const trends = finding.series.filter(({ name }) => name === 'install quarter');
  const all = trends.flatMap(quartersOf).filter(({ expected }) => expected >= leastExpected);
  if (all.length === 0) return null;
  const span = [Math.min(...all.map(({ at }) => at)), Math.max(...all.map(({ at }) => at))] as const;
  return (
    <section className="aspect" aria-labelledby="trend">
      <h2 id="trend">By quarter of installation</h2>
      <p>
        Times the expected of what was fitted in each quarter, with exact limits; quarters with under one failure
        expected stand in the tables only. An arrow says that the limits go on. With so many quarters, one beyond its
        limits may well be chance.
      </p>
      <div className="trends">
        {trends.map((series) => (
          <Trend key={series.group} {...{ series, span, says: shopSays(finding, series.group) }} />
        ))}
      </div>
    </section>
  );
}

function Trend({ series, span, says }: { series: Series; span: readonly [number, number]; says: string }) {
  const quarters = quartersOf(series);
  const drawn = quarters.filter(({ expected }) => expected >= leastExpected);
  const axis = ratioAxis([0.2, 5], []);
  const x = (at: number) => margin + ((at - span[0]) / Math.max(0.25, span[1] - span[0])) * (width - margin - 8);
  const y = (ratio: number) => 6 + (1 - axis.share(ratio)) * (height - 28);
  const rows = quarters.map(({ name, ratio, lower, upper, observed, expected }): RatioRow => ({
    ...{ name, value: ratio, lower, upper },
    cells: [observed.toLocaleString('en-US'), expected.toFixed(1)],
  }));
  const last = drawn.at(-1);
  const said = `${says}: ${drawn.length} quarters${last ? `, the last ${last.name} ${ratioSays(last.ratio, last.lower, last.upper)}` : ''}`;
  return (
    <div className="trend">
      <h3>{says}</h3>
      <svg viewBox={`0 0 ${width} ${height}`} role="img" aria-label={said}>
        {[0.2, 1, 5].map((tick) => (
          <g key={tick}>
            <line
              x1={margin}
              x2={width}
              y1={y(tick)}
              y2={y(tick)}
              className={tick === 1 ? 'ratio-one' : 'trend-line'}
            />
            <text x={margin - 4} y={y(tick) + 4} textAnchor="end" className="ratio-tick">
              {tick}
            </text>
          </g>
        ))}
        {drawn.map(({ name, at, ratio, lower, upper }) => (
          <g key={name}>
            <RatioInterval
              {...{ axis, value: ratio, lower, upper, radius: 3 }}
              length={y(0) - y(Infinity)}
              at={(along, beside) => [x(at) + beside, y(0) - along]}
              barClass="trend-bar"
            />
          </g>
        ))}
      </svg>
      <p className="trend-ends">
        <span>{Math.floor(span[0])}</span>
        <span>{Math.floor(span[1])}</span>
      </p>
      <details>
        <summary>The quarters in numbers</summary>
        <RatioTable caption={says} heads={['fitted in', 'times the expected', 'failures', 'expected']} rows={rows} />
      </details>
    </div>
  );
}
