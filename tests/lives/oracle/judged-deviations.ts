// What an installing service says of each deviation (record contract, section 4), one code at a time by hand.
import type { Procedure } from '../../../shared/procedure.ts';
import { roles } from '../../../shared/vocabulary.ts';
import type { Row } from '../record-tables-in-engine.ts';
import { dayOf, numberOf } from './odometer.ts';

export type Verdict = 'yes' | 'no' | 'unknown' | 'not-applicable';
type Part = Procedure['parts'][number];
type Limit = Part['limits']['endPlayIn'];

export const words = (cell: unknown): string[] =>
  typeof cell === 'string' ? cell.split(';').filter((word) => word !== '') : [];

const agreed = <T>(values: readonly T[]): T | null =>
  values.every((value) => JSON.stringify(value) === JSON.stringify(values[0])) ? (values[0] ?? null) : null;

/** What all roles of a build have in common, for a wheel end whose role nobody knows. */
function whateverTheRole(parts: readonly Part[]): Part | undefined {
  const first = parts[0];
  if (!first || !roles.every((role) => parts.some((part) => part.roles.includes(role)))) return undefined;
  const shared = (pick: (part: Part) => Limit): Limit => {
    const limits = parts.map(pick);
    const minimum = agreed(limits.map((limit) => limit?.minimum ?? null));
    const maximum = agreed(limits.map((limit) => limit?.maximum ?? null));
    return { minimum, maximum, source: 'common to all roles' };
  };
  return {
    ...first,
    limits: {
      innerTorqueFtLb: shared(({ limits }) => limits.innerTorqueFtLb),
      outerTorqueFtLb: shared(({ limits }) => limits.outerTorqueFtLb),
      endPlayIn: shared(({ limits }) => limits.endPlayIn),
    },
    requiredParts: first.requiredParts.filter((name) => parts.every((part) => part.requiredParts.includes(name))),
    renewedWhenHubComesOff: first.renewedWhenHubComesOff.filter((name) =>
      parts.every((part) => part.renewedWhenHubComesOff.includes(name)),
    ),
  };
}

/** The part of the version valid on the day that speaks of this build on this role. */
export function procedurePart(
  procedures: readonly Procedure[],
  day: number,
  hubBuild: unknown,
  role: string | null,
): Part | undefined {
  const valid = procedures
    .filter(({ validFrom }) => (dayOf(validFrom) as number) <= day)
    .sort((a, b) => (dayOf(a.validFrom) as number) - (dayOf(b.validFrom) as number))
    .at(-1);
  const ofBuild = (valid?.parts ?? []).filter((part) => part.hubBuild === hubBuild);
  return role === null ? whateverTheRole(ofBuild) : ofBuild.find((part) => part.roles.some((name) => name === role));
}

interface Rule {
  readonly builds?: readonly string[];
  readonly double?: true;
  readonly oil?: true;
  readonly value?: (service: Row) => number | null;
  readonly limit?: (part: Part) => Limit;
  readonly outside?: (value: number, limit: NonNullable<Limit>) => boolean | null;
  readonly said?: readonly [column: string, yes: string];
  readonly step?: string;
  readonly part?: string;
}

/** Whether a value is out of its limit on that side; a blank limit judges nothing. */
const below = (value: number, { minimum }: NonNullable<Limit>) => (minimum === null ? null : value < minimum);
const above = (value: number, { maximum }: NonNullable<Limit>) => (maximum === null ? null : value > maximum);
const either = (value: number, limit: NonNullable<Limit>) => {
  const said = [below(value, limit), above(value, limit)].filter((out) => out !== null);
  return said.length === 0 ? null : said.includes(true);
};
/** A 0 is a reading only where somebody says it was measured. */
const endPlay = (service: Row) => {
  const play = numberOf(service['end_play_in']);
  return play === 0 && service['end_play_measured'] !== 'yes' ? null : play;
};
const driven = ['adjusted', 'spacer'];

