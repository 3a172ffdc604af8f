const [quote, backslash, colon] = ['"', '\\', ':'].map((sign) => sign.charCodeAt(0)) as [number, number, number];
const [openObject, closeObject] = ['{', '}'].map((sign) => sign.charCodeAt(0)) as [number, number];
const [openList, closeList] = ['[', ']'].map((sign) => sign.charCodeAt(0)) as [number, number];

/** Where the text in quotes ends that begins at `from`: the place of its closing quote. */
function closingQuote(text: string, from: number): number {
  let at = from + 1;
  while (at < text.length && text.charCodeAt(at) !== quote) at += text.charCodeAt(at) === backslash ? 2 : 1;
  return at;
}

/**
 * The first name that stands twice in one object, at whatever depth; null where none does.
 * @param text JSON that can be read
 */
export function repeatedName(text: string): string | null {
  /** The names so far of every object that is open; null for a list. */
  const open: (Set<string> | null)[] = [];
  let last = '';
  for (let at = 0; at < text.length; at++) {
    const sign = text.charCodeAt(at);
    if (sign === quote) {
      const end = closingQuote(text, at);
      last = text.slice(at, end + 1);
      at = end;
    } else if (sign === colon) {
      const names = open.at(-1);
      const name = last.includes('\\') ? (JSON.parse(last) as string) : last.slice(1, -1);
      if (names?.has(name)) return name;
      names?.add(name);
    } else if (sign === openObject) open.push(new Set());
    else if (sign === openList) open.push(null);
    else if (sign === closeObject || sign === closeList) open.pop();
  }
  return null;
}
