import { csvLine } from '../csv-text.ts';
import { DEFAULT_SEED, type DemoOptions } from '../demo-units.ts';
import { generateDemoFleet } from '../generate-demo-fleet.ts';
import { OBSERVED_FROM, OBSERVED_TO } from '../story.ts';
import { kindOf, type Mess, type Paper } from './mess.ts';
import { messyLists, type MessyFile, type WrittenList } from './messy-lists.ts';
import { messyReadme } from './messy-readme.ts';
import { shopPapers } from './shop-papers.ts';

/** Vehicles of the messy fleet that ships. */
export const MESSY_UNITS = 110;

/** A demo fleet as five shops would export it. */
export interface MessyFleet {
  /** What the shops export. */
  readonly exports: readonly MessyFile[];
  /** The record set, the column maps that come with it, the truth and a README. */
  readonly documents: readonly { readonly name: string; readonly text: string }[];
}

/** Takes a tidy fleet and makes a mess of it; pure: the same options give the same files. */
export function messyFleet({ units = MESSY_UNITS, seed = DEFAULT_SEED }: DemoOptions = {}): MessyFleet {
  const exports = messyLists(shopPapers(generateDemoFleet({ units, seed }), seed));
  const lists = exports.flatMap(({ lists }) => lists);
  const recordSet = {
    name: 'Demo fleet as five shops would export it (invented)',
    invented: true,
    observedFrom: OBSERVED_FROM,
    observedTo: OBSERVED_TO,
  };
  return {
    exports,
    documents: [
      { name: 'record-set.json', text: `${JSON.stringify(recordSet, null, 2)}\n` },
      { name: 'maps.json', text: `${JSON.stringify(lists.map(({ map }) => map))}\n` },
      { name: 'truth-rows.csv', text: truthText(lists) },
      { name: 'README.md', text: messyReadme({ units, seed }) },
    ],
  };
}

const truthColumns = ['file', 'sheet', 'row', 'table', 'id', 'must', 'code', 'column', 'written', 'meant'];

/** A line for every mess in every row. */
function truthText(lists: readonly WrittenList[]): string {
  const lines = lists.flatMap((list) =>
    list.papers.flatMap((paper, at) =>
      paper.messes.map((mess) => csvLine(truthLine(list, list.lines[at] ?? 0, paper, mess))),
    ),
  );
  return csvLine(truthColumns) + lines.join('');
}

const truthLine = ({ file, sheet }: WrittenList, line: number, { table, row }: Paper<unknown>, mess: Mess) => [
  ...[file, sheet, line, table, table === null ? '' : String(Object.values(row as object)[0])],
  ...[kindOf(mess.code).must, mess.code, mess.column, mess.written, mess.meant],
];
