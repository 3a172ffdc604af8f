import { shownLimits } from '../../../shared/finding.ts';
import { isSafetyCritical } from '../comparison.ts';
import { mechanisms, type Timing } from '../words/mechanism-words.ts';
import { sentenceCase } from '../words/share-words.ts';
import { count, counted, range, ratioText, type Wording } from '../words/wording.ts';
import { mostCases, type CriticalCases } from './critical-cases.ts';
import { otherSideVerdict } from './other-side-verdict.ts';
import type { RankedGroup } from './ranked-group.ts';
import type { Beside } from './rest-of-ranking.ts';
import { changesOverTime, observedTiming } from './timing.ts';

const timingWords: Readonly<Record<Timing, string>> = {
  early: 'soon after the job',
  throughout: 'throughout life',
  later: 'later in life',
};

/** What is to be said of one line alone: mechanism and timing, the other side, what one ratio hides, its cases. */
export function lineNotes(
  group: RankedGroup,
  beside: Beside | undefined,
  cases: CriticalCases | undefined,
  early: number,
  words: Wording,
): string[] {
  return [
    ...mechanismNote(group, beside),
    ...(beside ? [...timeNotes(group, beside, early, words), ...otherSideNote(group, beside)] : []),
    ...perThousandNote(group),
    ...caseNotes(group, cases, words),
  ];
}

function mechanismNote({ compared, ratio }: RankedGroup, beside: Beside | undefined): string[] {
  const mechanism = mechanisms[compared.exposure.deviation ?? ''];
  if (!mechanism) return [];
  const expected = `${sentenceCase(mechanism.does)} (engineering judgement, not a finding). It would tell ${timingWords[mechanism.timing]}`;
  if (!beside || ratio.estimate.value === null) return [`${expected}.`];
  const seen = observedTiming(beside.split);
  if (seen === 'cannot-tell') return [`${expected}; whether it does cannot be told yet.`];
  const agrees = seen === mechanism.timing;
  return [`${expected}; it is seen ${timingWords[seen]}, which ${agrees ? 'agrees' : 'does not agree'}.`];
}

/** A later ratio under 1 is never read as protection. */
function timeNotes({ ratio }: RankedGroup, { split }: Beside, early: number, words: Wording): string[] {
  if (ratio.estimate.value === null || !changesOverTime(split)) return [];
  const { value: first } = split.early;
  const { value: then } = split.later;
  if (first === null || then === null) return [];
  const at = words.age(early);
  const told = `The ratio is ${ratioText(first)} up to ${at} and ${ratioText(then)} after: the one ratio is a mean of the two.`;
  if (then >= 1 || first <= then) return [told];
  return [
    `${told} A later ratio below 1 may be depletion of the weak: those it would have failed had failed before. It is no sign that the deviation does good.`,
  ];
}

function otherSideNote({ ratio }: RankedGroup, { vehicle, axle }: Beside): string[] {
  if (ratio.estimate.value === null) return [];
  const verdict = otherSideVerdict(ratio, vehicle.ratio);
  const { value } = vehicle.ratio.estimate;
  const pairs = `${counted(axle.pairs, 'axle')} with the two sides unlike`;
  if (value === null) return [`Other side: nothing to go by within vehicles (${pairs}).`];
  const said = `within the same vehicle, where driver, duty and road are shared, the ratio is ${ratioText(value)} ${range(shownLimits(vehicle.ratio.estimate), ratioText)}, by ${counted(vehicle.pairs, 'failure')} beside an unlike life; ${pairs}`;
  const word = {
    agrees: 'it agrees',
    disagrees:
      'it disagrees with the adjusted ratio, so something that vehicles differ in goes with the deviation and with failures',
    'cannot-tell': 'too wide to agree or disagree',
  }[verdict];
  return [`Other side: ${said}; ${word}.`];
}

function perThousandNote({ estimates }: RankedGroup): string[] {
  const excess = estimates['excessFailuresPerThousand'];
  if (!excess || excess.value === null) return [];
  const more = excess.value >= 0 ? 'more' : 'fewer';
  const size = (value: number) => ratioText(Math.abs(value));
  const { lower, upper } = shownLimits(excess);
  const limits = lower === null || upper === null ? '' : ` (${ratioText(lower)} to ${ratioText(upper)})`;
  return [
    `Of 1,000 installations where it can exist, ${size(excess.value)} ${more} had failed by the horizon than the model expects without it${limits}.`,
  ];
}

function caseNotes(group: RankedGroup, cases: CriticalCases | undefined, words: Wording): string[] {
  const { deviation } = group.compared.exposure;
  if (!cases || !isSafetyCritical(deviation)) return [];
  const rule = 'Safety-critical: such a step is changed on mechanism, not on statistics, however few the cases.';
  const list = cases.listed.map(({ unitId, position, mode, miles, endId }) => {
    const age = Number.isNaN(miles) ? '' : ` after ${words.miles(miles)}`;
    return `vehicle ${unitId}, axle ${position}: ${mode}${age} (${endId})`;
  });
  if (list.length === 0) return [`${rule} No failed case is recorded.`];
  const more = cases.failed > mostCases ? `; the first ${mostCases} of ${count(cases.failed)}` : '';
  return [`${rule} ${counted(cases.failed, 'failed case')}${more}: ${list.join('; ')}.`];
}
