import { components, roles, type Component } from '../../shared/vocabulary.ts';
import type { Procedure } from '../../shared/procedure.ts';
import type { Engine, ResultColumn } from '../engine/engine.ts';
import { sql } from '../engine/statement.ts';

const componentNames = Object.keys(components) as Component[];
const limitNames = ['innerTorqueFtLb', 'outerTorqueFtLb', 'endPlayIn'] as const;

/** Column of `procedure_parts` holding one end of a limit. */
export const limitColumn = (limit: string, end: 'minimum' | 'maximum'): string => `${limit}_${end}`;
/** Column of `procedure_parts` that is 1 where the component is renewed whenever the hub comes off. */
export const renewsColumn = (component: Component): string => `renews_${component}`;

type Row = Record<string, string | number | null>;

/**
 * One row per version, build and role. Where a build has one part for every role a row without a
 * role is added, so that records without a units table can still be judged.
 */
function partRows(procedures: readonly Procedure[]): Row[] {
  return procedures.flatMap((procedure, version) =>
    procedure.parts.flatMap((part) => {
      const alone = procedure.parts.filter(({ hubBuild }) => hubBuild === part.hubBuild).length === 1;
      const row: Row = { version, hub_build: part.hubBuild };
      for (const component of componentNames) {
        const renewed = part.renewedWhenHubComesOff.includes(components[component].part);
        row[renewsColumn(component)] = renewed ? 1 : 0;
      }
      for (const limit of limitNames) {
        row[limitColumn(limit, 'minimum')] = part.limits[limit]?.minimum ?? null;
        row[limitColumn(limit, 'maximum')] = part.limits[limit]?.maximum ?? null;
      }
      const everyRole = roles.every((role) => part.roles.includes(role));
      return [...part.roles.map((role) => ({ ...row, role })), ...(alone && everyRole ? [{ ...row, role: null }] : [])];
    }),
  );
}

const textColumns = new Set(['hub_build', 'role']);

function toColumns(names: readonly string[], rows: readonly Row[]): Record<string, ResultColumn> {
  return Object.fromEntries(
    names.map((name) => {
      const cells = rows.map((row) => row[name] ?? null);
      return [
        name,
        textColumns.has(name)
          ? (cells as (string | null)[])
          : Float64Array.from(cells, (cell) => (cell === null ? NaN : Number(cell))),
      ];
    }),
  );
}

/**
 * Makes `procedure_versions(version, valid_from)` and `procedure_parts(version, hub_build, role,
 * renews_…, limits…)`, against which services are judged by the version valid on their date.
 */
export async function loadProcedures(engine: Engine, procedures: readonly Procedure[]): Promise<void> {
  await engine.run(sql`create or replace table procedure_versions (version double, valid_from date)`);
  for (const [version, procedure] of procedures.entries())
    await engine.run(sql`insert into procedure_versions select ${version}, cast(${procedure.validFrom} as date)`);
  const names = [
    'version',
    'hub_build',
    'role',
    ...componentNames.map(renewsColumn),
    ...limitNames.flatMap((limit) => [limitColumn(limit, 'minimum'), limitColumn(limit, 'maximum')]),
  ];
  const declared = names.map((name) => `"${name}" ${textColumns.has(name) ? 'varchar' : 'double'}`).join(', ');
  await engine.run({ text: `create or replace table procedure_parts (${declared})`, values: [] });
  await engine.append('procedure_parts', toColumns(names, partRows(procedures)));
}
