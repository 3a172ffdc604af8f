'use client';

import { expressionInterpreter } from 'vega-interpreter';
import type { EmbedOptions, Result } from 'vega-embed';
import { VegaEmbed } from 'react-vega';
import { memo, useCallback } from 'react';
import type { Figure } from '../../../lib/charts/index.ts';

/** Expressions are interpreted, never evaluated as code: the page's policy forbids eval. */
const options: EmbedOptions = {
  ...{ mode: 'vega-lite', renderer: 'svg', actions: false, tooltip: false, defaultStyle: false },
  ...{ ast: true, expr: expressionInterpreter },
};

interface Props {
  readonly figure: Figure;
  readonly onDrawn: () => void;
  /** A mark of a group was pressed. */
  readonly onPress?: ((group: string) => void) | undefined;
}

/** The one place that draws with Vega; loaded when first needed. */
function VegaFigure({ figure, onDrawn, onPress }: Props) {
  const drawn = useCallback(
    ({ view }: Result) => {
      view.addEventListener('click', (_, item) => {
        const group = (item?.datum as { group?: unknown } | undefined)?.group;
        if (typeof group === 'string') onPress?.(group);
      });
      onDrawn();
    },
    [onDrawn, onPress],
  );
  return <VegaEmbed spec={figure.spec} options={options} onEmbed={drawn} />;
}

export default memo(VegaFigure);
