import { linkRecords, viewToSearch } from '../../lib/view/index.ts';
import { settingsIn, settingsVersion, type SettingsFile } from '../../shared/settings-file.ts';
import type { UnitSystem } from '../../shared/units.ts';
import type { View } from '../../shared/view.ts';
import { briefOfPlan, broughtBriefs } from './brief/brought-briefs.ts';
import { columnMaps } from './keeping/column-map-store.ts';
import { madeFrom } from './made-from.ts';
import { messageOf, recordSets, type OpenRecordSet } from './record-sets.ts';

/** What is looked at as a settings file: page, view, and all that the records are read and judged by. */
export function settingsOfView(open: OpenRecordSet, page: string, view: View, units: UnitSystem): SettingsFile {
  const { report, settings, maps, fingerprint } = open;
  const used = new Set(report.files.map(({ columnMap }) => columnMap));
  return {
    ...{ settings: settingsVersion, page: page.endsWith('/') ? page : `${page}/`, view, units },
    madeFrom: { name: report.name, records: report.fingerprint, fingerprint },
    procedures: [...settings.procedures],
    choices: settings.choices,
    columnMaps: Object.fromEntries(maps.filter(({ source }) => used.has(source)).map((map) => [map.source, map])),
  };
}

const same = (a: unknown, b: unknown): boolean => JSON.stringify(a) === JSON.stringify(b);

/** Where a settings file leads, once what it says holds here; or why it was not taken, in a sentence. */
export type TakenSettings =
  { readonly page: string; readonly search: string; readonly brief: string | null } | { readonly refused: string };

/** Takes a settings file: its column maps are kept for files to come, the open records are rebuilt by the rest. */
export async function takeSettings(file: File): Promise<TakenSettings> {
  let taken: SettingsFile;
  try {
    taken = settingsIn(await file.text());
  } catch (error) {
    return { refused: `${file.name} was not taken: it ${messageOf(error)}.` };
  }
  const { page, view, units, procedures, choices, madeFrom: from } = taken;
  const maps = Object.values(taken.columnMaps ?? {});
  if (maps.length > 0) await columnMaps.keep(maps);
  const { open } = recordSets.now();
  const changed = {
    ...(procedures === undefined || same(procedures, open?.settings.procedures) ? {} : { procedures }),
    ...(choices === undefined || same(choices, open?.settings.choices) ? {} : { choices }),
  };
  try {
    if (open !== null && Object.keys(changed).length > 0) await recordSets.rebuild(changed);
  } catch (error) {
    return { refused: `${file.name} was not taken: the lives could not be rebuilt by it (${messageOf(error)}).` };
  }
  const prints = linkRecords({ records: from.records, settled: from.fingerprint });
  madeFrom.set({ of: 'settings file', name: from.name, ...prints });
  return { page, search: viewToSearch(view, units), brief: takeBrief(file.name, taken) };
}

/** The brief that a settings file plans, asked of what is open; what becomes of it stands on the brief’s own page. */
function takeBrief(name: string, { brief }: SettingsFile): string | null {
  if (brief === undefined) return null;
  const { open } = recordSets.now();
  if (open === null) return 'Its brief waits for records: open them and bring the file in again.';
  void broughtBriefs.bringIn(name, briefOfPlan(brief, open));
  return broughtBriefs.now().waiting === null
    ? 'Its brief is being asked: see the page “Brief”.'
    : 'Its brief waits on the page “Brief”: another is begun here.';
}
