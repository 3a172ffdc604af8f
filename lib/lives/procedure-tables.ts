import { deviations } from '../../shared/deviations.ts';
import { components, hubBuilds, roles, type Component } from '../../shared/vocabulary.ts';
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
type Part = Procedure['parts'][number];

/** Column of `procedure_parts` that is 1 where a job must list the part. */
export const requiresColumn = (part: string): string => `requires_${part}`;
/** Parts whose absence from a job is evidence of a deviation. */
export const partsAsked: readonly string[] = [
  ...new Set(deviations.flatMap(({ evidence }) => (evidence.part ? [evidence.part] : []))),
];

const judgedBy = (part: Part): Row => ({
  service_interval_miles: part.serviceIntervalMiles,
  ...Object.fromEntries(
    componentNames.map((name) => {
      const renewed = part.renewedWhenHubComesOff.includes(components[name].part);
      return [renewsColumn(name), renewed ? 1 : 0];
    }),
  ),
  ...Object.fromEntries(
    partsAsked.map((name) => [requiresColumn(name), part.requiredParts.some((required) => required === name) ? 1 : 0]),
  ),
  ...Object.fromEntries(
    limitNames.flatMap((limit) => [
      [limitColumn(limit, 'minimum'), part.limits[limit]?.minimum ?? null],
      [limitColumn(limit, 'maximum'), part.limits[limit]?.maximum ?? null],
    ]),
  ),
});

/** What a build asks for on every role alike, blank where roles differ; none where a role has no part. */
function whateverTheRole(parts: readonly Part[]): Row[] {
  if (!roles.every((role) => parts.some((part) => part.roles.includes(role)))) return [];
  const [first = {}, ...others] = parts.map(judgedBy);
  const shared = Object.entries(first).map(([name, cell]): [string, Row[string]] => [
    name,
    others.every((other) => other[name] === cell) ? cell : null,
  ]);
  return [{ ...Object.fromEntries(shared), role: null }];
}

/**
 * One row per version, build and role, and one without a role for what the build asks for whatever
 * the role, so that records without a units table can still be judged.
 */
function partRows(procedures: readonly Procedure[]): Row[] {
  return procedures.flatMap(({ parts }, version) =>
    hubBuilds.flatMap((build) => {
      const ofBuild = parts.filter(({ hubBuild }) => hubBuild === build);
      const byRole = ofBuild.flatMap((part) => part.roles.map((role) => ({ ...judgedBy(part), role })));
      return [...byRole, ...whateverTheRole(ofBuild)].map((row) => ({ ...row, version, hub_build: build }));
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
 * service_interval_miles, renews_…, requires_…, limits…)`, against which services are judged by the version valid on their date.
 */
export async function loadProcedures(engine: Engine, procedures: readonly Procedure[]): Promise<void> {
  await engine.run(sql`create or replace table procedure_versions (version double, valid_from date)`);
  for (const [version, procedure] of procedures.entries())
    await engine.run(sql`insert into procedure_versions select ${version}, cast(${procedure.validFrom} as date)`);
  const names = [
    'version',
    'hub_build',
    'role',
    'service_interval_miles',
    ...componentNames.map(renewsColumn),
    ...partsAsked.map(requiresColumn),
    ...limitNames.flatMap((limit) => [limitColumn(limit, 'minimum'), limitColumn(limit, 'maximum')]),
  ];
  const declared = names.map((name) => `"${name}" ${textColumns.has(name) ? 'varchar' : 'double'}`).join(', ');
  await engine.run({ text: `create or replace table procedure_parts (${declared})`, values: [] });
  await engine.append('procedure_parts', toColumns(names, partRows(procedures)));
}
