import type { RecordQuality } from '../../../shared/record-quality.ts';
import type { Statement } from '../../engine/statement.ts';
import type { LivesSource } from '../../lives/index.ts';
import { brokenLinks, linksStatement } from './broken-links.ts';
import { fieldsFilled, fieldsStatement, judgedTables, shopsIn } from './fields-filled.ts';
import { inspectionIntensity, intensityStatement } from './inspection-intensity.ts';
import { narrowing, narrowingStatement } from './narrowing.ts';
import { reasonsStatement, tableUse, tableUseStatement } from './table-use.ts';
import { coverageStatement, silentShops, silentStatement, tableCoverage } from './time-coverage.ts';
import { weaknessEffects } from './weakness-effects.ts';

/** Every statement, by what it is for; the tests have both engines explain and run each. */
export const recordQualityCatalogue: Readonly<Record<string, Statement>> = {
  'rows by table': tableUseStatement,
  'reasons for setting aside': reasonsStatement,
  ...Object.fromEntries(judgedTables.map((table) => [`cells filled in ${table}`, fieldsStatement(table)])),
  'rows by month': coverageStatement,
  'silent shops': silentStatement,
  'rows that met nothing': linksStatement,
  'checks by shop and lubricant': intensityStatement,
  'failures by what is known of them': narrowingStatement,
};

/**
 * Whether records can be trusted: what was used, how full it is, what times it covers, what in it does
 * not meet, how hard anybody looked, and which blank field costs most.
 * @throws where the source is a lives table: there are no records behind it to judge
 */
export async function recordQuality(source: LivesSource, signal?: AbortSignal): Promise<RecordQuality> {
  if (!source.fromRecords) throw new Error('a lives table has no records behind it to judge');
  await source.ensure('seal', signal);
  const asked = async (statement: Statement) => source.engine.query(statement, signal);
  const filled = [];
  for (const table of judgedTables) filled.push({ table, result: await asked(fieldsStatement(table)) });
  const shops = shopsIn(filled.map(({ result }) => result));
  const { observedFrom, observedTo } = source.account;
  const known = {
    ...{ observedFrom, observedTo, shops },
    tables: tableUse(await asked(tableUseStatement), await asked(reasonsStatement)),
    fields: filled.flatMap(({ table, result }) => fieldsFilled(table, result, shops)),
    coverage: tableCoverage(await asked(coverageStatement)),
    silent: silentShops(await asked(silentStatement)),
    links: brokenLinks(await asked(linksStatement)),
    intensity: inspectionIntensity(await asked(intensityStatement)),
    narrowing: narrowing(await asked(narrowingStatement)),
  };
  return { ...known, effects: weaknessEffects(known) };
}
