import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { definitions } from '../../shared/methods/definitions.ts';
import { doubtAnchor, doubtParts } from '../../shared/methods/doubts/index.ts';
import { glossary } from '../../shared/methods/glossary.ts';
import { methods, methodsNamed, sourcesOf } from '../../shared/methods/index.ts';
import { leakRules } from '../../shared/methods/leak-rules.ts';

const folder = new URL('../../lib/questions', import.meta.url).pathname;
const sources = readdirSync(folder, { recursive: true, encoding: 'utf8' })
  .filter((name) => name.endsWith('.ts'))
  .map((name) => readFileSync(join(folder, name), 'utf8'));

const found = (pattern: RegExp): string[] => [
  ...new Set(sources.flatMap((text) => [...text.matchAll(pattern)].map((match) => match[1] ?? match[2] ?? ''))),
];

describe('what the methods page says', () => {
  it('explains every doubt that the questions give', () => {
    // The type of `doubt` asks for a name of the list; this holds that nothing goes round it.
    const given = found(/\bdoubt\(\s*'([^']+)'|\bname(?:: '| = ')([A-Z][^']*)'/g);
    expect(given.length).toBeGreaterThan(50);
    expect(given.filter((name) => doubtAnchor(name) === null)).toEqual([]);
    const explained = doubtParts.flatMap(({ doubts }) => Object.entries(doubts));
    for (const [name, { asks, so }] of explained) expect(`${name}: ${asks} ${so}`).toMatch(/: [A-Z].{20,}\. .{15,}\.$/);
  });

  it('explains no doubt that nobody gives', () => {
    const all = sources.join('\n');
    const names = doubtParts.flatMap(({ doubts }) => Object.keys(doubts));
    expect(names.filter((name) => !all.includes(`'${name}'`))).toEqual([]);
  });

  it('explains every method that the questions name', () => {
    const named = found(/\bmethod:\s*['`]([^'`$]+)|[mM]ethod =\s*['`]([^'`$]+)/g).filter((told) => told.trim() !== '');
    // How p-values are corrected and limits taken is an option of a call, not what a finding names.
    const options = new Set(['holm', 'clopper-pearson']);
    expect(named.length).toBeGreaterThan(25);
    expect(named.filter((told) => !options.has(told) && methodsNamed(told).length === 0)).toEqual([]);
  });

  it('says of every method what it answers, assumes, how it misleads and whose it is', () => {
    for (const { name, answers, where, assumes, misleads, sources: whose } of methods) {
      for (const text of [answers, where, assumes, misleads]) expect(text, name).toMatch(/^.{15,}\.$/su);
      expect(whose.length, name).toBeGreaterThan(0);
      for (const source of whose) expect(source, name).toMatch(/\d/);
    }
  });

  it('gives every place of the page a name of its own', () => {
    const places = [
      ...methods.map(({ id }) => id),
      ...doubtParts.flatMap(({ doubts }) => Object.keys(doubts).map(doubtAnchor)),
      ...['methods', 'firmness', 'doubts', 'words', 'rules', 'cautions', 'never'],
    ];
    expect(new Set(places).size).toBe(places.length);
  });

  it('says of every rule where it stands and how far its wording was seen', () => {
    const rules = leakRules.flatMap((part) => part.rules);
    const named = rules.map(({ section }) => section);
    expect(new Set(named).size).toBe(named.length);
    expect(named).toContain('49 CFR 396.5(b)');
    expect(rules.filter(({ status }) => status !== 'wording seen').length).toBeGreaterThan(0);
  });

  it('says each word once', () => {
    const terms = [...definitions('an age'), ...glossary].map(({ term }) => term);
    expect(new Set(terms).size).toBe(terms.length);
  });

  it('gives a brief the sources of the methods it names, each once', () => {
    const told = sourcesOf(['product-limit, first age at or below', '1 − product-limit', 'Wilson score']);
    expect(told.filter((source) => source.startsWith('E. L. Kaplan'))).toHaveLength(1);
    expect(told.some((source) => source.startsWith('E. B. Wilson'))).toBe(true);
  });
});
