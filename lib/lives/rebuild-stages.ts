import type { Choices } from '../../shared/choices.ts';
import { defaultChoices } from '../../shared/choices.ts';
import type { ReadReport } from '../../shared/record-set.ts';
import { components, type Component } from '../../shared/vocabulary.ts';
import type { Engine } from '../engine/engine.ts';
import type { Statement } from '../engine/statement.ts';
import { renewalDeviations, shopHabits } from './deviation-sql.ts';
import { episodes, failureFates } from './failure-fates.ts';
import { fleetViews, makeFleetTables } from './fleet-tables.ts';
import { judgeMileage, judgingStatements } from './judged-mileage.ts';
import { lifeEndStages } from './life-ends.ts';
import { lifeRowStages } from './life-rows.ts';
import { likeUnitStages } from './like-units.ts';
import { mileageRepairs } from './mileage-repairs.ts';
import { judgedMiles, milesByDay, writtenMiles } from './mileage.ts';
import { placedStages } from './placed-records.ts';
import { judgedServices, renewalStages } from './renewals.ts';
import { wheelEndStages } from './wheel-ends.ts';
import { runAll, statementsOf, type Stage } from './stages.ts';
import { makeWindows, observationWindow, windowStages } from './windows.ts';

/** From judged readings to rows placed on wheel ends. */
const placing = (choices: Choices): readonly Stage[] => [
  ...judgedMiles,
  ...likeUnitStages(choices.mileage['like-units']),
  ...milesByDay,
  ...wheelEndStages(choices),
  ...placedStages(choices),
  ...judgedServices,
  shopHabits,
  ...mileageRepairs,
];

/** Everything about one component's lives, in order; `lives_…` comes last but for the fates. */
const componentStages = (component: Component): readonly Stage[] => [
  ...renewalStages(component),
  ...lifeEndStages(component),
  renewalDeviations(component),
  ...lifeRowStages(component),
  failureFates(component),
];

/** Renewals and failed slots alone, for the episodes of a component whose lives nobody asked for yet. */
const episodeStages = (component: Component): readonly Statement[] => [
  ...renewalStages(component),
  ...lifeEndStages(component),
];

/** Every statement of a rebuild, for the test that has the engine explain each. */
export const rebuildCatalogue: readonly Statement[] = [
  ...fleetViews,
  observationWindow(null, null),
  ...windowStages,
  ...writtenMiles,
  ...judgingStatements,
  ...placing(defaultChoices).flatMap(statementsOf),
  ...(Object.keys(components) as Component[]).flatMap(componentStages).flatMap(statementsOf),
  episodes,
];

/** What every component's lives are built on. @returns what could not be decided, in sentences */
export async function buildShared(
  engine: Engine,
  report: ReadReport,
  choices: Choices,
  signal?: AbortSignal,
  told?: (share: number) => void,
): Promise<readonly string[]> {
  const undecided = await makeFleetTables(engine, choices.formerIds, signal);
  await makeWindows(engine, report, choices, signal);
  await runAll(engine, writtenMiles, signal);
  await judgeMileage(engine, choices.mileage, signal);
  await runAll(engine, placing(choices), signal, told);
  return undecided;
}

/** The seal lives and the episodes, for which the other components' failures are needed. */
export const firstStages: readonly Stage[] = [
  ...episodeStages('gasket'),
  ...episodeStages('bearing'),
  ...componentStages('seal'),
  episodes,
];
export const furtherStages = componentStages;
