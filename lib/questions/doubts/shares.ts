import type { Doubt } from '../../../shared/finding.ts';
import { percent } from '../words/share-words.ts';
import { count } from '../words/wording.ts';
import { doubt, failsIf } from './doubt.ts';

/** Some lives of all, and what is said of them. */
export interface Share {
  readonly some: number;
  readonly all: number;
}

const shareOf = ({ some, all }: Share): number => (all > 0 ? some / all : 0);

/** Above these shares a weakness of the records may have made the answer. */
const most = { estimated: 0.3, inferred: 0.2, unplaced: 0.05, unknownStart: 0.25 };

/** Lives whose miles were worked out from other readings of the vehicle. */
export function estimatedMiles(lives: Share): Doubt {
  const share = shareOf(lives);
  return doubt(
    'Estimated miles',
    failsIf(share > most.estimated),
    lives.some === 0
      ? 'Every life begins and ends at miles that were written down.'
      : `${percent(share)} of lives begin or end at miles worked out from other readings.`,
    'odometer readings on the services and failures without miles',
  );
}

/** Failures that no failure row tells of, read from a service done for failure. */
export function inferredFailures(failures: Share): Doubt | null {
  if (failures.some === 0) return null;
  const share = shareOf(failures);
  return doubt(
    'Failures without a failure row',
    failsIf(share > most.inferred),
    `${percent(share)} of failures (${count(failures.some)}) are read from a service done because of a failure.`,
    'the failure reports of those services',
  );
}

/** Failures found where no watched life stands behind them, so that they count in no rate. */
export function unplacedEpisodes(episodes: Share): Doubt | null {
  if (episodes.some === 0) return null;
  const share = shareOf(episodes);
  const outside = `${count(episodes.some)} ${episodes.some === 1 ? 'lies' : 'lie'} outside any life that was watched and ${episodes.some === 1 ? 'counts' : 'count'} in no rate.`;
  return doubt(
    'Failures not placed',
    failsIf(share > most.unplaced),
    `Of all ${count(episodes.all)} failures ${outside}`,
    'services and readings that place them',
  );
}

/** Lives without an age: they count in rates and cannot stand in a life curve. */
export function unknownStarts(lives: Share, many: string): Doubt | null {
  if (lives.some === 0) return null;
  const share = shareOf(lives);
  return doubt(
    'Unknown starts',
    failsIf(share > most.unknownStart),
    `${percent(share)} of ${many} (${count(lives.some)}) were fitted nobody knows when; no curve can hold them.`,
    'service records from before, or the miles at which vehicles were bought',
  );
}
