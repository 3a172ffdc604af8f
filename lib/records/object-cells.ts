/** A value beyond this is no whole number that JSON text can bring over exactly. */
const inexact = (value: number): boolean => Number.isInteger(value) && !Number.isSafeInteger(value);

/** A cell of an object: its text, or what is wrong with it. */
export type ObjectCell = { readonly text: string | null; readonly fault: string | null };

/**
 * The cells of an object by their names: what lies inside an object within it is named `outer.inner`,
 * a list of words becomes `a;b`, true and false yes and no, null blank.
 */
export function objectCells(object: object): Map<string, ObjectCell> {
  const cells = new Map<string, ObjectCell>();
  addCells(object, '', 0, cells);
  return cells;
}

/** What lies deeper is shown as JSON. */
const deepest = 8;

function addCells(object: object, prefix: string, depth: number, cells: Map<string, ObjectCell>): void {
  for (const [key, value] of Object.entries(object) as [string, unknown][]) {
    const name = `${prefix}${key}`;
    const isObject = typeof value === 'object' && value !== null && !Array.isArray(value) && !(value instanceof Date);
    if (isObject && depth < deepest && Object.keys(value).length > 0) addCells(value, `${name}.`, depth + 1, cells);
    // `{"a.b": 1, "a": {"b": 2}}` says the same column twice.
    else
      cells.set(name, cells.has(name) ? { ...valueCell(value), fault: 'is given twice in the row' } : valueCell(value));
  }
}

/** One value as a cell. */
export function valueCell(value: unknown): ObjectCell {
  if (Array.isArray(value)) return listCell(value);
  const text = plainText(value);
  const fault = typeof value === 'number' && inexact(value) ? 'a whole number too long to be read exactly' : null;
  return { text, fault };
}

function listCell(values: readonly unknown[]): ObjectCell {
  if (values.some((value) => typeof value === 'object' && value !== null)) {
    return { text: plainText(values), fault: null };
  }
  const cells = values.map(valueCell);
  return {
    text: cells.flatMap(({ text }) => (text === null ? [] : [text])).join(';'),
    fault: cells.find(({ fault }) => fault !== null)?.fault ?? null,
  };
}

function plainText(value: unknown): string | null {
  switch (typeof value) {
    case 'string':
      return value;
    case 'number':
      return Number.isNaN(value) ? null : String(value);
    case 'bigint':
      return String(value);
    case 'boolean':
      return value ? 'yes' : 'no';
    case 'object':
      if (value === null) return null;
      return JSON.stringify(value, (_, inner: unknown) => (typeof inner === 'bigint' ? String(inner) : inner));
    default:
      return null;
  }
}
