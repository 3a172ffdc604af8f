import { ratioAxis, ratioSays } from '../../../lib/charts/index.ts';

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
                <RatioMark row={row} x={x} one={x(1)} />
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

function RatioMark({ row, x, one }: { row: RatioRow; x: (value: number) => number; one: number }) {
  const { value, lower, upper } = row;
  return (
    <svg width={width} height={height} aria-hidden="true">
      <line x1={one} x2={one} y1={0} y2={height} className="ratio-one" />
      {value !== null && (
        <>
          <line
            x1={lower === null ? margin : x(lower)}
            x2={upper === null ? width - margin : x(upper)}
            y1={height / 2}
            y2={height / 2}
            className="ratio-bar"
          />
          {value > 0 && <circle cx={x(value)} cy={height / 2} r={4} className="ratio-dot" />}
        </>
      )}
    </svg>
  );
}
