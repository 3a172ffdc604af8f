import type { ColumnMap } from '../../../shared/column-map.ts';
import { ambleford } from './ambleford.ts';
import { brackwellFailures, brackwellWork } from './brackwell.ts';
import { coldmereFailures, coldmereWork } from './coldmere.ts';
import { delimitedFile, type DelimitedForm, type WrittenFile } from './delimited-file.ts';
import { dunhollowDefects, dunhollowJobs } from './dunhollow.ts';
import { eastfenFailures, eastfenJobs } from './eastfen.ts';
import { jsonLinesFile } from './json-lines-file.ts';
import { gridOf, mapOf, type Listing } from './listing.ts';
import type { Paper } from './mess.ts';
import { checkSheets, fleetList, meterReadings } from './office.ts';
import { outsideInvoices } from './outside.ts';
import { parquetFile } from './parquet-file.ts';
import { stray } from './row-messes.ts';
import type { ShopPapers } from './shop-papers.ts';
import { sheetLines, workbookFile, type Sheet } from './workbook-file.ts';
import { zipFile } from './zip-file.ts';

/** A list as it stands in a file, and the row of the file on which each paper does. */
export interface WrittenList {
  /** With the archive that it is packed in: `checks.zip/checks.csv`. */
  readonly file: string;
  readonly sheet: string;
  readonly papers: readonly Paper<unknown>[];
  readonly lines: readonly number[];
  readonly map: ColumnMap;
}

export interface MessyFile {
  readonly name: string;
  readonly bytes: Uint8Array;
  readonly lists: readonly WrittenList[];
}

function plain<Row>(
  name: string,
  listing: Listing<Row>,
  write: (grid: ReturnType<typeof gridOf>) => WrittenFile,
): MessyFile {
  const { bytes, lines } = write(gridOf(listing));
  return { name, bytes, lists: [{ file: name, sheet: '', papers: listing.papers, lines, map: mapOf(listing) }] };
}

const delimited = <Row>(name: string, listing: Listing<Row>, form: DelimitedForm): MessyFile =>
  plain(name, listing, (grid) => delimitedFile(grid, form));

type Page = Omit<WrittenList, 'file' | 'sheet'> & { readonly sheet: Sheet };

function page<Row>(name: string, top: Sheet['top'], listing: Listing<Row>): Page {
  const sheet = { name, top, grid: gridOf(listing) };
  return { sheet, papers: listing.papers, lines: sheetLines(sheet), map: mapOf(listing) };
}

const workbook = (name: string, pages: readonly Page[], notes: readonly Sheet[]): MessyFile => ({
  name,
  bytes: workbookFile([...notes, ...pages.map(({ sheet }) => sheet)]),
  lists: pages.map((page) => ({ ...page, file: name, sheet: page.sheet.name })),
});

const noteSheet = (name: string, lines: readonly string[]): Sheet => ({
  ...{ name, top: lines.map((line) => [line]) },
  grid: { headers: [''], rows: [] },
});

/** The headers once more in the middle, as at the top of a printed page. */
function withHeaderAgain<Row>(listing: Listing<Row>): Listing<Row> {
  const again = stray<Row>('header-again', Object.fromEntries(listing.columns.map(({ header }) => [header, header])));
  const half = Math.ceil(listing.papers.length / 2);
  return { ...listing, papers: [...listing.papers.slice(0, half), again, ...listing.papers.slice(half)] };
}

const withTotal = <Row>(listing: Listing<Row>, written: Readonly<Record<string, string>>): Listing<Row> => ({
  ...listing,
  papers: [...listing.papers, stray<Row>('total', written)],
});

/** Every file of the five shops, the office and the outside work, but those that nothing would be in. */
export const messyLists = (papers: ShopPapers): MessyFile[] =>
  everyFile(papers).filter(({ lists }) => lists.some(({ lines }) => lines.length > 0));

function everyFile({ units, readings, inspections, services, failures, rolesOf }: ShopPapers): MessyFile[] {
  const { Ambleford, Brackwell, Coldmere, Dunhollow, Eastfen, Outside } = services;
  const checks = delimited('check_sheets.csv', checkSheets(inspections), { mark: ',', encoding: 'utf-8' });
  const tabs = { mark: '\t', encoding: 'utf-16le' } as const;
  const german = { mark: ';', encoding: 'windows-1252' } as const;
  const work = withTotal(withHeaderAgain(brackwellWork(Brackwell)), {
    Zeile: 'Summe',
    Auftrag: `${Brackwell.length} Zeilen`,
  });
  const yard = withTotal(coldmereWork(Coldmere, rolesOf), { Line: 'Total lines', WO: String(Coldmere.length) });
  return [
    workbook(
      'fleet_list.xlsx',
      [page('Fleet', [['Fleet list, all shops'], ['Printed', '1 July 2025'], []], fleetList(units))],
      [noteSheet('Read me', ['Sold units stay on the list.', 'Ask the office before changing a number.'])],
    ),
    plain('meter_readings.parquet', meterReadings(readings), parquetFile),
    {
      name: 'check_sheets.zip',
      bytes: zipFile([{ name: checks.name, content: checks.bytes }]),
      lists: checks.lists.map((list) => ({ ...list, file: `check_sheets.zip/${checks.name}` })),
    },
    delimited('north_wo_history.csv', ambleford(Ambleford, failures.Ambleford, rolesOf), {
      mark: ',',
      encoding: 'utf-8-mark',
    }),
    delimited('werkstatt_arbeiten.csv', work, { ...german, top: ['Werkstatt Brackwell;Arbeiten an Radenden', ''] }),
    delimited('werkstatt_ausfaelle.csv', brackwellFailures(failures.Brackwell), german),
    workbook(
      'trailer_yard.xlsx',
      [
        page('Work orders', [['Coldmere trailer yard'], ['Work orders, all lines'], []], yard),
        page('Breakdowns', [['Breakdowns']], coldmereFailures(failures.Coldmere, rolesOf)),
      ],
      [],
    ),
    delimited('dh_job_cards.txt', dunhollowJobs(Dunhollow, rolesOf), tabs),
    delimited('dh_defects.txt', dunhollowDefects(failures.Dunhollow, rolesOf), tabs),
    plain('eastfen_jobs.jsonl', eastfenJobs(Eastfen, rolesOf), jsonLinesFile),
    plain('eastfen_failures.jsonl', eastfenFailures(failures.Eastfen, rolesOf), jsonLinesFile),
    delimited('vendor_invoices.txt', outsideInvoices(Outside, rolesOf), {
      ...{ mark: '|', encoding: 'utf-8', lineEnd: '\n' },
      top: ['Outside work billed', 'keyed at the office'],
    }),
  ];
}
