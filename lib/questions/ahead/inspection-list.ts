import type { LifeList } from '../../../shared/finding.ts';
import type { Asking } from '../asking.ts';
import { componentWords } from '../words/component-words.ts';
import { percent } from '../words/share-words.ts';
import { count } from '../words/wording.ts';
import type { AheadEvidence } from './ahead-evidence.ts';
import type { AheadForecast } from './forecast.ts';
import { namedLives } from './named-lives.ts';

const mostListed = 40;

/** The running lives with the highest chance to fail ahead; none of the others is cleared by it. */
export async function inspectionList(
  evidence: AheadEvidence,
  { chance }: AheadForecast,
  asking: Asking,
): Promise<LifeList | null> {
  const ordered = evidence.running
    .filter((place) => (chance[place] as number) > 0)
    .sort((a, b) => (chance[b] as number) - (chance[a] as number) || a - b);
  if (ordered.length === 0) return null;
  const places = ordered.subarray(0, mostListed);
  const total = ordered.reduce((sum, place) => sum + (chance[place] as number), 0);
  const held = places.reduce((sum, place) => sum + (chance[place] as number), 0);
  const { many, failure } = componentWords[asking.view.component];
  const lives = await namedLives(evidence, places, asking, (place) => ({
    ...{ aheadMiles: evidence.aheadMiles[place] as number, chance: chance[place] as number, kind: null },
  }));
  const highest = chance[places[0] as number] as number;
  return {
    ...{ name: 'inspection', lives },
    says: `The ${count(places.length)} running ${many} with the highest chance to fail ahead, told by axle role and miles alone. Even the highest is ${percent(highest)}, and these hold ${percent(held / total)} of the ${failure}s expected: the others have the rest. No list clears a wheel end that is not on it.`,
  };
}
