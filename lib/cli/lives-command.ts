import { parseArgs } from 'node:util';
import { components, type Component } from '../../shared/vocabulary.ts';
import { saveTableFile } from '../engine/node.ts';
import { numberColumn, textColumn } from '../engine/engine.ts';
import { identifier, sql, type Statement } from '../engine/statement.ts';
import { exportColumns, livesTable } from '../lives/index.ts';
import { WrongCall, type Streams } from './call.ts';
import { mapOption } from './column-maps.ts';
import { openLives } from './open-lives.ts';
import { textTable } from './text-table.ts';

const endings = ['.parquet', '.arrow', '.csv'];

function toComponent(name: string): Component {
  if (name in components) return name as Component;
  throw new WrongCall(`no such component; a component is one of ${Object.keys(components).join(', ')}; ${name}`);
}

const exported = (component: Component, path: string): Statement =>
  sql`select ${exportColumns(path.toLowerCase().endsWith('.arrow'))} from ${identifier(livesTable(component))} order by life_id`;

/** `hubcause lives`: rebuilds lives, counts them by how they ended, and writes them down where asked. */
export async function livesCommand(parts: string[], streams: Streams): Promise<void> {
  const { values, positionals } = parseArgs({
    args: parts,
    allowPositionals: true,
    options: { out: { type: 'string' }, component: { type: 'string', default: 'seal' }, ...mapOption },
  });
  const component = toComponent(values.component);
  const { out } = values;
  if (out !== undefined && !endings.some((ending) => out.toLowerCase().endsWith(ending)))
    throw new WrongCall(`cannot tell how to write lives; a file ends in ${endings.join(', ')}; ${out}`);
  const { engine, source } = await openLives(positionals, values.map, streams);
  try {
    await source.ensure(component);
    const result = await engine.query(sql`
      select state, cast(count(*) as double) as lives, sum(exposure_miles) as miles from ${identifier(livesTable(component))} group by state order by state`);
    const rows = textColumn(result, 'state').map((state, index) => [
      state ?? '',
      (numberColumn(result, 'lives')[index] ?? 0).toLocaleString('en-US'),
      Math.round(numberColumn(result, 'miles')[index] ?? 0).toLocaleString('en-US'),
    ]);
    streams.out(textTable(['state', 'lives', 'wheel-end miles'], rows));
    if (out !== undefined) await saveTableFile(engine, exported(component, out), out);
  } finally {
    await engine.close();
  }
}
