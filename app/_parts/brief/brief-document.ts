import { briefFigure } from '../../../lib/brief/brief-figure.ts';
import { briefFiles, sumsName, sumsText, type BriefFile } from '../../../lib/brief/brief-files.ts';
import type { BriefDocument } from '../../../lib/brief/brief-html.ts';
import { zipOfFiles } from '../../../lib/brief/zip-of-files.ts';
import { planOf, type Brief } from '../../../shared/brief.ts';
import type { UnitSystem } from '../../../shared/units.ts';
import type { View } from '../../../shared/view.ts';
import { nextJob } from '../../_state/next-job.ts';
import type { OpenRecordSet } from '../../_state/record-sets.ts';
import { settingsOfView } from '../../_state/settings-of-view.ts';
import { drawSvg } from '../figure/draw.ts';

/** The brief with its figures drawn and what its records say of themselves. */
export async function briefDocument(brief: Brief, open: OpenRecordSet | null): Promise<BriefDocument> {
  const grounds = open === null ? null : await open.desk.briefGrounds(nextJob());
  const figures: Record<string, string> = {};
  for (const entry of brief.entries) figures[entry.id] = await drawSvg(briefFigure(entry));
  return { brief, grounds, figures };
}

async function sumOf({ content }: BriefFile): Promise<string> {
  const { sha256 } = await import('hash-wasm');
  return sha256(content);
}

/** The brief with its numbers, lives, settings and methods, and the sum of every file, as one archive. */
export async function briefArchive(
  brief: Brief,
  open: OpenRecordSet | null,
  { view, units }: { readonly view: View; readonly units: UnitSystem },
): Promise<Blob> {
  if (open === null) throw new Error('no records are open, whose lives would stand beside it');
  const settings = { ...settingsOfView(open, '/brief/', view, units), brief: planOf(brief) };
  const asked = brief.entries.map(({ finding }) => ({ question: finding.question, view: finding.settings }));
  const lives = await open.desk.briefLives(nextJob(), asked);
  const files = [...briefFiles(await briefDocument(brief, open), settings), ...lives];
  const sums = [];
  for (const file of files) sums.push({ name: file.name, sum: await sumOf(file) });
  return zipOfFiles([...files, { name: sumsName, content: sumsText(sums) }]);
}