/** The table of section 4, row by row. */
const rules: Readonly<Record<string, Rule>> = {
  'nut-backed-off': { builds: ['spacer', 'unitized'], said: ['nut_backed_off', 'yes'] },
  'back-off-omitted': { builds: ['adjusted'], said: ['nut_backed_off', 'no'] },
  'inner-torque-out': {
    value: (service) => numberOf(service['inner_torque_ftlb']),
    limit: ({ limits }) => limits.innerTorqueFtLb,
    outside: either,
  },
  'outer-torque-out': {
    double: true,
    value: (service) => numberOf(service['outer_torque_ftlb']),
    limit: ({ limits }) => limits.outerTorqueFtLb,
    outside: either,
  },
  'outer-nut-skipped': { double: true, step: 'step_outer_nut_torqued' },
  'lock-not-engaged': { step: 'step_lock_engaged' },
  'spacer-missing': { builds: ['spacer'], step: 'step_spacer_fitted' },
  'spacer-reversed': { builds: ['spacer'], step: 'step_spacer_oriented' },
  'mixed-components': {},
  'lubricant-mismatch': { builds: driven, step: 'step_lubricant_matched' },
  'packed-in-oil-bath': { builds: driven, oil: true },
  'seal-tool-missing': { builds: driven, step: 'step_seal_tool_used' },
  'seal-cocked': { builds: driven, step: 'step_seal_seated' },
  'sealant-on-seal': { builds: driven },
  'hub-hung-on-seal': { builds: driven, step: 'step_hub_supported' },
  'gasket-reused': { builds: driven, step: 'step_gasket_new', part: 'gasket' },
  underfilled: { builds: driven, said: ['fill_level', 'low'] },
  overfilled: { builds: driven, said: ['fill_level', 'over'] },
  'dirty-cavity': { builds: driven, step: 'step_cavity_cleaned' },
  'end-play-high': { builds: ['adjusted'], value: endPlay, limit: ({ limits }) => limits.endPlayIn, outside: above },
  'end-play-low': { builds: ['adjusted'], value: endPlay, limit: ({ limits }) => limits.endPlayIn, outside: below },
  'end-play-unmeasured': { builds: ['adjusted'], said: ['end_play_measured', 'no'] },
  'spindle-not-dressed': { step: 'step_spindle_dressed' },
  'mark-missing': { builds: ['spacer'], step: 'step_mark_fitted' },
};

export const judgedCodes = Object.keys(rules);

/** Whether the code can exist on this hub: every known cell must allow it, and every cell asked must be known. */
function canExist(rule: Rule, service: Row): boolean | null {
  const asked = [
    rule.builds && [service['hub_build'], rule.builds],
    rule.double && [service['nut_system'], ['double']],
    rule.oil && [service['lubricant'], ['oil']],
  ].filter((pair) => pair !== undefined) as [string | null | undefined, readonly string[]][];
  if (asked.some(([cell, allowed]) => typeof cell === 'string' && !allowed.includes(cell))) return false;
  return asked.every(([cell]) => typeof cell === 'string') ? true : null;
}

export interface Jobs {
  readonly part: Part | undefined;
  /** Whether this job's shop lists the part on most jobs that need it. */
  readonly shopLists: (part: string) => boolean;
}

export function judge(code: string, service: Row, { part, shopLists }: Jobs): Verdict {
  const rule = rules[code] as Rule;
  const exists = canExist(rule, service);
  if (exists === false) return 'not-applicable';
  if (exists === null) return 'unknown';
  const value = rule.value?.(service) ?? null;
  const limit = part && rule.limit ? rule.limit(part) : null;
  const out = value !== null && limit && rule.outside ? rule.outside(value, limit) : null;
  if (out !== null) return out ? 'yes' : 'no';
  const said = rule.said ? (service[rule.said[0]] ?? null) : null;
  if (words(service['deviations']).includes(code) || (rule.said && said === rule.said[1])) return 'yes';
  if (said !== null) return 'no';
  const step = rule.step ? service[rule.step] : null;
  if (step === 'skipped') return 'yes';
  if (step === 'done' || service['checklist_complete'] === 'yes') return 'no';
  const replaced = words(service['replaced']);
  if (!rule.part || replaced.length === 0) return 'unknown';
  if (replaced.includes(rule.part)) return 'no';
  const required = part?.requiredParts.some((name) => name === rule.part);
  return required && shopLists(rule.part) ? 'yes' : 'unknown';
}
