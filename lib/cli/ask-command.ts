import { parseArgs } from 'node:util';
import { questionIds, type QuestionId } from '../../shared/finding.ts';
import type { UnitSystem } from '../../shared/units.ts';
import { ask } from '../questions/index.ts';
import { WrongCall, type Streams } from './call.ts';
import { changeRecordOf } from './change-record-file.ts';
import { mapOption } from './column-maps.ts';
import { findingTableText, findingText } from './finding-text.ts';
import { openLives } from './open-lives.ts';
import { viewOfCall } from './view-of-call.ts';

const options = {
  by: { type: 'string', multiple: true },
  where: { type: 'string', multiple: true },
  adjust: { type: 'string', multiple: true },
  component: { type: 'string' },
  mode: { type: 'string' },
  axis: { type: 'string' },
  horizon: { type: 'string' },
  outcome: { type: 'string' },
  early: { type: 'string' },
  deviation: { type: 'string' },
  attribution: { type: 'string' },
  'planned-cost': { type: 'string' },
  'failure-cost': { type: 'string' },
  'downtime-cost': { type: 'string' },
  'lining-cost': { type: 'string' },
  'road-call-cost': { type: 'string' },
  'ahead-miles': { type: 'string' },
  'ahead-months': { type: 'string' },
  level: { type: 'string' },
  'installed-from': { type: 'string' },
  'installed-to': { type: 'string' },
  change: { type: 'string' },
  'changed-shop': { type: 'string', multiple: true },
  'change-record': { type: 'string' },
  saving: { type: 'string', multiple: true },
  'saving-to': { type: 'string' },
  'saving-level': { type: 'string', multiple: true },
  units: { type: 'string', default: 'us' },
  json: { type: 'boolean', default: false },
  table: { type: 'boolean', default: false },
  ...mapOption,
} as const;

/** Questions about whole wheel ends; the others are about the lives of one component. */
const ofWheelEnds: ReadonlySet<QuestionId> = new Set(['mean-miles', 'contamination']);

function toQuestion(name: string | undefined): QuestionId {
  const found = questionIds.find((id) => id === name);
  if (!found)
    throw new WrongCall(`no such question; a question is one of ${questionIds.join(', ')}; ${name ?? 'none named'}`);
  return found;
}

function toUnits(name: string): UnitSystem {
  if (name !== 'us' && name !== 'metric') throw new WrongCall(`no such units; --units is us or metric; ${name}`);
  return name;
}

/** `hubcause ask`: one question answered, as words, a table, or one finding in JSON. */
export async function askCommand(parts: string[], streams: Streams): Promise<void> {
  const { values, positionals } = parseArgs({ args: parts, allowPositionals: true, options });
  const [name, ...paths] = positionals;
  const question = toQuestion(name);
  const units = toUnits(values.units);
  if (values.json && values.table) throw new WrongCall('two forms asked for; one of --json and --table; both');
  const record = await changeRecordOf(values['change-record'], streams);
  const view = viewOfCall({
    ...values,
    ...(record ? { change: record.date, 'changed-shop': record.shops } : {}),
  });
  if (values.component !== undefined && ofWheelEnds.has(question))
    streams.err(`${question} counts the failures of every component: --component is not used; --mode narrows it`);
  const { engine, source } = await openLives(paths, values.map, streams);
  try {
    const finding = await ask(source, question, view, undefined, {
      unitSystem: units,
      changes: record ? [record] : [],
      onProgress: ({ done, of, doing }) => streams.progress?.(`${doing}: ${done} of ${of}`),
    });
    streams.progress?.('');
    streams.out(
      values.json
        ? JSON.stringify(finding, null, 2)
        : values.table
          ? findingTableText(finding, units)
          : findingText(finding, units),
    );
  } finally {
    await engine.close();
  }
}
