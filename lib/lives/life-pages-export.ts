import type { Component } from '../../shared/vocabulary.ts';
import type { Engine, ResultTable } from '../engine/engine.ts';
import { identifier, sql, type Statement } from '../engine/statement.ts';
import { exportColumns } from './lives-export.ts';

/** So many lives leave the engine at a time. */
const partRows = 20_000;

const columns = exportColumns(true);

/** The contract's columns and what the rebuild adds, days as ISO text, of lives by their places in the lives table. */
export function exportStatement(component: Component, places: Int32Array): Statement {
  const [first, last] = [places[0] ?? 0, places[places.length - 1] ?? -1];
  // Places of ours, not a user's text; a whole stretch needs no list of them.
  const list = last - first + 1 === places.length ? '' : ` and rowid in (${places.join(', ')})`;
  return sql`select ${columns} from ${identifier(`lives_${component}`)}
    where rowid between ${first} and ${last}${{ text: list, values: [] }} order by rowid`;
}

/** Some lives part by part, in the order of the lives table, as another system would open them. */
export async function* livesInParts(
  engine: Engine,
  component: Component,
  rows: Int32Array,
  signal?: AbortSignal,
): AsyncGenerator<ResultTable, void, undefined> {
  const places = rows.slice().sort();
  // One part even of nothing: a file without lives has its headers all the same.
  for (let from = 0; from === 0 || from < places.length; from += partRows)
    yield await engine.query(exportStatement(component, places.subarray(from, from + partRows)), signal);
}
