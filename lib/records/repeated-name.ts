/** A text in quotes, or what opens, parts and closes objects and lists. */
const tokens = /"(?:[^"\\]|\\.)*"|[{}[\],:]/gs;

/**
 * The first name that stands twice in one object, at whatever depth; null where none does.
 * @param text JSON that can be read
 */
export function repeatedName(text: string): string | null {
  /** The names so far of every object that is open; null for a list. */
  const open: (Set<string> | null)[] = [];
  let last = '';
  for (const [token] of text.matchAll(tokens)) {
    if (token === '{') open.push(new Set());
    else if (token === '[') open.push(null);
    else if (token === '}' || token === ']') open.pop();
    else if (token === ':') {
      const names = open.at(-1);
      const name = last.includes('\\') ? (JSON.parse(last) as string) : last.slice(1, -1);
      if (names?.has(name)) return name;
      names?.add(name);
    } else last = token;
  }
  return null;
}
