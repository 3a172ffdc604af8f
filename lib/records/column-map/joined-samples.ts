import { wordOf } from './cell-words.ts';
import { namedHeaders } from './fitting-map.ts';
import type { Sample } from './sample.ts';

/** One text for all files with the same headers, in whatever order. */
export const headersKey = (headers: readonly string[]): string =>
  JSON.stringify(namedHeaders(headers).map(wordOf).sort());

/** Where a row of joined samples stands: which of them, and its line there. */
export interface RowPlace {
  readonly sample: number;
  readonly line: number;
}

export interface JoinedSample extends Sample {
  readonly placeOf: (line: number) => RowPlace;
}

/** Samples of files with the same headers as one, in the order of the first; its lines count through all of them. */
export function joinedSamples(samples: readonly [Sample, ...Sample[]]): JoinedSample {
  const [first] = samples;
  const names = namedHeaders(first.headers).map(wordOf);
  const rows: (readonly string[])[] = [];
  const places: RowPlace[] = [];
  for (const [sample, { headers, rows: own, lines }] of samples.entries()) {
    const at = new Map(namedHeaders(headers).map((header, place) => [wordOf(header), place]));
    const order = names.map((name) => at.get(name) ?? -1);
    const same = order.every((place, index) => place === index);
    for (const [index, row] of own.entries()) {
      rows.push(same ? row : order.map((place) => row[place] ?? ''));
      places.push({ sample, line: lines[index] ?? 0 });
    }
  }
  return {
    headers: first.headers,
    rows,
    lines: rows.map((_, index) => index),
    broken: samples.reduce((sum, { broken }) => sum + broken, 0),
    whole: samples.every(({ whole }) => whole),
    placeOf: (line) => places[line] ?? { sample: 0, line: 0 },
  };
}
