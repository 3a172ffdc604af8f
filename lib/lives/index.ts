import { z } from 'zod';
import { components, type Component } from '../../shared/vocabulary.ts';
import type { Choices } from '../../shared/choices.ts';
import type { Procedure } from '../../shared/procedure.ts';
import type { ReadReport } from '../../shared/record-set.ts';
import { textColumn, type Engine } from '../engine/engine.ts';
import { sql, type Statement } from '../engine/statement.ts';
import { renewalDeviations, shopHabits } from './deviation-sql.ts';
import { episodes, failureFates } from './failure-fates.ts';
import { lifeEndStages } from './life-ends.ts';
import { lifeRowStages } from './life-rows.ts';
import type { LivesSource } from './lives-source.ts';
import { mileageStages } from './mileage.ts';
import { placedStages } from './placed-records.ts';
import { loadProcedures } from './procedure-tables.ts';
import { judgedServices, renewalStages } from './renewals.ts';
import { wheelEndStages } from './wheel-ends.ts';

export { livesTable, type DataAccount, type LivesSource } from './lives-source.ts';
export { pageColumnsStatement } from './life-pages-columns.ts';
export type { LifeFacts } from './life-facts.ts';
export { conflicts, judgedLives, judgementsChanged } from './judged-lives.ts';
export type { Conflict, JudgedLives, JudgementsChanged } from './judged-lives.ts';
export { livesInParts } from './life-pages-export.ts';
export { openLife, type OpenedLife } from './open-life.ts';
export type { SourcePart, SourceRow } from './source-rows.ts';
export { unitHistory } from './wheel-end-history.ts';
export { proceduresOf } from './procedures-of.ts';
export { livesFromTable } from './lives-from-table.ts';

const day = z.iso.date().nullable();

/** The observation window: as declared, else from the first to the last date of the event tables. */
const observationWindow = (from: string | null, to: string | null): Statement => sql`
create or replace table observation as
with events as (
  select date from services union all select date from inspections union all select date from failures
)
select coalesce(cast(${from} as date), min(date)) as observed_from, coalesce(cast(${to} as date), max(date)) as observed_to from events`;

const sharedStages: readonly Statement[] = [
  ...mileageStages,
  ...wheelEndStages,
  ...placedStages,
  judgedServices,
  shopHabits,
];

/** Everything about one component's lives, in order; `lives_…` comes last but for the fates. */
const componentStages = (component: Component): readonly Statement[] => [
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
  observationWindow(null, null),
  ...sharedStages,
  ...(Object.keys(components) as Component[]).flatMap(componentStages),
  episodes,
];

async function runAll(engine: Engine, stages: readonly Statement[], signal?: AbortSignal): Promise<void> {
  for (const stage of stages) {
    signal?.throwIfAborted();
    await engine.run(stage, signal);
  }
}

const named = (procedures: readonly Procedure[]) =>
  procedures.map(({ name, version, validFrom }) => ({ name, version, validFrom }));

/**
 * Rebuilds lives from the record tables in the engine by the rules of the record contract
 * (section 5), a component at a time when first asked for.
 * @param procedures judged by install date; at least one
 * @param choices those of the record set, unless others were made since
 */
export async function livesFromRecords(
  engine: Engine,
  report: ReadReport,
  procedures: readonly Procedure[],
  choices: Choices = report.choices,
  signal?: AbortSignal,
): Promise<LivesSource> {
  await engine.run(observationWindow(day.parse(report.observedFrom), day.parse(report.observedTo)), signal);
  await loadProcedures(engine, procedures);
  await runAll(engine, sharedStages, signal);
  const built = new Set<Component>();
  const ensure = async (component: Component, ensureSignal?: AbortSignal) => {
    if (!built.has('seal')) {
      await runAll(
        engine,
        [...episodeStages('gasket'), ...episodeStages('bearing'), ...componentStages('seal'), episodes],
        ensureSignal,
      );
      built.add('seal');
    }
    if (built.has(component)) return;
    await runAll(engine, componentStages(component), ensureSignal);
    built.add(component);
  };
  const window = await engine.query(
    sql`select cast(observed_from as varchar) as observed_from, cast(observed_to as varchar) as observed_to from observation`,
    signal,
  );
  const { fingerprint, invented } = report;
  const files = report.files.map(({ name, table, read, kept, setAside }) => ({
    name,
    table: table ?? 'none',
    read,
    kept,
    setAside,
  }));
  const setAside = files.reduce((sum, file) => sum + file.setAside, 0);
  const observedFrom = textColumn(window, 'observed_from')[0] ?? null;
  const observedTo = textColumn(window, 'observed_to')[0] ?? null;
  return {
    engine,
    account: { fingerprint, files, setAside, observedFrom, observedTo, invented, procedures: named(procedures) },
    fromRecords: true,
    ensure,
  };
}
