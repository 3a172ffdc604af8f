import type { ShownAs } from './number-format.ts';
import { shownAs } from './number-format.ts';
import type { Chunks } from './record-source.ts';
import { readSharedTexts } from './shared-texts.ts';
import { readXml, type Attributes } from './xml-events.ts';
import type { ZipMember } from './zip-archive.ts';

export interface WorkbookSheet {
  readonly name: string;
  readonly hidden: boolean;
  stream(): Chunks;
}

/** What all sheets of a workbook share, by ECMA-376 part 1, 18.2 to 18.8. */
export interface Workbook {
  /** Sheets of cells in the workbook's order; sheets that are one chart are left out. */
  readonly sheets: readonly WorkbookSheet[];
  readonly from1904: boolean;
  /** How numbers are shown, by the style of their cell. */
  readonly styles: readonly ShownAs[];
  /** The texts that cells point to, once they are wanted. */
  texts(): Promise<readonly string[]>;
}

type Parts = ReadonlyMap<string, ZipMember>;

interface Relation {
  readonly type: string;
  readonly target: string;
}

/** @throws where a part that cannot be done without is missing or damaged */
export async function openWorkbook(members: readonly ZipMember[]): Promise<Workbook> {
  const parts: Parts = new Map(members.map((member) => [member.name.replaceAll('\\', '/').toLowerCase(), member]));
  const root = await relationsOf(parts, '');
  const path = ofType(root, 'officeDocument')?.target ?? 'xl/workbook.xml';
  const relations = await relationsOf(parts, path);
  const { sheets, from1904 } = await readSheetList(streamOf(parts, path), parts, relations);
  const at = (type: string) => ofType(relations, type)?.target;
  const styles = await readStyles(parts, at('styles'));
  let texts: Promise<readonly string[]> | null = null;
  return { sheets, from1904, styles, texts: () => (texts ??= readSharedTexts(optional(parts, at('sharedStrings')))) };
}

/** What a member of an archive holds; throws where there is none. */
function streamOf(parts: Parts, path: string): Chunks {
  const part = parts.get(path.toLowerCase());
  if (!part) throw new Error(`its part ${path} is missing`);
  if (part.problem) throw new Error(`its part ${path} ${part.problem}`);
  return part.stream();
}

const optional = (parts: Parts, path: string | undefined): Chunks | null =>
  path !== undefined && parts.has(path.toLowerCase()) ? streamOf(parts, path) : null;

/** The relations of a part by their id; targets are paths within the archive. */
async function relationsOf(parts: Parts, path: string): Promise<Map<string, Relation>> {
  const folder = path.slice(0, path.lastIndexOf('/') + 1);
  const stream = optional(parts, `${folder}_rels/${path.slice(folder.length)}.rels`);
  const relations = new Map<string, Relation>();
  if (!stream) return relations;
  await readXml(stream, {
    open(name, attributes) {
      if (name !== 'Relationship') return;
      const { Id: id = '', Type: type = '', Target: target = '' } = attributes();
      relations.set(id, { type: type.slice(type.lastIndexOf('/') + 1), target: resolved(folder, target) });
    },
  });
  return relations;
}

function resolved(folder: string, target: string): string {
  const steps = target.startsWith('/') ? [] : folder.split('/').filter(Boolean);
  for (const step of target.split('/').filter(Boolean)) {
    if (step === '..') steps.pop();
    else if (step !== '.') steps.push(step);
  }
  return steps.join('/');
}

const ofType = (relations: ReadonlyMap<string, Relation>, type: string): Relation | undefined =>
  [...relations.values()].find((relation) => relation.type === type);

async function readSheetList(
  stream: Chunks,
  parts: Parts,
  relations: ReadonlyMap<string, Relation>,
): Promise<{ sheets: WorkbookSheet[]; from1904: boolean }> {
  const sheets: WorkbookSheet[] = [];
  let from1904 = false;
  const take = ({ name = '', id = '', state = 'visible' }: Attributes) => {
    const relation = relations.get(id);
    if (relation && relation.type !== 'worksheet') return;
    const path = relation?.target ?? `xl/worksheets/sheet${sheets.length + 1}.xml`;
    sheets.push({ name, hidden: state !== 'visible', stream: () => streamOf(parts, path) });
  };
  await readXml(stream, {
    open(name, attributes) {
      if (name === 'sheet') take(attributes());
      else if (name === 'workbookPr') from1904 ||= /^(1|true)$/.test(attributes()['date1904'] ?? '');
    },
  });
  return { sheets, from1904 };
}

async function readStyles(parts: Parts, path: string | undefined): Promise<ShownAs[]> {
  const stream = optional(parts, path ?? 'xl/styles.xml');
  const codes = new Map<number, string>();
  const ids: number[] = [];
  let inCells = false;
  if (!stream) return [];
  await readXml(stream, {
    open(name, attributes) {
      if (name === 'cellXfs') inCells = true;
      else if (name === 'numFmt') codes.set(Number(attributes()['numFmtId']), attributes()['formatCode'] ?? '');
      else if (name === 'xf' && inCells) ids.push(Number(attributes()['numFmtId'] ?? 0));
    },
    close(name) {
      if (name === 'cellXfs') inCells = false;
    },
  });
  return ids.map((id) => shownAs(id, codes.get(id)));
}
