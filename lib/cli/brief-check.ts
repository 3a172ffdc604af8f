import { existsSync, readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { briefGroundsSchema } from '../../shared/brief-grounds.ts';
import type { BriefEntry } from '../../shared/brief.ts';
import { settingsIn, type SettingsFile } from '../../shared/settings-file.ts';
import { briefIn } from '../brief/brief-file.ts';
import { evidenceFolder, sumsIn, sumsName } from '../brief/brief-files.ts';
import { checkedNumbers, checkTolerance, type CheckedNumber } from '../brief/check-numbers.ts';
import { placesFile, type LivesSource } from '../lives/index.ts';
import { evidenceFor } from '../questions/brief-evidence.ts';
import { ask } from '../questions/index.ts';
import { openedBy, sumOf } from './brief-plan.ts';
import { NotAllHold, NothingUsable, WrongCall, type Streams } from './call.ts';
import { openLives, type OpenedLives } from './open-lives.ts';

/**
 * Asks again what a brief says, of the records or of the lives written beside it, and says of every
 * number whether it still holds. @throws NotAllHold where one does not
 */
export async function checkBrief(
  folder: string,
  records: readonly string[],
  maps: readonly string[] | undefined,
  streams: Streams,
): Promise<void> {
  const brief = briefIn(textOf(folder, 'brief.json'));
  const settings = settingsIn(textOf(folder, 'settings.json'));
  const changed = changedFiles(folder, streams);
  const fromRecords = records.length > 0;
  const { engine, source } = fromRecords
    ? await openLives(records, maps, streams, openedBy(settings))
    : await ownLives(folder, settings, streams);
  const lacks = ({ finding: { question, settings: view } }: BriefEntry) =>
    fromRecords
      ? []
      : evidenceFor({ question, view })
          .filter(({ file }) => !evidenceIn(folder).has(file))
          .map(({ file }) => file);
  try {
    const others = otherRecords(brief.entries, source, streams);
    let [wrong, all, unread] = [0, 0, 0];
    for (const [at, entry] of brief.entries.entries()) {
      const where = `6.${at + 1} ${entry.finding.question}`;
      const lacking = lacks(entry);
      const lines = await checkedEntry({ ...source, fromRecords: source.fromRecords && lacking.length === 0 }, entry);
      const off = lines.filter(({ holds }) => !holds).length;
      all += lines.length;
      if (lacking.length === 0) wrong += off;
      else unread += off;
      for (const line of lines) streams.out(lineText(where, line, lacking.length > 0));
      if (lacking.length > 0 && off > 0)
        streams.out(
          `${where}: ${off} of ${lines.length} cannot be recomputed; it reads ${lacking.join(', ')} beside the lives, and no such file stands in ${evidenceFolder}/; name the records`,
        );
    }
    const untold = unread === 0 ? '' : ` ${unread} could not be recomputed.`;
    streams.out(
      `${all - wrong - unread} of ${all} hold, within ${checkTolerance} of themselves; ${wrong} do not.${untold} Files changed since: ${changed}. Findings made from other records: ${others}.`,
    );
    if (wrong + unread + changed + others > 0)
      throw new NotAllHold('not all that this brief says holds; what does not is said above');
  } finally {
    await engine.close();
  }
}

function textOf(folder: string, name: string): string {
  try {
    return readFileSync(join(folder, name), 'utf8');
  } catch {
    throw new WrongCall(`no brief there; a brief's folder holds ${name}; ${folder}`);
  }
}

/** How many files are not as they were written. */
function changedFiles(folder: string, { err }: Streams): number {
  const sums = sumsIn(textOf(folder, sumsName));
  const changed = sums.filter(({ name, sum }) => !existsSync(join(folder, name)) || sumOf(join(folder, name)) !== sum);
  for (const { name } of changed) err(`${name} is missing or not as it was written: its SHA-256 is another`);
  return changed.length;
}

function otherRecords(entries: readonly BriefEntry[], { account }: LivesSource, { err }: Streams): number {
  const others = entries.filter(({ finding }) => finding.data.fingerprint !== account.fingerprint);
  for (const { finding } of others)
    err(
      `${finding.question} was made from other records or settings: fingerprint ${finding.data.fingerprint}; these are ${account.fingerprint}`,
    );
  return others.length;
}

/** What was written beside the lives, by the names of its files; none where it cannot be tied to them. */
function evidenceIn(folder: string): ReadonlySet<string> {
  const within = join(folder, evidenceFolder);
  const names = existsSync(within) ? readdirSync(within) : [];
  const files = new Set(names.filter((name) => name.endsWith('.parquet')).map((name) => name.slice(0, -8)));
  return files.has(placesFile) ? files : new Set();
}

/** The lives written beside the brief, which stand for the records they were rebuilt from. */
async function ownLives(folder: string, settings: SettingsFile, streams: Streams): Promise<OpenedLives> {
  const beside = (name: string) =>
    [`${name}.parquet`, `${name}.arrow`].map((file) => join(folder, file)).find(existsSync);
  const lives = beside('lives');
  if (lives === undefined)
    throw new NothingUsable(`no lives beside the brief; name the records to check it against; ${folder}`);
  const evidence = [...evidenceIn(folder)];
  const { engine, source, ...opened } = await openLives([lives], undefined, streams, {
    episodes: beside('episodes'),
    evidence: Object.fromEntries(evidence.map((name) => [name, join(folder, evidenceFolder, `${name}.parquet`)])),
  });
  const grounds = briefGroundsSchema.parse(JSON.parse(textOf(folder, 'records.json')));
  const { observedFrom, observedTo, invented, fingerprint } = grounds;
  const estimatedLives = settings.choices?.estimatedLives ?? 'in';
  return {
    ...opened,
    engine,
    source: {
      ...source,
      estimatedLives,
      account: { ...source.account, observedFrom, observedTo, invented, fingerprint },
    },
  };
}

async function checkedEntry(source: LivesSource, { finding, units }: BriefEntry): Promise<CheckedNumber[]> {
  const now = await ask(source, finding.question, finding.settings, undefined, { unitSystem: units });
  return checkedNumbers(finding, now);
}

const shown = (value: number | string | null): string => (value === null ? 'none' : String(value));

function lineText(where: string, { group, name, said, now, holds }: CheckedNumber, lacking: boolean): string {
  const place = [where, ...(group === '' ? [] : [group]), name].join(' · ');
  if (!holds && lacking) return `UNTOLD   ${place}: says ${shown(said)}`;
  return holds ? `holds    ${place}: ${shown(said)}` : `DIFFERS  ${place}: says ${shown(said)}; now ${shown(now)}`;
}
