import type { Doubt } from '../../../shared/finding.ts';
import type { UnitSystem } from '../../../shared/units.ts';
import type { Asking } from '../asking.ts';
import { doubt, failingFirst, failsIf } from '../doubts/doubt.ts';
import { fewFailures } from '../doubts/few-failures.ts';
import { setAsideRows } from '../doubts/set-aside-rows.ts';
import { percent, sentenceCase } from '../words/share-words.ts';
import { count, counted } from '../words/wording.ts';
import type { DoseEvidence } from './dose-evidence.ts';
import { muchRounded, roundingOf } from './rounding.ts';
import { sideOf, unitOf, valueText } from './value-window.ts';

export function doseDoubts({ source, words }: Asking, evidence: DoseEvidence, event: string): Doubt[] {
  return failingFirst([
    fewFailures(failuresBySide(evidence), event),
    roundedReadings(evidence, words.system),
    untoldValues(evidence),
    otherWindows(evidence),
    setAsideRows(source.account),
    takenIntoAccount(evidence),
  ]);
}

export function failuresBySide({ value, window, event }: DoseEvidence): { label: string; failures: number }[] {
  const failures = (side: string) =>
    value.reduce((sum, own, at) => sum + (sideOf(window, own) === side ? (event[at] as number) : 0), 0);
  return ['inside', 'under', 'over'].map((side) => ({ label: `${side} the window`, failures: failures(side) }));
}

/** A heap at one value tells that the value aimed at was written down, and what was really there is not known. */
function roundedReadings(evidence: DoseEvidence, system: UnitSystem): Doubt {
  const { quantity } = evidence;
  const { readings, distinct, nominal, mostCommon, mostCommonShare } = roundingOf(evidence);
  const heaped = Math.max(nominal, mostCommonShare) > muchRounded;
  const says = `${percent(nominal)} of ${count(readings)} readings are exactly the middle of the window; the commonest, ${valueText(mostCommon, quantity, system)} ${unitOf(quantity, system)}, is ${percent(mostCommonShare)} of them; ${counted(distinct, 'value')} in all.`;
  const heap = heaped
    ? ' So many alike are written to the nominal, not read: what was there is hidden, and differences by the value look smaller than they are.'
    : '';
  return doubt('Rounded readings', failsIf(heaped), `${says}${heap}`, 'readings written down as the tool shows them');
}

function untoldValues({ untold, value }: DoseEvidence): Doubt {
  const all = untold + value.length;
  const share = all === 0 ? 0 : untold / all;
  return doubt(
    'Not measured',
    share > 0.5 ? 'fails' : untold > 0 ? 'cannot-tell' : 'holds',
    untold === 0
      ? 'Every job that could be looked at wrote the value down.'
      : `${percent(share)} of lives (${count(untold)}) have no such value, or no window for it; jobs that measure may differ from those that do not.`,
    'the value on every installation record',
  );
}

function otherWindows({ otherWindow, leftOut }: DoseEvidence): Doubt | null {
  const parts = [
    ...(otherWindow > 0 ? [`${counted(otherWindow, 'life', 'lives')} judged by another window`] : []),
    ...(leftOut.notReplacement > 0 ? [`${counted(leftOut.notReplacement, 'life', 'lives')} that no job began`] : []),
    ...(leftOut.unknownStart > 0 ? [`${counted(leftOut.unknownStart, 'life', 'lives')} of unknown start`] : []),
    ...(leftOut.estimated > 0 ? [`${counted(leftOut.estimated, 'life', 'lives')} of estimated miles, as chosen`] : []),
  ];
  if (parts.length === 0) return null;
  return doubt(
    'Left out',
    'holds',
    `${sentenceCase(parts.join('; '))} are not looked at.`,
    'a filter by hub build or role',
  );
}

function takenIntoAccount({ adjustment }: DoseEvidence): Doubt | null {
  if (adjustment.said.length === 0) return null;
  return doubt(
    'Taken into account',
    'holds',
    `${sentenceCase(adjustment.said.join('; '))}.`,
    'more of the record filled in',
  );
}
