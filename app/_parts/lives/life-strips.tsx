'use client';

import { useRef } from 'react';
import {
  lifeStrip,
  stripDescription,
  stripSpan,
  stripTicks,
  valueSays,
  type StripOptions,
} from '../../../lib/charts/index.ts';
import type { WheelEndHistory } from '../../../shared/life-history.ts';
import type { UnitSystem } from '../../../shared/units.ts';
import { usePick } from '../../_state/use-pick.ts';
import { useWidth } from '../figure/use-width.ts';
import { PageLink } from '../frame/page-link.tsx';
import { EndMark, EventMark, StripKey } from './strip-shapes.tsx';

const height = 62;
const [labelLine, lifeLine, markLine] = [12, 28, 50];
/** Narrower than a finger's width a life is opened from the list instead (WCAG 2.2, 2.5.8). */
const leastLink = 24;

interface Props {
  readonly histories: readonly WheelEndHistory[];
  readonly units: UnitSystem;
  /** The life that lies open. */
  readonly chosen: string | null;
}

/** Wheel ends of a vehicle, each a strip along its miles: installations, checks, findings, and how its lives ended. */
export function LifeStrips({ histories, units, chosen }: Props) {
  const box = useRef<HTMLDivElement>(null);
  const width = useWidth(box);
  const span = stripSpan(histories);
  const options = { width: width ?? 0, span, unitSystem: units };
  return (
    <div className="strips" ref={box}>
      {histories.map((history) => (
        <div key={`${history.axle} ${history.side}`} className="life-strip">
          <h4>
            {valueSays('position', `${history.axle} ${history.side}`)}
            {history.role !== null && ` · ${history.role}`}
          </h4>
          <div className="strip-frame" style={{ height }}>
            {width !== null && <Strip {...{ history, options, chosen }} />}
          </div>
        </div>
      ))}
      <div className="strip-axis" aria-hidden="true">
        {width !== null &&
          stripTicks(options).map(({ x, text }) => (
            <span key={text} style={{ left: x }}>
              {text}
            </span>
          ))}
      </div>
      <StripKey />
    </div>
  );
}

function Strip({
  history,
  options,
  chosen,
}: {
  history: WheelEndHistory;
  options: StripOptions;
  chosen: string | null;
}) {
  const { lives, waits, marks } = lifeStrip(history, options);
  const { searchWith } = usePick();
  return (
    <>
      <svg
        {...{ role: 'img', width: options.width, height, 'aria-label': stripDescription(history, options.unitSystem) }}
      >
        {waits.map(({ x1, x2 }) => (
          <path key={x1} className="strip-wait" d={`M${x1} ${lifeLine}H${x2}`} />
        ))}
        {lives.map(({ lifeId, x1, x2, fitted, end, label, says }) => (
          <g key={lifeId} className={lifeId === chosen ? 'strip-chosen' : undefined}>
            <title>{says}</title>
            <path className="strip-life-line" d={`M${x1} ${lifeLine}H${x2}`} />
            {fitted && <path className="strip-line" d={`M${x1} ${lifeLine - 9}V${lifeLine + 9}`} />}
            <EndMark end={end} x={x2} y={lifeLine} />
            {label && (
              <text x={label.x} y={labelLine} textAnchor={label.anchor}>
                {label.text}
              </text>
            )}
          </g>
        ))}
        {marks.map(({ kind, x, says }, place) => (
          <g key={place}>
            <title>{says}</title>
            <EventMark kind={kind} x={x} y={markLine} />
          </g>
        ))}
      </svg>
      {lives.map(
        ({ lifeId, x1, x2, says }) =>
          x2 - x1 >= leastLink && (
            <span
              key={lifeId}
              className="strip-link"
              style={{ left: x1, width: x2 - x1, top: lifeLine - 12 }}
              title={says}
            >
              <PageLink path="/lives/" search={searchWith({ life: lifeId })} current={lifeId === chosen}>
                <span className="unseen">Open {says}</span>
              </PageLink>
            </span>
          ),
      )}
    </>
  );
}
