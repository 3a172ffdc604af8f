import { createHash } from 'node:crypto';
import { readFileSync } from 'node:fs';
import type { BriefPlan } from '../../shared/brief.ts';
import type { QuestionId } from '../../shared/finding.ts';
import { settingsIn, type SettingsFile } from '../../shared/settings-file.ts';
import { defaultView } from '../../shared/view.ts';
import { WrongCall } from './call.ts';
import type { OpenBy } from './open-lives.ts';

/** What a brief asks that nobody planned, in the order of the work. */
const usual: readonly QuestionId[] = ['seal-life', 'mean-miles', 'contamination', 'causes', 'shops'];

export const usualPlan: BriefPlan = {
  ...{ title: '', revision: 'A', words: {}, photos: [], approvals: [] },
  asks: usual.map((question) => ({ question, view: defaultView, units: 'us', note: '' })),
};

export function settingsOfFile(path: string): SettingsFile {
  let text: string;
  try {
    text = readFileSync(path, 'utf8');
  } catch {
    throw new WrongCall(`no such file; --settings takes a settings file in JSON; ${path}`);
  }
  try {
    return settingsIn(text);
  } catch (error) {
    throw new WrongCall(`${path} ${error instanceof Error ? error.message : String(error)}`);
  }
}

/** What records are opened by that a settings file speaks for. */
export const openedBy = (settings: SettingsFile | null): OpenBy => ({
  maps: Object.values(settings?.columnMaps ?? {}),
  settings: {
    ...(settings?.procedures === undefined ? {} : { procedures: settings.procedures }),
    ...(settings?.choices === undefined ? {} : { choices: settings.choices }),
  },
});

export const sumOf = (path: string): string => createHash('sha256').update(readFileSync(path)).digest('hex');
