import { ratioAxis, ratioSays } from '../../../lib/charts/index.ts';
import type { Shadows } from './depth-words.ts';

const [width, height, margin] = [640, 44, 10];

/** The ratio seen among those that chance alone shows. */
export function ShadowStrip({ shadows, seen }: { shadows: Shadows; seen: number | null }) {
  const { ratios, asFar } = shadows;
  if (ratios.length === 0 || seen === null) return null;
  const axis = ratioAxis([...ratios, seen], []);
  const x = (value: number) => margin + axis.share(value) * (width - 2 * margin);
  const said = `Shadows: who had it, shuffled within shops ${ratios.length} times, so that whatever a shadow shows is chance. Of these, ${asFar === 0 ? 'none lies' : asFar === 1 ? 'one lies' : `${asFar} lie`} as far from 1 as the ratio seen, ${ratioSays(seen, null, null)}.`;
  return (
    <figure className="shadow">
      <svg viewBox={`0 0 ${width} ${height}`} role="img" aria-label={said}>
        <line x1={x(1)} x2={x(1)} y1={0} y2={24} className="ratio-one" />
        {ratios.map((ratio, index) => (
          <line key={index} x1={x(ratio)} x2={x(ratio)} y1={6} y2={20} className="shadow-tick" />
        ))}
        <circle cx={x(seen)} cy={13} r={5} className="ratio-dot" />
        {axis.ticks.map((tick) => (
          <text key={tick} x={x(tick)} y={40} textAnchor="middle" className="ratio-tick">
            {tick}
          </text>
        ))}
      </svg>
      <figcaption>{said}</figcaption>
    </figure>
  );
}
