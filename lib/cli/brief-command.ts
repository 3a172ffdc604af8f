import { mkdirSync, readdirSync, writeFileSync } from 'node:fs';
import { basename, dirname, join } from 'node:path';
import { parseArgs } from 'node:util';
import { briefSchema, planOf, type Brief, type BriefPlan } from '../../shared/brief.ts';
import { settingsVersion, type SettingsFile } from '../../shared/settings-file.ts';
import { defaultView } from '../../shared/view.ts';
import { components, type Component } from '../../shared/vocabulary.ts';
import { briefFiles, evidenceFolder, sumsName, sumsText } from '../brief/brief-files.ts';
import { briefWarnings } from '../brief/wording-checks.ts';
import { asOneImage, drawnSvg } from '../charts/draw-svg.ts';
import { briefFigure } from '../brief/brief-figure.ts';
import { saveTableFile } from '../engine/node.ts';
import { allLivesStatement, episodesStatement, type LivesSource } from '../lives/index.ts';
import { briefGrounds } from '../questions/brief-grounds.ts';
import { evidenceFiles } from '../questions/brief-evidence.ts';
import { ask } from '../questions/index.ts';
import { checkBrief } from './brief-check.ts';
import { openedBy, settingsOfFile, sumOf, usualPlan } from './brief-plan.ts';
import { WrongCall, type Streams } from './call.ts';
import { mapOption } from './column-maps.ts';
import { openLives, type OpenedLives } from './open-lives.ts';

/** `hubcause brief`: answers what a brief asks and writes it down with everything it stands on, or checks one. */
export async function briefCommand(parts: string[], streams: Streams): Promise<void> {
  const { values, positionals } = parseArgs({
    args: parts,
    allowPositionals: true,
    options: {
      ...{ out: { type: 'string' }, settings: { type: 'string' }, check: { type: 'string' } },
      ...mapOption,
    },
  });
  if (values.check !== undefined) {
    await checkBrief(values.check, positionals, values.map, streams);
    return;
  }
  const { out } = values;
  if (out === undefined) throw new WrongCall('nowhere to write; --out names a folder; none named');
  const settings = values.settings === undefined ? null : settingsOfFile(values.settings);
  const opened = await openLives(positionals, values.map, streams, openedBy(settings));
  try {
    emptyFolder(out);
    await writeBrief(opened, { settings, name: basename(positionals[0] ?? ''), out }, streams);
  } finally {
    await opened.engine.close();
  }
}

function emptyFolder(out: string): void {
  mkdirSync(out, { recursive: true });
  if (readdirSync(out).length > 0)
    throw new WrongCall(`the folder holds something already; --out names an empty or a new folder; ${out}`);
}

interface Wanted {
  readonly settings: SettingsFile | null;
  readonly name: string;
  readonly out: string;
}

async function writeBrief(opened: OpenedLives, { settings, name, out }: Wanted, streams: Streams): Promise<void> {
  const { source, records } = opened;
  const brief = await answeredPlan(source, settings?.brief ?? usualPlan, streams);
  const grounds = await briefGrounds(source, name);
  const figures: Record<string, string> = {};
  for (const entry of brief.entries) figures[entry.id] = asOneImage(await drawnSvg(briefFigure(entry)));
  const madeFrom = { name, records, fingerprint: source.account.fingerprint };
  const written: SettingsFile = {
    ...(settings ?? { settings: settingsVersion, page: '/brief/', view: defaultView, units: 'us' }),
    ...{ madeFrom, brief: planOf(brief) },
  };
  const names: string[] = [];
  for (const { name: path, content } of briefFiles({ brief, grounds, figures }, written)) {
    mkdirSync(join(out, dirname(path)), { recursive: true });
    writeFileSync(join(out, path), content);
    names.push(path);
  }
  names.push(...(await writeLives(opened, out)), ...(await writeEvidence(opened, brief, out)));
  writeFileSync(join(out, sumsName), sumsText(names.map((path) => ({ name: path, sum: sumOf(join(out, path)) }))));
  for (const { where, found, instead } of briefWarnings(brief, opened.procedures))
    streams.err(`${where}: “${found}”. ${instead}`);
  streams.out(`${brief.entries.length} findings written to ${out} as ${names.length + 1} files.`);
}

async function answeredPlan(source: LivesSource, plan: BriefPlan, streams: Streams): Promise<Brief> {
  const { asks, ...words } = plan;
  const entries = [];
  for (const [at, { question, view, units, note }] of asks.entries()) {
    const finding = await ask(source, question, view, undefined, {
      unitSystem: units,
      onProgress: ({ done, of, doing }) => streams.progress?.(`${question}, ${doing}: ${done} of ${of}`),
    });
    entries.push({ id: `finding-${at + 1}`, finding, units, note });
  }
  streams.progress?.('');
  return briefSchema.parse({ brief: 1, ...words, entries });
}

/** What the findings read beside the lives, so that the check can ask them all again. */
async function writeEvidence({ engine, source }: OpenedLives, { entries }: Brief, out: string): Promise<string[]> {
  const asked = entries.map(({ finding }) => ({ question: finding.question, view: finding.settings }));
  const files = await evidenceFiles(source, asked);
  if (files.length > 0) mkdirSync(join(out, evidenceFolder), { recursive: true });
  const names: string[] = [];
  for (const { name, statement } of files) {
    const path = `${evidenceFolder}/${name}.parquet`;
    await saveTableFile(engine, statement, join(out, path));
    names.push(path);
  }
  return names;
}

/** Lives of every component and the failure episodes, as other systems take them. */
async function writeLives({ engine, source }: OpenedLives, out: string): Promise<string[]> {
  for (const component of Object.keys(components) as Component[]) await source.ensure(component);
  const files = [
    ['lives.parquet', allLivesStatement(false)],
    ['lives.arrow', allLivesStatement(true)],
    ['episodes.parquet', episodesStatement],
    ['episodes.arrow', episodesStatement],
  ] as const;
  for (const [name, statement] of files) await saveTableFile(engine, statement, join(out, name));
  return files.map(([name]) => name);
}
