'use client';

import { useEffect, useState } from 'react';
import type { Figure } from '../../../lib/charts/index.ts';
import { drawSvg } from './draw.ts';

interface Drawn {
  readonly figure: Figure;
  readonly svg: string | null;
  readonly trouble: string | null;
}

/** The latest picture that came, and whether it is of the figure now wanted; until then the last one stays. */
export function useDrawing(figure: Figure | null): { svg: string | null; current: boolean; trouble: string | null } {
  const [drawn, setDrawn] = useState<Drawn | null>(null);
  useEffect(() => {
    if (figure === null) return;
    let wanted = true;
    drawSvg(figure.spec).then(
      (svg) => wanted && setDrawn({ figure, svg, trouble: null }),
      (error: unknown) =>
        wanted && setDrawn({ figure, svg: null, trouble: error instanceof Error ? error.message : String(error) }),
    );
    return () => {
      wanted = false;
    };
  }, [figure]);
  return {
    svg: drawn?.svg ?? null,
    current: drawn !== null && drawn.figure === figure,
    trouble: drawn?.trouble ?? null,
  };
}
