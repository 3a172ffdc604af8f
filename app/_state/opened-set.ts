import type { Engine } from '../../lib/engine/engine.ts';
import { livesFromRecords, proceduresOf, type LivesSource } from '../../lib/lives/index.ts';
import { readRecords, settingsFingerprint, type RebuildSettings, type RecordSource } from '../../lib/records/index.ts';
import type { ColumnMap } from '../../shared/column-map.ts';
import type { Progress, ReadReport } from '../../shared/record-set.ts';
import type { NewSettings } from './lives-desk.ts';
import type { OpenedRecords } from './opened-records.ts';
import { recordTotals, scopeChoices } from './scope-choices.ts';
import { seldom } from './seldom.ts';

/** Files that were read into the engine, what they came to, and the column maps they could be read by. */
export interface RecordsRead {
  readonly sources: readonly RecordSource[];
  readonly report: ReadReport;
  readonly maps: readonly ColumnMap[];
}

/** A record set as the worker holds it: its files, what they came to, and the lives rebuilt from them. */
export interface OpenedSet extends RecordsRead {
  readonly settings: RebuildSettings;
  readonly lives: LivesSource;
}

export const settingsOf = (report: ReadReport): RebuildSettings => ({
  procedures: proceduresOf(report),
  choices: report.choices,
});

/** Rebuilds the lives of records that the engine holds. */
export async function setFrom(
  engine: Engine,
  { sources, report, maps }: RecordsRead,
  settings: RebuildSettings,
  say: (progress: Progress) => void,
  signal?: AbortSignal,
): Promise<OpenedSet> {
  const doing = 'Rebuilding lives';
  say({ doing, share: null });
  const fingerprint = await settingsFingerprint(report, settingsOf(report), settings);
  const lives = await livesFromRecords(
    engine,
    { ...report, fingerprint },
    settings.procedures,
    settings.choices,
    signal,
    (share) => say({ doing, share }),
  );
  await lives.ensure('seal', signal);
  return { sources, report, maps, settings, lives };
}

/** The same records under other settings. Where that fails, they are rebuilt as they were, and the failure is told. */
export async function rebuiltSet(
  set: OpenedSet,
  changed: NewSettings,
  say: (progress: Progress) => void,
  signal: AbortSignal,
): Promise<OpenedSet> {
  const { settings } = set;
  const { engine } = set.lives;
  const wanted = { ...settings, ...changed };
  const again = JSON.stringify(wanted.choices.duplicates) !== JSON.stringify(settings.choices.duplicates);
  try {
    const read = again ? await readAgain(set, wanted, say, signal) : set;
    return await setFrom(engine, read, wanted, say, signal);
  } catch (error) {
    say({ doing: 'Putting the lives back as they were', share: null });
    const putBack = ({ share }: Progress) => say({ doing: 'Putting the lives back as they were', share });
    await setFrom(engine, again ? await readAgain(set, settings, say) : set, settings, putBack);
    throw error;
  }
}

/** Which rows were said before is settled while they are read: another rule for them reads the files again. */
async function readAgain(
  { sources, maps, lives }: OpenedSet,
  { choices: { duplicates } }: RebuildSettings,
  say: (progress: Progress) => void,
  signal?: AbortSignal,
): Promise<RecordsRead> {
  const how = { maps, duplicates, onProgress: seldom(say), ...(signal ? { signal } : {}) };
  return { sources, maps, report: await readRecords(lives.engine, sources, how) };
}

export async function openedRecords({ report, maps, settings, lives }: OpenedSet): Promise<OpenedRecords> {
  const [totals, choices] = [await recordTotals(lives.engine), await scopeChoices(lives.engine)];
  return { report, ...totals, choices, settings, fingerprint: lives.account.fingerprint, maps };
}
