import type { Doubt } from '../../../shared/finding.ts';
import { doubt } from '../doubts/doubt.ts';
import { gather } from '../gather.ts';
import { counted } from '../words/wording.ts';
import type { CausesEvidence } from './causes-evidence.ts';
import { someLives } from './compared-lives.ts';
import { sampledVehicles } from './sampled-vehicles.ts';

/** Beyond twice so many lives a ranking of about so many comes first, within seconds. */
const firstLookLives = 100_000;

/** The evidence of whole vehicles drawn at random; null where all the lives are ranked as fast. */
export function sampledEvidence(evidence: CausesEvidence): CausesEvidence | null {
  const { rows, lives, exposures, year, build } = evidence;
  if (rows.length <= 2 * firstLookLives) return null;
  const places = sampledVehicles(lives.cluster, firstLookLives);
  if (places === null) return null;
  const some = someLives(lives, places);
  const { covariates, strata, cluster } = some;
  return {
    ...evidence,
    rows: gather(rows, places),
    lives: some,
    exposures: exposures.map((exposure) => ({ ...exposure, codes: gather(exposure.codes, places) })),
    adjustment: { ...evidence.adjustment, covariates, strata, cluster },
    year: { ...year, codes: gather(year.codes, places) },
    build: { ...build, codes: gather(build.codes, places) },
  };
}

export const firstLookDoubt = (some: CausesEvidence, all: CausesEvidence): Doubt =>
  doubt(
    'First look',
    'cannot-tell',
    `Over ${counted(some.rows.length, 'life', 'lives')} of whole vehicles drawn from ${counted(all.rows.length, 'life', 'lives')}; the ranking over all of them is under way.`,
    'waiting for it',
  );
