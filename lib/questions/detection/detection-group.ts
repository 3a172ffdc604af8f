import { shownLimits, type Estimate, type Group } from '../../../shared/finding.ts';
import { horizonOf, type View } from '../../../shared/view.ts';
import { eventRate, type SurvivalCurve } from '../../statistics/index.ts';
import { ageAxes } from '../age-axis.ts';
import { noEstimate, toEstimate } from '../estimate.ts';
import { firmnessOfOne } from '../firmness.ts';
import { gather } from '../gather.ts';
import { failedByHorizon, lifeAtShare } from '../life-estimates.ts';
import { ended } from '../life-rows.ts';
import type { Wording } from '../words/wording.ts';
import { begunBy, type Begun } from './begun.ts';
import { detectionOf, type Detection } from './checked-lives.ts';
import type { DetectionEvidence } from './detection-evidence.ts';
import { foundBy, rateOfFinding } from './lag-alone.ts';
import { onsetLives } from './onset-lives.ts';

/** Lives of one group, or all of them, seen both ways. */
export interface Seen {
  readonly places: Int32Array;
  readonly found: Estimate;
  /** Age by which one in ten was found leaking. */
  readonly b10Found: Estimate;
  readonly begun: Begun;
  /** Had the last dry check of lives in grease missed the leak; null where none is in grease or no checks tell. */
  readonly lastMissed: Begun | null;
  readonly detection: Detection;
  /** Checks that say something; null where no inspections stand behind the lives. */
  readonly checks: number | null;
  readonly watched: number;
}

export interface SeenAbout {
  readonly view: View;
  readonly words: Wording;
  readonly curve: SurvivalCurve | undefined;
  readonly start: number | null;
}

export function seenBothWays(
  evidence: DetectionEvidence,
  places: Int32Array,
  { view, words, curve, start }: SeenAbout,
): Seen {
  const { lives, checks, hidden } = evidence;
  const inGrease = checks !== null && places.some((place) => hidden[place] === 1);
  const spans = checks?.first;
  const counted = (place: number) => (spans ? (spans[place + 1] as number) - (spans[place] as number) : 0);
  const about = { level: view.level, unit: 'share', method: '1 − product-limit' };
  return {
    places,
    found: curve
      ? failedByHorizon(curve, start, horizonOf(view), words)
      : noEstimate({ ...about, reason: 'no lives of known start' }),
    b10Found: curve
      ? lifeAtShare(curve, start, 0.1, words)
      : noEstimate({ ...about, unit: view.axis, reason: 'no lives of known start' }),
    begun: begunBy(onsetLives(evidence, places, false), view),
    lastMissed: inGrease
      ? begunBy(onsetLives(evidence, places, true), view, ', the last dry check in grease not believed')
      : null,
    detection: detectionOf(evidence, places, view.level),
    checks: spans ? places.reduce((sum, place) => sum + counted(place), 0) : null,
    watched: gather(lives.exposure, places).reduce((sum, one) => sum + one, 0),
  };
}

/** At which leaks of a group come to light; null where the record cannot tell. */
function findingRate({ detection: { delay }, checks, watched }: Seen): number | null {
  if (!delay || delay.reason !== null || checks === null || !(watched > 0)) return null;
  return rateOfFinding(delay, checks / watched);
}

/** Share that would be found by the horizon had leaks begun alike everywhere, with this group's looking alone. */
export function lagAlone(seen: Seen, all: Seen, view: View): Estimate {
  const about = {
    ...{ level: view.level, unit: 'share' },
    method: 'leaks begun as in all together, found as often as in this group; no interval',
  };
  const onset = all.detection.delay;
  if (!onset || onset.reason !== null)
    return noEstimate({ ...about, reason: all.detection.reason ?? 'the record of checks cannot tell' });
  const rate = findingRate(seen);
  if (rate === null)
    return noEstimate({ ...about, reason: seen.detection.reason ?? 'the record of checks cannot tell' });
  const parameters = { shape: onset.shape.value as number, scale: onset.scale.value as number };
  return toEstimate({ value: foundBy(parameters, rate, horizonOf(view)), lower: null, upper: null }, about);
}

export function detectionEstimates(seen: Seen, all: Seen, view: View): Record<string, Estimate> {
  return {
    foundByHorizon: seen.found,
    begunByHorizon: seen.begun.byHorizon,
    b10Found: seen.b10Found,
    b10Begun: seen.begun.b10,
    ...(seen.lastMissed ? { begunByHorizonLastCheckMissed: seen.lastMissed.byHorizon } : {}),
    ...(seen.checks === null ? {} : { checksMade: checksMade(seen, view) }),
    chanceACheckSees: chanceOf(seen, view),
    foundByHorizonLagAlone: lagAlone(seen, all, view),
  };
}

function checksMade({ checks, watched }: Seen, { level, axis }: View): Estimate {
  const { factor, rateUnit, nothingWatched } = ageAxes[axis];
  const about = { level, unit: rateUnit, method: 'checks that say dry or leaking, by what was watched', factor };
  if (!(watched > 0)) return noEstimate({ ...about, reason: nothingWatched });
  return toEstimate(eventRate({ events: checks ?? 0, exposure: watched }, { level }).rate, about);
}

function chanceOf({ detection: { delay, reason } }: Seen, { level }: View): Estimate {
  const about = {
    ...{ level, unit: 'share' },
    method: 'delay-time model of the record of checks: Weibull onset, one chance a check, one rate between checks',
  };
  if (!delay || reason !== null) return noEstimate({ ...about, reason: reason ?? 'the record of checks cannot tell' });
  return toEstimate(delay.chance, about, delay.chance.robust);
}

export function detectionGroup(
  evidence: DetectionEvidence,
  place: number,
  seen: Seen,
  estimates: Record<string, Estimate>,
): Group {
  const { lives, groups } = evidence;
  const { label, by } = groups[place] as DetectionEvidence['groups'][number];
  const failures = seen.places.reduce((sum, at) => sum + (lives.ended[at] === ended.failed ? 1 : 0), 0);
  const { delay } = seen.detection;
  return {
    ...{ label, by: { ...by }, lives: seen.places.length, failures },
    miles: gather(lives.exposureMiles, seen.places).reduce((sum, one) => sum + one, 0),
    firmness: firmnessOfOne(failures, shownLimits(seen.begun.byHorizon)),
    counts: {
      ...(seen.checks === null ? {} : { checks: seen.checks }),
      ...(delay ? { seenAgain: delay.seenAgain, missedAgain: delay.missedAgain } : {}),
    },
    estimates,
  };
}
