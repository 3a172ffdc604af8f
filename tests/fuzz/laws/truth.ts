import type { Engine } from '../../../lib/engine/engine.ts';
import { textColumn } from '../../../lib/engine/engine.ts';
import { identifier, sql } from '../../../lib/engine/statement.ts';
import { rowsAsWritten } from '../../../lib/records/index.ts';
import { recordTables } from '../../../shared/record-tables.ts';
import type { CaseRead } from './read-case.ts';

/** What of a text is the same however it is encoded, and whatever ends its lines. */
const bare = (text: string): string => text.replaceAll(/[^!-~]+/g, '');

/** All rows of the spoilt file in the order in which they stand in it. */
const inOrder = ({ own, kept, aside }: CaseRead) => {
  const names = new Set(own.map(({ name }) => name));
  const all = [
    ...kept.filter(({ file }) => names.has(file)).map(({ line }) => ({ line, aside: null })),
    ...aside.filter(({ file }) => names.has(file)).map((row) => ({ line: row.row, aside: row })),
  ];
  return all.sort((a, b) => a.line - b.line);
};

/** Every row of the file was read, and those set aside still hold their texts. */
function* rowLaw(read: CaseRead): Generator<string> {
  const { fuzz, own } = read;
  const { rows, cells, mayRefuse } = fuzz.truth;
  if (rows === null) return;
  const refused = own.find((file) => file.refused !== null)?.refused;
  if (refused != null) {
    if (!mayRefuse) yield `is refused: ${refused.slice(0, 300)}`;
    return;
  }
  const found = inOrder(read);
  if (found.length !== rows.length) {
    yield `has ${rows.length} rows; ${found.length} were read`;
    return;
  }
  for (const [at, { aside }] of found.entries()) {
    if (!cells || aside === null || new Set(found.map(({ line }) => line)).size < found.length) continue;
    const original = bare(aside.original);
    const gone = rows[at]!.find(
      (cell) =>
        cell.length < 1_000 && !original.includes(bare(cell.replaceAll('"', '""'))) && !original.includes(bare(cell)),
    );
    if (gone !== undefined && aside.original.length < 9_000)
      yield `row ${aside.row} is set aside as ${aside.original.slice(0, 300)}, without its ${JSON.stringify(gone).slice(0, 200)}`;
  }
}

/** Cells of text are kept as they were given, but for the blanks around them. */
async function* textLaw(engine: Engine, read: CaseRead): AsyncGenerator<string> {
  const { rows, texts } = read.fuzz.truth;
  const [account] = read.own;
  if (rows === null || texts === null || account === undefined || account.refused !== null) return;
  const found = inOrder(read);
  if (found.length !== rows.length || new Set(found.map(({ line }) => line)).size < found.length) return;
  const columns = recordTables[texts.table].filter(({ kind, name }) => kind === 'text' && texts.headers.includes(name));
  const answer = await engine.query(sql`
    select columns(*)::varchar from ${identifier(texts.table)} join files using (file_id)
    where name = ${account.name} order by line::bigint`);
  const lines = textColumn(answer, 'line');
  for (const { name } of columns) {
    const values = textColumn(answer, name);
    const at = texts.headers.indexOf(name);
    for (const [index, value] of values.entries()) {
      const given = rows[found.findIndex(({ line }) => line === Number(lines[index]))]?.[at]?.trim() ?? '';
      if ((value ?? '') !== given)
        yield `row ${lines[index]} keeps ${name} as ${JSON.stringify(value).slice(0, 200)}, given as ${JSON.stringify(given).slice(0, 200)}`;
    }
  }
}

const longest = 900_000;

/** All of a delimited text below its headers is in the rows, kept or set aside. */
async function* delimitedLaw(read: CaseRead): AsyncGenerator<string> {
  const { fuzz, own, kept, report } = read;
  const text = fuzz.truth.delimited;
  const [account] = own;
  if (text === null || text.length > longest || account === undefined || own.some(({ refused }) => refused !== null))
    return;
  const wanted = kept.filter(({ file }) => file === account.name);
  const written = await rowsAsWritten(fuzz.sources, wanted);
  const originals = new Map(written.map(({ line, written }) => [line, written ?? '']));
  const found = inOrder(read);
  const rows = bare(found.map(({ line, aside }) => aside?.original ?? originals.get(line) ?? '').join('\n'));
  const whole = bare(text);
  const at = Number(
    / has its headers in row (\d+)/.exec(
      report.messages.find((message) => message.startsWith(account.name)) ?? '',
    )?.[1] ?? 0,
  );
  const lines = text.split(/\r\n|\r|\n/);
  const first = at > 0 ? at : lines.findIndex((line) => /[^\s]/.test(line)) + 1;
  const heads = [0, 1, 2, 3, 4].map((more) => bare(lines.slice(0, first + more).join('\n')));
  if (!heads.some((head) => head + rows === whole)) {
    const same = [...whole].findLastIndex((letter, index) => letter !== rows[rows.length - whole.length + index]);
    yield `text is lost or new around …${whole.slice(Math.max(0, same - 80), same + 40)}… of ${whole.length} letters, ${rows.length} in rows, ${heads[0]!.length} in headers`;
  }
}

function* lineLaw({ fuzz, own }: CaseRead): Generator<string> {
  const { lines } = fuzz.truth;
  const [account] = own;
  if (lines === null || account === undefined || own.length > 1 || account.refused !== null) return;
  if (account.read !== lines) yield `has ${lines} lines of JSON; ${account.read} were read`;
}

/** The laws that hold because of what is known of a file. */
export async function* truthLaws(engine: Engine, read: CaseRead): AsyncGenerator<string> {
  yield* rowLaw(read);
  yield* textLaw(engine, read);
  yield* delimitedLaw(read);
  yield* lineLaw(read);
}
