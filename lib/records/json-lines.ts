import { longestRecord } from './csv-reader.ts';
import { objectCells, type ObjectCell } from './object-cells.ts';
import type { Chunks } from './record-source.ts';
import { repeatedName } from './repeated-name.ts';
import type { OpenRows, Outcome, RowSink } from './row-sink.ts';
import { textLines, type TextLine } from './text-lines.ts';
import { TextRow } from './text-row.ts';

const strict = new TextDecoder('utf-8', { fatal: true });
const lenient = new TextDecoder();
const longestOriginal = 10_000;
const mostNames = 2_000;

type Cells = ReadonlyMap<string, ObjectCell>;
interface Broken {
  readonly reason: string;
  readonly accepted: string;
}

/**
 * Reads JSON lines, an object a line, into rows numbered by their lines. A column is any name that any
 * object has, so the text is gone through twice: a name may come up on the last line only.
 * @param again gives the same text from its start
 */
export async function readJsonLines(chunks: Chunks, again: () => Chunks, openRows: OpenRows): Promise<Outcome> {
  const names = await namesIn(again());
  if (typeof names === 'string') return names;
  const rows = await openRows(names, true);
  if (typeof rows === 'string') return rows;
  let cells: Cells = new Map();
  const cut = new TextRow(
    () => names.length,
    (index) => cells.get(names[index] ?? '')?.text ?? null,
    (index) => cells.get(names[index] ?? '')?.fault ?? null,
  );
  for await (const lines of textLines(chunks, longestRecord)) {
    for (const line of lines) {
      const read = cellsOf(line);
      const twice = read instanceof Map ? nameGivenTwice(line) : null;
      if (twice !== null) takeBroken(line, twice, rows);
      else if (read instanceof Map) {
        cells = read;
        rows.row(cut, line.line);
      } else takeBroken(line, read as Broken, rows);
      if (rows.full) await rows.send();
    }
  }
  await rows.finish();
  return null;
}

/** Every name of every object, in the order they come up. */
async function namesIn(chunks: Chunks): Promise<string[] | string> {
  const names = new Set<string>();
  let firstBroken: string | null = null;
  for await (const lines of textLines(chunks, longestRecord)) {
    for (const line of lines) {
      const cells = cellsOf(line);
      if (cells instanceof Map) for (const name of cells.keys()) names.add(name);
      else firstBroken ??= `row ${line.line}: ${(cells as Broken).reason}`;
    }
    if (names.size > mostNames) return `has more than ${mostNames} different names in its objects`;
  }
  if (names.size > 0) return [...names];
  return `holds no JSON objects, one on each line (${firstBroken ?? 'nothing is written'})`;
}

function cellsOf({ bytes }: TextLine): Cells | Broken {
  if (!bytes) return { reason: 'the line is too long for a row', accepted: `rows under ${longestRecord} bytes` };
  let text: string;
  try {
    text = strict.decode(bytes);
  } catch {
    return { reason: 'not readable as UTF-8 text', accepted: 'UTF-8 text' };
  }
  try {
    const value: unknown = JSON.parse(text);
    if (typeof value === 'object' && value !== null && !Array.isArray(value)) return objectCells(value);
    return { reason: 'not an object of names and values', accepted };
  } catch {
    return { reason: 'not readable as JSON', accepted };
  }
}

/** JSON takes the last of two values without a word, and nobody knows which is meant. */
function nameGivenTwice({ bytes }: TextLine): Broken | null {
  const name = bytes && repeatedName(lenient.decode(bytes));
  return name === null
    ? null
    : { reason: `gives "${name.slice(0, 60)}" twice`, accepted: 'each name once in an object' };
}

const accepted = 'one JSON object on each line';

const takeBroken = ({ line, start }: TextLine, { reason, accepted }: Broken, rows: RowSink): void =>
  rows.broken(line, reason, accepted, lenient.decode(start.subarray(0, longestOriginal)).trimEnd());
