import type { Random } from '../random.ts';
import type { MessCode, Paper } from './mess.ts';
import type { RolesOf } from './place-spellings.ts';

/** A mess made of some rows of a list. */
export interface RowMess<Row> {
  readonly code: MessCode;
  /** Our column that it is about. */
  readonly column: string;
  /** Of the rows of the list; one row at least where any fits. */
  readonly share: number;
  readonly fits?: (row: Row, roles: readonly string[]) => boolean;
  /** What stands in the file instead, by header. */
  readonly written: (row: Row, roles: readonly string[]) => Readonly<Record<string, string>>;
  /** Text behind the last cell of the line. */
  readonly behind?: string;
}

type WithUnit = { readonly unit_id: string };

/** Makes messes of rows that have none yet. */
export function makeRowMesses<Row extends WithUnit>(
  papers: readonly Paper<Row>[],
  messes: readonly RowMess<Row>[],
  rolesOf: RolesOf,
  random: Random,
): Paper<Row>[] {
  const made = [...papers];
  for (const { code, column, share, fits = () => true, written, behind } of messes) {
    const able = made.flatMap((paper, at) =>
      paper.messes.length === 0 && paper.table !== null && fits(paper.row, rolesOf(paper.row)) ? [at] : [],
    );
    for (let wanted = Math.max(1, Math.round(share * papers.length)); wanted > 0 && able.length > 0; wanted--) {
      const [at = 0] = able.splice(random.below(able.length), 1);
      const paper = made[at] as Paper<Row>;
      const texts = written(paper.row, rolesOf(paper.row));
      const mess = { code, column, written: Object.values(texts).join(' | ') + (behind ?? ''), meant: '' };
      made[at] = { ...paper, messes: [mess], written: texts, ...(behind === undefined ? {} : { behind }) };
    }
  }
  return made;
}

const copied = <Row>(paper: Paper<Row>, row: Row, code: MessCode, column: string, written: string): Paper<Row> => ({
  ...{ table: paper.table, tidy: null, row, written: {} },
  messes: [{ code, column, written, meant: '' }],
});

/** Some of the rows that nothing was done to, away from each other. */
function some<Row>(papers: readonly Paper<Row>[], share: number, random: Random, fits: (row: Row) => boolean) {
  const able = papers.filter(({ messes, table, row }) => messes.length === 0 && table !== null && fits(row));
  const wanted = Math.min(able.length, Math.max(1, Math.round(share * papers.length)));
  return Array.from({ length: wanted }, () => able.splice(random.below(able.length), 1)[0] as Paper<Row>);
}

/**
 * Rows said twice: exported twice under the same id, and keyed once more under another.
 * @param hasIds whether the list has ids by which the second can be told
 */
export function saidAgain<Row>(
  papers: readonly Paper<Row>[],
  id: keyof Row & string,
  random: Random,
  hasIds = true,
): Paper<Row>[] {
  const keyed = (hasIds ? some(papers, 0.01, random, () => true) : []).map((paper) => {
    const other = `${String(paper.row[id])}D`;
    return copied(paper, { ...paper.row, [id]: other }, 'said-twice', id, other);
  });
  const exported = some(papers, 0.004, random, () => true).map((paper) =>
    copied(paper, paper.row, 'same-id-again', id, String(paper.row[id])),
  );
  return [...papers, ...keyed, ...exported];
}

interface OrderLine {
  readonly service_id: string;
  readonly order_id: string;
  readonly date: string;
}

const later = (iso: string, days: number) => new Date(Date.parse(iso) + days * 86_400_000).toISOString().slice(0, 10);

/** Orders opened again weeks after: all lines once more, under new ids. @returns the ids by those of the first time */
export function reopenedOrders<Row extends OrderLine>(
  papers: readonly Paper<Row>[],
  random: Random,
): { readonly papers: Paper<Row>[]; readonly ids: ReadonlyMap<string, string> } {
  const mixed = new Set(papers.flatMap(({ messes, row }) => (messes.length > 0 ? [row.order_id] : [])));
  const orders = new Set(
    some(papers, 0.01, random, ({ order_id }) => !mixed.has(order_id)).map(({ row }) => row.order_id),
  );
  const ids = new Map<string, string>();
  const again = papers.flatMap((paper) => {
    const { row } = paper;
    if (!orders.has(row.order_id) || paper.table !== 'services') return [];
    ids.set(row.service_id, `${row.service_id}R`);
    const date = later(row.date, 12 + random.below(40));
    return [copied(paper, { ...row, service_id: `${row.service_id}R`, date }, 'order-reopened', 'date', date)];
  });
  return { papers: [...papers, ...again], ids };
}

/** A line that is no record: its cells by header. */
export const stray = <Row>(code: MessCode, written: Readonly<Record<string, string>>): Paper<Row> => ({
  ...{ table: null, tidy: null, row: {} as Row, written },
  messes: [{ code, column: '', written: Object.values(written).slice(0, 4).join(' | '), meant: '' }],
});

/** The same rows with strays among them, one after every so many. */
export function scattered<Row>(papers: readonly Paper<Row>[], strays: readonly Paper<Row>[]): Paper<Row>[] {
  const every = Math.max(1, Math.floor(papers.length / (strays.length + 1)));
  const mixed = papers.flatMap((paper, at) => {
    const next = (at + 1) % every === 0 ? strays[(at + 1) / every - 1] : undefined;
    return next ? [paper, next] : [paper];
  });
  return mixed;
}
