import type { Estimate } from '../../../shared/finding.ts';
import { adjustPValues, rateRatio } from '../../statistics/index.ts';
import { commonGround, refusalOf } from '../adjustment/common-ground.ts';
import { rateName } from '../age-axis.ts';
import type { Asking } from '../asking.ts';
import { toEstimate } from '../estimate.ts';
import { breathe } from '../breathe.ts';
import type { CausesEvidence } from './causes-evidence.ts';
import { byScope, LivesByScope } from './compared-lives.ts';
import type { Exposure } from './exposure.ts';
import { levelCounts, levelRate } from './level-counts.ts';
import { eventsNeeded, hiddenStrength, type RankedGroup } from './ranked-group.ts';
import { adjustedRatios, type Compared } from './ranking-ratios.ts';
import { tooFewFor, type Ratio } from './ratios.ts';

/** The crude ratios of a comparison, made or kept. */
export type CrudeOf = (compared: Compared) => readonly Ratio[];

/** Every exposure compared, counted, and given its crude and its adjusted ratio: what a ranking needs. */
export async function firstRanking(
  asking: Asking,
  { lives, exposures }: CausesEvidence,
  crude: CrudeOf,
): Promise<RankedGroup[]> {
  const { view, signal, onProgress } = asking;
  const scopes = new LivesByScope(lives);
  const lines: RankedGroup[][] = [];
  for (const [done, at] of byScope(exposures, scopes).entries()) {
    onProgress?.({ done, of: exposures.length, doing: 'ranking' });
    await breathe(signal);
    const compared = comparedOf(exposures[at] as Exposure, scopes);
    lines[at] = linesOf(compared, crude(compared), asking);
  }
  const groups = lines.flat();
  const corrected = adjustPValues(
    groups.map(({ ratio }) => ratio.pValue),
    { method: 'holm' },
  );
  const family = corrected.filter((pValue) => pValue !== null).length;
  groups.forEach((group, at) => {
    group.pCorrected = corrected[at] ?? null;
    if (group.ratio.pValue !== null) group.counts['pValue'] = group.ratio.pValue;
    if (group.pCorrected !== null) group.counts['pCorrected'] = group.pCorrected;
    Object.assign(group.counts, eventsNeeded(group, family, view.level));
  });
  return groups;
}

/** An exposure with its counts, and why it cannot be compared where it cannot. */
export function comparedOf(
  exposure: Exposure,
  scopes: LivesByScope,
): Compared & { readonly ground: readonly Ground[] } {
  const lives = scopes.where(exposure.codes);
  const kept = lives.held.lazily(() => lives.take(exposure.codes));
  const codes = kept();
  const counts = levelCounts(lives, codes, exposure);
  const ground = exposure.ranked.map(({ level }) => {
    if (counts.lives[level] === 0) return null;
    const side = Int8Array.from(codes, (code) => (code === level ? 1 : code === 0 ? 0 : 2));
    return commonGround(lives.ground, side, lives.lives.event);
  });
  const refused = ground.map((found) => (found === null ? 'no life carries it' : refusalOf(found)));
  return {
    ...{ exposure, lives, counts, refused, ground },
    get codes() {
      return kept();
    },
  };
}

type Ground = ReturnType<typeof commonGround> | null;

function linesOf(compared: ReturnType<typeof comparedOf>, crude: readonly Ratio[], { view }: Asking): RankedGroup[] {
  const { exposure, counts, ground } = compared;
  const adjusted = adjustedRatios(compared, view.level);
  return exposure.ranked.map((ranked, at): RankedGroup => {
    const ratio = adjusted[at] as RankedGroup['ratio'];
    const rate = (level: number) => levelRate(counts, level, view.level, view.axis);
    const name = rateName('failures', view.axis);
    return {
      ...{ compared, ranked, label: ranked.label, ratio, crude: crude[at] as RankedGroup['crude'] },
      pCorrected: null,
      counts: countsOf(compared, ranked.level, ground[at] ?? null),
      estimates: {
        [name]: rate(ranked.level),
        [`${name}Without`]: rate(0),
        crudeHazardRatio: boundedCrude(compared, ranked.level, (crude[at] as RankedGroup['crude']).estimate),
        hazardRatio: ratio.estimate,
        eValue: hiddenStrength(ratio),
      },
      notes: [],
      failing: new Set(),
    };
  });
}

function countsOf({ exposure, counts, lives }: Compared, level: number, ground: Ground): Record<string, number> {
  const unknown = exposure.levels.indexOf('unknown');
  const at = (column: Float64Array, place: number) => (place < 0 ? 0 : (column[place] as number));
  return {
    vehicles: at(counts.vehicles, level),
    ...{
      livesWithout: at(counts.lives, 0),
      failuresWithout: at(counts.failures, 0),
      milesWithout: at(counts.miles, 0),
    },
    livesUnknown: at(counts.lives, unknown),
    failuresUnknown: at(counts.failures, unknown),
    milesUnknown: at(counts.miles, unknown),
    livesNotApplicable: exposure.codes.length - lives.rows,
    ...(ground?.livesShare == null ? {} : { livesWithCommonGround: ground.livesShare * ground.lives }),
    ...(ground?.failuresShare == null ? {} : { failuresWithCommonGround: ground.failuresShare * ground.failures }),
  };
}

/** Too few for a ratio: exact bounds of the ratio of the crude rates stand in its place. */
function boundedCrude({ counts }: Compared, level: number, crude: Estimate): Estimate {
  const [withIt, without] = [counts.failures[level] as number, counts.failures[0] as number];
  const reason = tooFewFor(withIt, without);
  const miles = [counts.miles[level] as number, counts.miles[0] as number];
  if (reason === null || withIt + without === 0 || !miles.every((some) => some > 0)) return crude;
  const { lower, upper } = rateRatio({ events: [withIt, without], exposure: miles }, { level: crude.level });
  const method = 'exact bounds of the ratio of crude rates';
  return toEstimate({ value: null, lower, upper }, { level: crude.level, unit: 'ratio', method, reason });
}
