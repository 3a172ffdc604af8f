import type { ColumnMap } from '../../../shared/column-map.ts';

/** Column maps as the command line takes them: one, or a list. */
export const mapsFile = (maps: readonly ColumnMap[]): string =>
  `${JSON.stringify(maps.length === 1 ? maps[0] : maps, null, 2)}\n`;

export const mapsFileName = (maps: readonly ColumnMap[]): string => {
  const [only] = maps;
  const name = only && maps.length === 1 ? only.source.replaceAll(/[^\p{L}\p{N}]+/gu, '-').toLowerCase() : 'sources';
  return `${name}.column-map.json`;
};
