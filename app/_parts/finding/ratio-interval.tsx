import { ratioAxis } from '../../../lib/charts/index.ts';

type RatioScale = ReturnType<typeof ratioAxis>;

interface Props {
  readonly axis: RatioScale;
  readonly value: number | null;
  readonly lower: number | null;
  readonly upper: number | null;
  /** How long the axis is drawn, and where so many pixels along it and beside it lie. */
  readonly length: number;
  readonly at: (along: number, beside: number) => readonly [x: number, y: number];
  readonly radius: number;
  readonly barClass: string;
}

/** A ratio on its axis: its limits a bar, an arrow where they go on past the axis, and its dot. */
export function RatioInterval({ axis, value, lower, upper, length, at, radius, barClass }: Props) {
  const low = lower === null || lower < axis.start * (1 - 1e-9) ? null : lower;
  const high = upper === null || upper > axis.end * (1 + 1e-9) ? null : upper;
  const along = (ratio: number) => length * axis.share(ratio);
  const [from, to] = [low === null ? 0 : along(low), high === null ? length : along(high)];
  const [[x1, y1], [x2, y2]] = [at(from, 0), at(to, 0)];
  const arrow = (tip: number, back: number) =>
    [at(tip, 0), at(back, radius), at(back, -radius)].map((point) => point.join(',')).join(' ');
  const [x, y] = at(value === null ? 0 : along(value), 0);
  return (
    <>
      <line {...{ x1, y1, x2, y2 }} className={barClass} />
      {low === null && <polygon points={arrow(-1, 2 * radius - 1)} className="ratio-dot" />}
      {high === null && <polygon points={arrow(length + 1, length - 2 * radius + 1)} className="ratio-dot" />}
      {value !== null && value > 0 && <circle cx={x} cy={y} r={radius} className="ratio-dot" />}
    </>
  );
}
