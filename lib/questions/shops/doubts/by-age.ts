import type { Doubt } from '../../../../shared/finding.ts';
import { observedExpected, type ObservedExpected } from '../../../statistics/index.ts';
import { doubt, failsIf } from '../../doubts/doubt.ts';
import { firmnessRule } from '../../firmness.ts';
import { gather } from '../../gather.ts';
import { range, ratioText, type Wording } from '../../words/wording.ts';
import type { ShopsEvidence } from '../shops-evidence.ts';

/** One group's ratio before and after the age by which half of its failures have come; fails where the two intervals lie apart. */
export function sameThroughout(
  evidence: ShopsEvidence,
  place: number,
  label: string,
  level: number,
  words: Wording,
): Doubt | null {
  const { exit, event, groups } = evidence;
  const ages = exit.filter((_, at) => event[at] === 1 && groups.codes[at] === place).sort();
  if (ages.length < 2 * firmnessRule.thinFailures) return null;
  const cut = ages[ages.length >> 1] as number;
  const [before, after] = [
    ratioBetween(evidence, place, 0, cut, level),
    ratioBetween(evidence, place, cut, Infinity, level),
  ];
  if (!before || !after) return null;
  const apart = (before.lower ?? 0) > (after.upper ?? Infinity) || (after.lower ?? 0) > (before.upper ?? Infinity);
  const says = `“${label}” has ${ratioText(before.value)} times the expected ${range(before, ratioText)} before ${words.age(cut)}, ${ratioText(after.value)} times ${range(after, ratioText)} after`;
  const lead = apart ? 'The difference is not the same at every age' : 'No sign that the difference changes with age';
  return doubt(
    'The same throughout',
    failsIf(apart),
    `${lead}: ${says}.`,
    'the ratio read by age, not one for all of it',
  );
}

function ratioBetween(evidence: ShopsEvidence, place: number, from: number, to: number, level: number) {
  const found = between(evidence, from, to, level);
  const value = found?.ratio[place] ?? null;
  if (!found || value === null) return null;
  return { value, lower: found.robustLower[place] ?? null, upper: found.robustUpper[place] ?? null };
}

/** The comparison over a stretch of ages: lives cut where it ends, and entering where it begins. */
function between(evidence: ShopsEvidence, from: number, to: number, level: number): ObservedExpected | null {
  const { adjustment, groups, entry, exit, event } = evidence;
  const kept = Int32Array.from(exit.keys()).filter((at) => (exit[at] as number) > from && (entry[at] as number) < to);
  const failed = gather(event, kept).map((own, at) => ((exit[kept[at] as number] as number) <= to ? own : 0));
  if (!failed.includes(1)) return null;
  const take = ({ levels, codes }: { readonly levels: readonly string[]; readonly codes: Int32Array }) => ({
    levels,
    codes: gather(codes, kept),
  });
  const covariates = Object.entries(adjustment.covariates).map(([name, column]) => [name, take(column)] as const);
  return observedExpected(
    {
      entry: gather(entry, kept).map((age) => Math.max(age, from)),
      exit: gather(exit, kept).map((age) => Math.min(age, to)),
      event: failed,
      ...{ group: take(groups), cluster: take(adjustment.cluster), covariates: Object.fromEntries(covariates) },
      ...(adjustment.strataOf.length > 0 ? { strata: take(adjustment.strata) } : {}),
    },
    { level },
  );
}
