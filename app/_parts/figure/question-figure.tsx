'use client';

import dynamic from 'next/dynamic';
import { useCallback, useMemo, useRef, useState } from 'react';
import { figureDescription, figureOf, groupSays, pageTheme, type Figure } from '../../../lib/charts/index.ts';
import type { Finding } from '../../../shared/finding.ts';
import type { UnitSystem } from '../../../shared/units.ts';
import { NumbersAtRisk } from './numbers-at-risk.tsx';
import { useNearView } from './use-near-view.ts';
import { useWidth } from './use-width.ts';

const VegaFigure = dynamic(() => import('./figure.tsx'), { ssr: false });

interface Props {
  readonly finding: Finding;
  readonly units: UnitSystem;
  readonly height: number;
  readonly compact?: boolean;
  readonly onNarrow: (by: Readonly<Record<string, string>>) => void;
}

/** A finding's figure with buttons over its names: pressing one, or a mark, narrows the scope to it. */
export function QuestionFigure({ finding, units, height, compact = false, onNarrow }: Props) {
  const box = useRef<HTMLDivElement>(null);
  const width = useWidth(box);
  const near = useNearView(box);
  const [drawn, setDrawn] = useState<Figure | null>(null);
  const figure = useMemo(
    () => (width === null ? null : figureOf(finding, { width, height, compact, theme: pageTheme, unitSystem: units })),
    [finding, units, width, height, compact],
  );
  const press = useCallback(
    (label: string) => {
      const group = finding.groups.find((candidate) => candidate.label === label);
      if (group && Object.keys(group.by).length > 0) onNarrow(group.by);
    },
    [finding, onNarrow],
  );
  const onDrawn = useCallback(() => setDrawn(figure), [figure]);
  const tall = figure?.height ?? height;
  return (
    <div className="figure-box" ref={box} data-drawn={figure !== null && drawn === figure}>
      <div className="figure-frame" style={{ minHeight: compact ? Math.max(height, tall) : tall }}>
        <div role="img" aria-label={figureDescription(finding)}>
          {figure && near && <VegaFigure figure={figure} onDrawn={onDrawn} onPress={press} />}
        </div>
        {figure && <NarrowButtons figure={figure} finding={finding} onPress={press} />}
      </div>
      {figure && figure.leftOut.length > 0 && (
        <p className="left-out">
          {figure.leftOut.length === 1
            ? `Not drawn: ${figure.leftOut[0]}.`
            : `${figure.leftOut.length} smaller groups are not drawn.`}{' '}
          {compact ? '' : 'The table has them all.'}
        </p>
      )}
      {figure && !compact && figure.ticks.length > 0 && <NumbersAtRisk {...{ finding, figure }} />}
    </div>
  );
}

interface NarrowProps {
  readonly figure: Figure;
  readonly finding: Finding;
  readonly onPress: (group: string) => void;
}

function NarrowButtons({ figure, finding, onPress }: NarrowProps) {
  return figure.labels.map(({ group, x, y, width, height }) => {
    const by = finding.groups.find(({ label }) => label === group)?.by ?? {};
    return (
      <button
        key={group}
        type="button"
        className="narrow"
        title="Look at these only"
        style={{ left: x, top: y, width, height }}
        onClick={() => onPress(group)}
      >
        <span className="unseen">Look only at {groupSays(by)}</span>
      </button>
    );
  });
}
