import type { Finding } from '../../shared/finding.ts';
import { horizonOf } from '../../shared/view.ts';
import type { DrawFigure } from './figure.ts';
import { outcomeRows, rowEstimate, type RowKind } from './outcome-rows.ts';
import { drawRows } from './row-figure.ts';
import type { Panel } from './row-figure-data.ts';
import { ageSays } from './shown-number.ts';

const seen: readonly RowKind[] = [
  { estimate: 'foundByHorizon', says: 'found leaking' },
  { estimate: 'begunByHorizon', says: 'begun to leak' },
  { estimate: 'begunByHorizonLastCheckMissed', says: 'begun, last dry check not believed' },
];
const befallen: readonly RowKind[] = [
  { estimate: 'leakNotSoakedByHorizon', says: 'leaked, lining not soaked' },
  { estimate: 'soakedLiningByHorizon', says: 'lining soaked' },
  { estimate: 'bearingFailureByHorizon', says: 'bearing failed' },
];
const looked: readonly RowKind[] = [
  { estimate: 'foundByHorizon', says: 'found, as recorded' },
  { estimate: 'foundByHorizonLagAlone', says: 'from the looking alone' },
];

const share = ({ settings }: Finding, what: string): Panel => ({
  ...{ estimate: rowEstimate, ceiling: 100, longNames: true, bare: true },
  title: (system) => `% of lives ${what}${ageSays(horizonOf(settings), settings.axis, system)}`,
  shortTitle: () => '% of lives',
});

/** Found and begun by the horizon, of each group one under the other on one axis. */
export const drawSeenBothWays: DrawFigure = (finding, options) =>
  drawRows(outcomeRows(finding, seen, 'group'), [share(finding, 'by ')], options);

/** Leaks, soaked linings and failed bearings, each of all groups, on one axis. */
export const drawBefallen: DrawFigure = (finding, options) =>
  drawRows(outcomeRows(finding, befallen, 'kind'), [share(finding, 'to which it came first, by ')], options);

/** What is found, against what the looking alone would make of leaks that begin alike. */
export const drawLookedAlone: DrawFigure = (finding, options) =>
  drawRows(outcomeRows(finding, looked, 'group'), [share(finding, 'found by ')], options);

/** How often each is looked at, and how often a look sees a leak that is there. */
export const drawLooking: DrawFigure = (finding, options) =>
  drawRows(
    finding,
    [
      {
        estimate: 'checksMade',
        title: (system) =>
          finding.settings.axis === 'months'
            ? 'checks per 100 wheel-end years'
            : `checks per million wheel-end ${system === 'us' ? 'mi' : 'km'}`,
        shortTitle: () => 'checks',
      },
      {
        estimate: 'chanceACheckSees',
        title: () => '% of checks that see a leak that is there',
        shortTitle: () => '% that see it',
        ceiling: 100,
      },
    ],
    options,
  );
