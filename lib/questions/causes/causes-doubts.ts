import type { Doubt } from '../../../shared/finding.ts';
import { earlyOf } from '../../../shared/view.ts';
import type { Asking } from '../asking.ts';
import { isSafetyCritical } from '../comparison.ts';
import { doubt, failingFirst, failsIf } from '../doubts/doubt.ts';
import { fewFailures } from '../doubts/few-failures.ts';
import { setAsideRows } from '../doubts/set-aside-rows.ts';
import { estimatedMiles } from '../doubts/shares.ts';
import { firmnessRule, pWords } from '../firmness.ts';
import { listed, sentenceCase } from '../words/share-words.ts';
import { count, counted, ratioText } from '../words/wording.ts';
import type { CausesEvidence } from './causes-evidence.ts';
import { commonGroundDoubt, lineName, otherSideDoubt, timeDoubt, unknownDoubt, type Lines } from './line-doubts.ts';
import { failuresOf, type RankedGroup } from './ranked-group.ts';
import { rankedOrder } from './ranked-order.ts';
import { shadowDoubt, type ShadowRanking } from './shadow-ranking.ts';

/** Doubts about the records as a whole: one that fails keeps every line from firm. */
export function recordDoubts({ source, view }: Asking, { estimated, rows, exposures }: CausesEvidence): Doubt[] {
  return failingFirst([
    setAsideRows(source.account),
    view.axis === 'miles' ? estimatedMiles({ some: estimated, all: rows.length }) : null,
    nothingRecorded(exposures),
  ]);
}

function nothingRecorded(exposures: CausesEvidence['exposures']): Doubt | null {
  const silent = exposures.filter(({ deviation, codes }) => deviation !== null && !codes.some((code) => code === 1));
  if (silent.length === 0) return null;
  const named =
    silent.length > 6 ? `${count(silent.length)} deviations` : listed(silent.map(({ deviation }) => deviation ?? ''));
  return doubt(
    'Never recorded',
    'holds',
    `No life carries ${named}: not recorded is not the same as not done.`,
    'the columns of the installation record that tell of them',
  );
}

/** All doubts, once the lines are complete; marks the lines that each keeps from firm. */
export function causesDoubts(
  asking: Asking,
  evidence: CausesEvidence,
  lines: Lines,
  shadows: ShadowRanking,
  records: readonly Doubt[],
): Doubt[] {
  const { words, view } = asking;
  const told = (ordered: Lines) => [
    otherSideDoubt(ordered),
    unknownDoubt(ordered),
    timeDoubt(ordered, words.age(earlyOf(view))),
  ];
  // What is found keeps lines from firm and so may change which stands first, of which the doubts speak.
  told(lines);
  if (records.some(({ state }) => state === 'fails')) lines.groups.forEach((group) => group.failing.add('Records'));
  const ordered = { ...lines, groups: rankedOrder(lines.groups) };
  const [first] = ordered.groups;
  return failingFirst([
    first ? fewFor(first) : null,
    ...told(ordered),
    commonGroundDoubt(ordered),
    manyRanked(ordered.groups),
    shadowDoubt(shadows),
    hiddenDoubt(first),
    criticalDoubt(ordered.groups),
    ...records,
    leftOutOf(evidence),
    adjustedFor(evidence),
  ]);
}

function fewFor(group: RankedGroup): Doubt {
  const [withIt, without] = failuresOf(group);
  const side = (label: string, failures: number) => ({ label: `${label} ${lineName(group)}`, failures });
  return fewFailures([side('with', withIt), side('without', without)], 'failure');
}

/** How many were asked at once, and how many of them would look like more than chance if none were. */
function manyRanked(groups: readonly RankedGroup[]): Doubt | null {
  const asked = groups.filter(({ ratio }) => ratio.pValue !== null);
  const [first] = asked;
  if (!first || asked.length < 2) return null;
  const raw = asked.filter(({ ratio }) => (ratio.pValue as number) < firmnessRule.firmPValue).length;
  const kept = asked.filter(({ pCorrected }) => (pCorrected ?? 1) < firmnessRule.firmPValue).length;
  const lost =
    (first.ratio.pValue as number) < firmnessRule.firmPValue && (first.pCorrected ?? 1) >= firmnessRule.firmPValue;
  const chance = asked.length * firmnessRule.firmPValue;
  return doubt(
    'Many comparisons',
    failsIf(lost),
    `${count(asked.length)} were compared at once: about ${ratioText(chance)} would pass p < 0.05 by chance alone; ${count(raw)} do, ${count(kept)} once that is allowed for (Holm). ${sentenceCase(lineName(first))}: ${pWords(first.ratio.pValue as number)} alone, ${pWords(first.pCorrected ?? 1)} allowed for.`,
    'asking of the few again, in records not yet looked at',
  );
}

function hiddenDoubt(first: RankedGroup | undefined): Doubt | null {
  const strength = first?.estimates['eValue'];
  if (!first || !strength || strength.value === null) return null;
  const { lower, value } = strength;
  const weak = lower !== null && lower > 1 && lower < 1.25;
  const limit =
    lower === null || lower <= 1 ? 'its limits already hold 1' : `${ratioText(lower)} would bring its limit there`;
  return doubt(
    'Hidden differences',
    weak ? 'cannot-tell' : 'holds',
    `Something not recorded would have to go with both ${lineName(first)} and failure by a ratio of ${ratioText(value)} each to bring the ratio to 1; ${limit}.`,
    'recording what crews think differs between such jobs',
  );
}

function criticalDoubt(groups: readonly RankedGroup[]): Doubt | null {
  const critical = groups.filter(({ compared }) => isSafetyCritical(compared.exposure.deviation));
  if (critical.length === 0) return null;
  const few = critical.filter((group) => failuresOf(group)[0] < firmnessRule.fairFailures);
  const cases = few.reduce((sum, group) => sum + failuresOf(group)[0], 0);
  return doubt(
    'Safety-critical',
    few.length > 0 ? 'cannot-tell' : 'holds',
    `Lock, torque and missing components are changed on mechanism, not on statistics. ${count(few.length)} such deviations have under ${firmnessRule.fairFailures} failures; their ${counted(cases, 'failed case')} are listed one by one beside them.`,
    'the mechanism and a few teardowns, not more statistics',
  );
}

function leftOutOf({ leftOut }: CausesEvidence): Doubt | null {
  const lives = (some: number) => counted(some, 'life', 'lives');
  const parts = [
    ...(leftOut.notReplacement > 0 ? [`${lives(leftOut.notReplacement)} that no job in these records began`] : []),
    ...(leftOut.unknownStart > 0 ? [`${lives(leftOut.unknownStart)} of unknown start`] : []),
    ...(leftOut.notWatched > 0 ? [`${lives(leftOut.notWatched)} not watched for a mile`] : []),
    ...(leftOut.estimated > 0 ? [`${lives(leftOut.estimated)} whose miles are estimated, as chosen`] : []),
  ];
  if (parts.length === 0) return null;
  return doubt('Left out', 'holds', `Not compared: ${listed(parts)}.`, 'service records from before');
}

function adjustedFor({ adjustment: { said } }: CausesEvidence): Doubt | null {
  if (said.length === 0) return null;
  return doubt('Taken into account', 'holds', `${sentenceCase(said.join('; '))}.`, 'fuller records of these columns');
}
