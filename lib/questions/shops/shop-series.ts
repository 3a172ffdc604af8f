import type { Series } from '../../../shared/finding.ts';
import { placesWhere } from '../gather.ts';
import { deviationValues } from './deviation-covariates.ts';
import { funnelSeries } from './funnel.ts';
import type { LikeForLike } from './like-for-like.ts';
import { quarterSeries, type Quarter } from './quarters.ts';
import { valueCounts } from './recording.ts';
import type { ShopsEvidence } from './shops-evidence.ts';
import type { Shrunken } from './shrunken.ts';

/**
 * What the figures and tables beside the groups are drawn from: `funnel` and `funnel limits`,
 * `steps` (each group's ratio as one more column is taken into account, in that order), `mix <column>`
 * (share of what was watched by value), `install quarter`, `deviation <code>` (lives by what it says).
 */
export function shopSeries(
  evidence: ShopsEvidence,
  alike: LikeForLike | null,
  shrunken: Shrunken | null,
  quarters: readonly Quarter[],
  level: number,
): Series[] {
  const { levels } = evidence.groups;
  return [
    ...(alike && shrunken ? funnelSeries(alike.plain, levels, shrunken.design) : []),
    ...(alike ? stepSeries(alike, levels) : []),
    ...mixSeries(evidence),
    ...quarterSeries(quarters, levels, level),
    ...deviationSeries(evidence),
  ];
}

const stepSeries = ({ steps }: LikeForLike, levels: readonly string[]): Series[] =>
  levels.map((group, place) => ({
    name: 'steps',
    group,
    columns: Object.fromEntries(steps.map(({ name, ratio }) => [name, [ratio[place] ?? null]])),
  }));

/** Share of each group's watched miles (or months) by value of everything taken into account. */
function mixSeries({ adjustment, groups, entry, exit }: ShopsEvidence): Series[] {
  const columns = Object.entries(adjustment.covariates);
  if (adjustment.strataOf.length > 0) columns.push([adjustment.strataOf.join(' · '), adjustment.strata]);
  return columns.flatMap(([name, { levels, codes }]) => {
    const sums = groups.levels.map(() => new Float64Array(levels.length));
    codes.forEach((code, at) => {
      const own = sums[groups.codes[at] as number] as Float64Array;
      own[code] = (own[code] as number) + (exit[at] as number) - (entry[at] as number);
    });
    return groups.levels.map((group, place) => {
      const own = sums[place] as Float64Array;
      const whole = own.reduce((sum, one) => sum + one, 0);
      const share = (code: number) => [whole > 0 ? (own[code] as number) / whole : null];
      const shares = levels.map((label, code) => [label, share(code)] as const);
      return { name: `mix ${name}`, group, columns: Object.fromEntries(shares) };
    });
  });
}

function deviationSeries({ deviations, groups }: ShopsEvidence): Series[] {
  const places = groups.levels.map((_, place) => placesWhere(groups.codes.length, (at) => groups.codes[at] === place));
  return [...deviations].flatMap(([code, values]) => {
    if (values.every((value) => value > 1)) return [];
    return groups.levels.map((group, place) => {
      const counts = valueCounts(values, places[place] as Int32Array);
      const columns = Object.fromEntries(deviationValues.map((value, index) => [value, [counts[index] as number]]));
      return { name: `deviation ${code}`, group, columns };
    });
  });
}
