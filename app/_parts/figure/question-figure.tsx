'use client';

import { useCallback, useMemo, useRef, type MouseEvent } from 'react';
import {
  canNarrow,
  figureDescription,
  figureOf,
  groupSays,
  pageTheme,
  type DrawFigure,
  type Figure,
} from '../../../lib/charts/index.ts';
import type { Finding } from '../../../shared/finding.ts';
import type { UnitSystem } from '../../../shared/units.ts';
import { NumbersAtRisk } from './numbers-at-risk.tsx';
import { useDrawing } from './use-drawing.ts';
import { useNearView } from './use-near-view.ts';
import { useWidth } from './use-width.ts';

interface Props {
  readonly finding: Finding;
  readonly units: UnitSystem;
  readonly height: number;
  readonly compact?: boolean;
  readonly onNarrow: (by: Readonly<Record<string, string>>) => void;
  /** A further figure of the finding in place of its own. */
  readonly draw?: DrawFigure;
  /** What that one shows, in a sentence. */
  readonly says?: string;
}

/** A finding's figure with buttons over its names: pressing one, or a mark, narrows the scope to it. */
export function QuestionFigure({ finding, units, height, compact = false, onNarrow, draw = figureOf, says }: Props) {
  const box = useRef<HTMLDivElement>(null);
  const width = useWidth(box);
  const near = useNearView(box);
  const figure = useMemo(
    () => (width === null ? null : draw(finding, { width, height, compact, theme: pageTheme, unitSystem: units })),
    [finding, units, width, height, compact, draw],
  );
  const { svg, current, trouble } = useDrawing(near ? figure : null);
  const press = useCallback(
    (label: string) => {
      const group = finding.groups.find((candidate) => candidate.label === label);
      if (group && Object.keys(group.by).length > 0 && canNarrow(group.by)) onNarrow(group.by);
    },
    [finding, onNarrow],
  );
  const pressMark = ({ target }: MouseEvent) => {
    const label = target instanceof Element ? target.closest('[data-group]')?.getAttribute('data-group') : null;
    if (label != null) press(label);
  };
  const tall = figure?.height ?? height;
  return (
    <div className="figure-box" ref={box} data-drawn={current}>
      <div className="figure-frame" style={{ minHeight: compact ? Math.max(height, tall) : tall }}>
        {/* The names' buttons do the same by keyboard; the picture's texts come escaped from Vega. */}
        <div
          {...{ role: 'img', 'aria-label': says ?? figureDescription(finding), onClick: pressMark }}
          dangerouslySetInnerHTML={{ __html: svg ?? '' }}
        />
        {figure && <NarrowButtons figure={figure} finding={finding} onPress={press} />}
      </div>
      {trouble && <p role="alert">The figure could not be drawn: {trouble}</p>}
      {figure && <LeftOut figure={figure} compact={compact} />}
      {figure && !compact && figure.ticks.length > 0 && <NumbersAtRisk {...{ finding, figure }} />}
    </div>
  );
}

function LeftOut({ figure, compact }: { figure: Figure; compact: boolean }) {
  const { leftOut: names, leftOutWhy: why = 'for want of room' } = figure;
  if (names.length === 0) return null;
  const which = names.length === 1 ? `Not drawn: ${names[0]}, ${why}.` : `${names.length} more are not drawn, ${why}.`;
  return <p className="left-out">{compact ? which : `${which} The table has all.`}</p>;
}

interface NarrowProps {
  readonly figure: Figure;
  readonly finding: Finding;
  readonly onPress: (group: string) => void;
}

function NarrowButtons({ figure, finding, onPress }: NarrowProps) {
  return figure.labels.map(({ group, x, y, width, height }) => {
    const by = finding.groups.find(({ label }) => label === group)?.by ?? {};
    if (!canNarrow(by)) return null;
    return (
      <button
        key={group}
        type="button"
        className="narrow"
        title={by['deviation'] === undefined ? 'Look at these only' : 'Look into it'}
        style={{ left: x, top: y, width, height }}
        onClick={() => onPress(group)}
      >
        <span className="unseen">
          {by['deviation'] === undefined ? 'Look only at' : 'Look into'} {groupSays(by)}
        </span>
      </button>
    );
  });
}
