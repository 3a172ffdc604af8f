import type { View } from '../../../shared/view.ts';
import type { LivesSource } from '../../lives/index.ts';
import type { CrudeOf } from './first-ranking.ts';
import { crudeRatios } from './ranking-ratios.ts';
import type { Ratio } from './ratios.ts';

interface Kept {
  /** The view without what a crude ratio does not depend on. */
  readonly key: string;
  readonly ratios: Map<string, readonly Ratio[]>;
}

const kept = new WeakMap<LivesSource, Kept>();

/** Crude ratios of a source under a view, which another adjustment leaves as they are; those of the last view are kept. */
export function keptCrude(source: LivesSource, view: View): CrudeOf {
  const { adjust: _, horizonMiles: __, horizonMonths: ___, deviation: ____, ...asked } = view;
  const key = JSON.stringify(asked);
  const known = kept.get(source);
  const own: Kept = known?.key === key ? known : { key, ratios: new Map() };
  kept.set(source, own);
  return (compared) => {
    // Whether a comparison is refused follows the adjustment, so that it is part of the name.
    const name = `${compared.exposure.column} ${compared.refused.join()}`;
    const ratios = own.ratios.get(name) ?? crudeRatios(compared, view.level);
    own.ratios.set(name, ratios);
    return ratios;
  };
}
