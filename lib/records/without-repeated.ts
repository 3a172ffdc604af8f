import type { Choices } from '../../shared/choices.ts';
import type { FileAccount } from '../../shared/record-set.ts';
import { recordTables } from '../../shared/record-tables.ts';
import type { Engine } from '../engine/engine.ts';
import { originalRows } from './original-rows.ts';
import type { PlannedFile } from './planned-files.ts';
import type { ReadingJob } from './read-file.ts';
import { eventTables, takeRepeatedRows, type RepeatedRow } from './repeated-rows.ts';
import { SetAsideBatch } from './set-aside-batch.ts';

interface Repeated extends RepeatedRow {
  readonly table: (typeof eventTables)[number];
}

function reasonOf({ reopened, keptDate, keptLine, commented }: Repeated, kept: string): string {
  const same = `says the same as ${kept}, row ${keptLine}`;
  if (reopened === null) return `${same}, under another id`;
  return `an order opened again: ${same}, of ${keptDate}${commented ? ', but for the comment' : ''}`;
}

/** The accounts once rows have been set aside that say what another row said. */
export async function withoutRepeated(
  engine: Engine,
  job: ReadingJob,
  files: readonly PlannedFile[],
  accounts: readonly FileAccount[],
  rules: Choices['duplicates'],
): Promise<FileAccount[]> {
  const repeated: Repeated[] = [];
  for (const table of eventTables)
    for (const row of await takeRepeatedRows(engine, job.staging, table, rules, job.signal))
      repeated.push({ ...row, table });
  if (repeated.length === 0) return [...accounts];
  const original = await originalRows(repeated, files, job);
  const counts = new Map<number, number>();
  let batch = new SetAsideBatch();
  for (const row of repeated) {
    const { fileId, line, id, reopened, table } = row;
    counts.set(fileId, (counts.get(fileId) ?? 0) + 1);
    batch.add({
      ...{
        fileId,
        row: line,
        column: reopened === null ? recordTables[table][0]!.name : 'date',
        value: reopened ?? id,
      },
      ...{
        reason: reasonOf(row, accounts[row.keptFile]?.name ?? ''),
        accepted: 'a row that says what no other row says',
      },
      original: original(row),
    });
    if (!batch.full) continue;
    await job.staging.append('set_aside', batch.taken());
    batch = new SetAsideBatch();
  }
  if (batch.rows > 0) await job.staging.append('set_aside', batch.taken());
  return accounts.map((account, fileId) => {
    const count = counts.get(fileId) ?? 0;
    return { ...account, kept: account.kept - count, setAside: account.setAside + count };
  });
}
