import { readFileSync } from 'node:fs';
import { runInThisContext } from 'node:vm';
import { describe, expect, it } from 'vitest';
import * as library from '../../lib/statistics/index.ts';

const folder = new URL('../../lib/statistics/', import.meta.url);
const readme = readFileSync(new URL('README.md', folder), 'utf8');

/** Numbers to four digits, columns as lists, functions and long series left out: what the README prints. */
function print(value: unknown): string {
  if (typeof value === 'number') return Number.isFinite(value) ? String(Number(value.toPrecision(4))) : String(value);
  if (ArrayBuffer.isView(value) || Array.isArray(value)) return `[${Array.from(value as number[], print).join(', ')}]`;
  if (typeof value === 'string') return `'${value}'`;
  if (typeof value !== 'object' || value === null) return String(value);
  const entries = Object.entries(value).filter(([, part]) => typeof part !== 'function');
  return `{ ${entries.map(([name, part]) => `${name}: ${print(part)}`).join(', ')} }`;
}

/** A block as a function of the library that returns [printed, claimed] of each line that ends in `// = …`. */
function compile(block: string): (from: typeof library, show: typeof print) => [string, string][] {
  const body = block
    .replace(/import (\{[^}]*\}) from '\.\/index\.ts';/g, 'const $1 = library;')
    .replace(/^(.+); \/\/ = (.+)$/gm, (_, expression: string, claim: string) => {
      return `seen.push([show(${expression}), ${JSON.stringify(claim)}]);`;
    });
  const code = `(function (library, show) { 'use strict'; const seen = []; ${body}\nreturn seen; })`;
  return runInThisContext(code) as ReturnType<typeof compile>;
}

describe('the README of the statistics library', () => {
  const blocks = [...readme.matchAll(/^## (.+)$|```js\n([\s\S]*?)```/gm)];
  const named: [string, string][] = [];
  let heading = '';
  for (const [, title, block] of blocks)
    if (title !== undefined) heading = title;
    else named.push([`${heading} (${named.length + 1})`, block as string]);

  it.each(named)('%s: every line gives what it says', (_, block) => {
    const seen = compile(block)(library, print);
    expect(seen.length).toBeGreaterThan(0);
    for (const [printed, claimed] of seen) expect(printed).toBe(claimed);
  });

  const listed = [...readme.matchAll(/^\| \[`(\w+)`\]\(([\w-]+(?:\/[\w-]+)?\.ts)\) +\| (.+?) +\| (.+?) +\|$/gm)];

  it('lists every public function, and no other', () => {
    const functions = Object.entries(library).flatMap(([name, value]) => (typeof value === 'function' ? [name] : []));
    expect(listed.map(([, name]) => name).sort()).toEqual(
      functions.filter((name) => name !== 'StatisticsError').sort(),
    );
  });

  it.each(listed.map(([, name, file, , source]) => [name, file, source] as const))(
    '%s is in %s, whose documentation has the source named',
    (name, file, source) => {
      const code = readFileSync(new URL(file as string, folder), 'utf8');
      const at = code.search(new RegExp(`export (function|const) ${name}\\b`));
      const documentation = code.slice(code.lastIndexOf('/**', at), at);
      for (const part of ['@throws', 'Source: ', 'utside check']) expect(documentation).toContain(part);
      // Authors and standards by their capitalised words; the years beside them.
      const words = (source as string).match(/[A-ZÀ-Ý][\wà-ÿ-]+|\d{4}/g) ?? [];
      expect(words.length).toBeGreaterThan(0);
      for (const word of words) expect(code.includes(word), word).toBe(true);
    },
  );
});
