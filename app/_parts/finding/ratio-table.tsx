import { ratioAxis, ratioSays } from '../../../lib/charts/index.ts';
import { RatioInterval } from './ratio-interval.tsx';

export interface RatioRow {
  readonly name: string;
  readonly value: number | null;
  readonly lower: number | null;
  readonly upper: number | null;
  /** Texts of the columns after the ratio. */
  readonly cells: readonly string[];
}

interface Props {
  readonly caption: string;
  readonly heads: readonly [name: string, ratio: string, ...rest: string[]];
  readonly rows: readonly RatioRow[];
}

const [width, height, margin] = [180, 20, 8];

/** Ratios in rows, each drawn on one axis in its row and written beside it. */
export function RatioTable({ caption, heads, rows }: Props) {
  if (rows.length === 0) return null;
  const known = (values: readonly (number | null)[]) => values.filter((value) => value !== null);
  const axis = ratioAxis(
    known(rows.map(({ value }) => value)),
    known(rows.flatMap(({ lower, upper }) => [lower, upper])),
  );
  const x = (value: number) => margin + axis.share(value) * (width - 2 * margin);
  const [name, ratio, ...rest] = heads;
  return (
    <div className="wide" role="region" aria-label={`${caption}, scrolls sideways`} tabIndex={0}>
      <table className="ratio-table">
        <caption>{caption}</caption>
        <thead>
          <tr>
            <th scope="col" className="text-cell">
              {name}
            </th>
            <th scope="col" className="text-cell">
              <span className="unseen">{ratio}, drawn</span>
              <svg width={width} height={16} aria-hidden="true">
                {axis.ticks.map((tick) => (
                  <text key={tick} x={x(tick)} y={12} textAnchor="middle" className="ratio-tick">
                    {tick}
                  </text>
                ))}
              </svg>
            </th>
            <th scope="col">{ratio}</th>
            {rest.map((head) => (
              <th key={head} scope="col">
                {head}
              </th>
            ))}
          </tr>
        </thead>
        <tbody>
          {rows.map((row) => (
            <tr key={row.name}>
              <th scope="row" className="text-cell">
                {row.name}
              </th>
              <td className="ratio-drawn">
                <svg width={width} height={height} aria-hidden="true">
                  <line x1={x(1)} x2={x(1)} y1={0} y2={height} className="ratio-one" />
                  {row.value !== null && (
                    <RatioInterval
                      {...{ axis, value: row.value, lower: row.lower, upper: row.upper, radius: 4 }}
                      length={width - 2 * margin}
                      at={(along, beside) => [margin + along, height / 2 + beside]}
                      barClass="ratio-bar"
                    />
                  )}
                </svg>
              </td>
              <td>{ratioSays(row.value, row.lower, row.upper)}</td>
              {row.cells.map((cell, index) => (
                <td key={rest[index]}>{cell}</td>
              ))}
            </tr>
          ))}
        </tbody>
      </table>
    </div>
  );
}
