import type { Component } from '../../shared/vocabulary.ts';
import type { Choices } from '../../shared/choices.ts';
import type { Procedure } from '../../shared/procedure.ts';
import type { ReadReport } from '../../shared/record-set.ts';
import { textColumn, type Engine } from '../engine/engine.ts';
import { sql } from '../engine/statement.ts';
import type { LivesSource } from './lives-source.ts';
import { loadProcedures } from './procedure-tables.ts';
import { buildShared, firstStages, furtherStages } from './rebuild-stages.ts';
import { runAll } from './stages.ts';

export { livesTable, type DataAccount, type LivesSource } from './lives-source.ts';
export { pageColumnsStatement } from './life-pages-columns.ts';
export { conflicts, judgedLives, judgementsChanged } from './judged-lives.ts';
export type { Conflict, JudgedLives, JudgementsChanged } from './judged-lives.ts';
export { livesInParts } from './life-pages-export.ts';
export { allLivesStatement, episodesStatement, exportColumns } from './lives-export.ts';
export { openLife, type OpenedLife } from './open-life.ts';
export type { SourcePart, SourceRow } from './source-rows.ts';
export { unitHistory } from './wheel-end-history.ts';
export { repairCounts } from './mileage-repairs.ts';
export { mileageRepairList, rebuildAccount, type MileageRepair, type RebuildAccount } from './rebuild-account.ts';
export { rebuildCatalogue } from './rebuild-stages.ts';
export { proceduresOf } from './procedures-of.ts';
export { livesFromTable } from './lives-from-table.ts';
export {
  evidenceStatement,
  evidenceTables,
  placesFile,
  placesStatement,
  type EvidenceTable,
} from './evidence-tables.ts';

const named = (procedures: readonly Procedure[]) =>
  procedures.map(({ name, version, validFrom }) => ({ name, version, validFrom }));

/** Of the time until seal lives stand, what goes into what all components share. */
const sharedPart = 0.4;

/**
 * Rebuilds lives from the record tables in the engine by the rules of the record contract
 * (section 5), a component at a time when first asked for.
 * @param procedures judged by install date; at least one
 * @param choices those of the record set, unless others were made since
 * @param told the share of the rebuild up to the seal lives that is done
 */
export async function livesFromRecords(
  engine: Engine,
  report: ReadReport,
  procedures: readonly Procedure[],
  choices: Choices = report.choices,
  signal?: AbortSignal,
  told?: (share: number) => void,
): Promise<LivesSource> {
  await loadProcedures(engine, procedures);
  const undecided = await buildShared(engine, report, choices, signal, (share) => told?.(share * sharedPart));
  const built = new Set<Component>();
  const ensure = async (component: Component, ensureSignal?: AbortSignal) => {
    if (!built.has('seal')) {
      await runAll(engine, firstStages, ensureSignal, (share) => told?.(sharedPart + share * (1 - sharedPart)));
      built.add('seal');
    }
    if (built.has(component)) return;
    await runAll(engine, furtherStages(component), ensureSignal);
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
    messages: undecided,
    estimatedLives: choices.estimatedLives,
    changes: choices.changes,
    fromRecords: true,
    ensure,
  };
}
