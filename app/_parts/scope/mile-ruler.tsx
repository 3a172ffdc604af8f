'use client';

import { useEffect, useRef, useState, type KeyboardEvent, type PointerEvent } from 'react';
import { movedBy, snapped, type Ruler } from './horizon.ts';

interface Props {
  /** In miles or in months, as the view's axis counts. */
  readonly horizon: number;
  readonly ruler: Ruler;
  readonly onChoose: (horizon: number) => void;
}

const settleMilliseconds = 250;

/** The horizon chosen on a ruler that all figures share; drag the mark, or use the arrow keys. */
export function MileRuler({ horizon, ruler, onChoose }: Props) {
  const [moving, setMoving] = useState<number | null>(null);
  const line = useRef<HTMLDivElement>(null);
  const timer = useRef<ReturnType<typeof setTimeout>>(undefined);
  useEffect(() => () => clearTimeout(timer.current), []);
  const shown = moving ?? horizon * ruler.factor;
  const settle = (value: number) => {
    setMoving(null);
    if (value !== horizon * ruler.factor) onChoose(value / ruler.factor);
  };
  const under = (event: PointerEvent) => {
    const box = line.current?.getBoundingClientRect();
    return box ? snapped(((event.clientX - box.left) / box.width) * ruler.end, ruler) : shown;
  };
  const press = (event: PointerEvent<HTMLDivElement>) => {
    if (event.button !== 0) return;
    event.currentTarget.setPointerCapture(event.pointerId);
    setMoving(under(event));
  };
  const key = (event: KeyboardEvent) => {
    const next = movedBy(event.key, shown, ruler);
    if (next === null) return;
    event.preventDefault();
    setMoving(next);
    // One step of the back button for a run of key presses, not one for each.
    clearTimeout(timer.current);
    timer.current = setTimeout(() => settle(next), settleMilliseconds);
  };
  const share = `${(shown / ruler.end) * 100}%`;
  return (
    <div
      className="ruler"
      onPointerDown={press}
      onPointerMove={(event) => moving !== null && event.buttons === 1 && setMoving(under(event))}
      onPointerUp={(event) => moving !== null && settle(under(event))}
      onPointerCancel={() => setMoving(null)}
    >
      <div className="ruler-line" ref={line}>
        <RulerTicks ruler={ruler} />
        <div className="ruler-run" style={{ width: share }} />
        <div
          className="ruler-mark"
          style={{ left: share }}
          role="slider"
          tabIndex={0}
          aria-label="Followed for"
          aria-valuemin={ruler.step}
          aria-valuemax={ruler.end}
          aria-valuenow={Math.round(shown)}
          aria-valuetext={`${Math.round(shown).toLocaleString('en-US')} ${ruler.symbol}`}
          onKeyDown={key}
        />
      </div>
    </div>
  );
}

function RulerTicks({ ruler: { end, symbol, tick: small } }: { ruler: Ruler }) {
  const ticks = Array.from({ length: Math.round(end / small) + 1 }, (_, index) => index * small);
  return (
    <div className="ruler-ticks" aria-hidden="true">
      {ticks.map((at, index) => {
        const named = index % 10 === 0;
        const kind = named ? 'long' : index % 5 === 0 ? 'middle' : 'short';
        return (
          <span key={at} className={`tick ${kind}`} style={{ left: `${(at / end) * 100}%` }}>
            {named && (
              <span className="tick-name">
                {at.toLocaleString('en-US')}
                {index === 0 ? '' : <span className="tick-unit"> {symbol}</span>}
              </span>
            )}
          </span>
        );
      })}
    </div>
  );
}
