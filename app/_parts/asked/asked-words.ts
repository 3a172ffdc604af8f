import { columnSays } from '../../../lib/charts/index.ts';
import { modeWords } from '../../../shared/mode-words.ts';
import { components } from '../../../shared/vocabulary.ts';
import type { View } from '../../../shared/view.ts';

/** What is counted as the end of a life: a view's component and outcome together. */
interface AskedOutcome extends Pick<View, 'component' | 'outcome'> {
  readonly says: string;
}

export const ownFailure: Readonly<Record<keyof typeof components, string>> = {
  seal: 'seals that leaked',
  gasket: 'gaskets that leaked',
  bearing: 'bearings that failed',
};

/** The outcomes on offer; those found at the wheel end are looked for in the lives of seals. */
export const askedOutcomes: readonly AskedOutcome[] = [
  ...(Object.keys(components) as (keyof typeof components)[]).map((component): AskedOutcome => ({
    ...{ component, outcome: 'component' },
    says: ownFailure[component],
  })),
  { component: 'seal', outcome: 'any', says: 'wheel ends that failed, in whatever way' },
  { component: 'seal', outcome: 'lining', says: 'linings that were soaked' },
];

export const isAsked = (view: Pick<View, 'component' | 'outcome'>, { component, outcome }: AskedOutcome): boolean =>
  view.outcome === outcome && (outcome !== 'component' || view.component === component);

export const outcomeSays = (view: Pick<View, 'component' | 'outcome'>): string =>
  askedOutcomes.find((one) => isAsked(view, one))?.says ?? ownFailure[view.component];

/** `seals that leaked`, or the one way of failing: `leaks at the hub bore`. */
export const partSays = ({ component, mode }: Pick<View, 'component' | 'mode'>): string =>
  mode === null ? ownFailure[component] : modeWords[mode];

/** Taken into account where the view names nothing; as the questions have it. */
export const usualColumns: readonly string[] = ['role', 'lubricant', 'hub_build', 'duty', 'install_year'];
export const offeredColumns: readonly string[] = [
  ...usualColumns,
  ...['position', 'axle', 'side', 'seal_lot', 'hub_material', 'site', 'life_number', 'prior_failures'],
];

export function accountSays({ adjust }: Pick<View, 'adjust'>): string {
  if (adjust.length === 0) return 'what usually is';
  return adjust.length > 3 ? `${adjust.length} attributes` : adjust.map(columnSays).join(', ');
}

/** The columns with one more or one less; the usual ones all by themselves are said by naming none. */
export function toggledAccount({ adjust }: Pick<View, 'adjust'>, column: string): string[] {
  const now: readonly string[] = adjust.length === 0 ? usualColumns : adjust;
  const next = now.includes(column) ? now.filter((other) => other !== column) : [...now, column];
  const isUsual = next.length === usualColumns.length && usualColumns.every((usual) => next.includes(usual));
  return isUsual ? [] : next;
}
