import type { Component } from '../../../shared/vocabulary.ts';
import { numberColumn, textColumn } from '../../engine/engine.ts';
import { identifier, sql, type Statement } from '../../engine/statement.ts';
import { run, type Asking } from '../asking.ts';

/** Miles at which the procedure now valid renews a component by build and role; a role not named is for every other. */
export const intervalsStatement = (component: Component): Statement => sql`
select p.hub_build, p.role, p.service_interval_miles from procedure_parts p
where p.service_interval_miles is not null and ${identifier(`renews_${component}`)} = 1
  and p.version = (select arg_max(version, valid_from) from procedure_versions)`;

/** The interval of a build on a role, or null; nothing is known where no records stand behind the lives. */
export type IntervalOf = (hubBuild: string, role: string) => number | null;

export async function procedureIntervals(asking: Asking): Promise<IntervalOf | null> {
  if (!asking.source.fromRecords) return null;
  const found = await run(asking, intervalsStatement(asking.view.component));
  const [build, role] = [textColumn(found, 'hub_build'), textColumn(found, 'role')];
  const miles = numberColumn(found, 'service_interval_miles');
  const intervals = new Map(build.map((name, at) => [`${name} ${role[at] ?? ''}`, miles[at] as number]));
  return (hubBuild, ownRole) => intervals.get(`${hubBuild} ${ownRole}`) ?? intervals.get(`${hubBuild} `) ?? null;
}
