import { shownLimits } from '../../../shared/finding.ts';
import { measuredWords } from '../../../shared/measured.ts';
import type { Ratio } from '../causes/ratios.ts';
import type { OutcomeAsked } from '../causes/outcome.ts';
import type { DoseEvidence } from '../dose/dose-evidence.ts';
import type { Rounding } from '../dose/rounding.ts';
import { unitOf, valueText } from '../dose/value-window.ts';
import { chanceClause } from './chance-words.ts';
import { componentWords } from './component-words.ts';
import { emphasised, type Answer } from './emphasised.ts';
import { listed, percent, sentenceCase } from './share-words.ts';
import { count, range, ratioText, type Wording } from './wording.ts';

/** What happens to what: `seals leak`. */
const happens = ({ kind, component }: OutcomeAsked): string => {
  if (kind === 'any') return 'wheel ends fail';
  if (kind === 'lining') return 'linings are soaked';
  const { many, failure } = componentWords[component];
  return `${many} ${failure === 'leak' ? 'leak' : 'fail'}`;
};

export interface DoseAsked {
  readonly evidence: DoseEvidence;
  readonly words: Pick<Wording, 'system'>;
  readonly under: Ratio;
  readonly over: Ratio;
  readonly rounding: Rounding;
  readonly failures: readonly { readonly label: string; readonly failures: number }[];
}

/** How much does the measured value matter? Under and over the window against inside it. */
export function doseAnswer({ evidence, words: { system }, under, over, rounding, failures }: DoseAsked): Answer {
  const { quantity, window } = evidence;
  const text = (value: number) => valueText(value, quantity, system);
  const stretch = `${text(window.least)} to ${text(window.most)} ${unitOf(quantity, system)}`;
  const counts = `${listed(failures.map(({ label, failures: own }) => `${count(own)} ${label}`))}.`;
  const heap = `${percent(rounding.nominal)} of readings are exactly ${text((window.least + window.most) / 2)} ${unitOf(quantity, system)}.`;
  const told = [
    { words: 'under', ratio: under },
    { words: 'over', ratio: over },
  ].filter(({ ratio }) => ratio.estimate.value !== null);
  if (told.length === 0)
    return emphasised(
      `**Too few to compare** by ${measuredWords[quantity]}, window ${stretch}. Failures: ${counts}`,
      heap,
    );
  const says = told.map(({ words, ratio }, at) => {
    const times = `${ratioText(ratio.estimate.value as number)} times`;
    const limits = range(shownLimits(ratio.estimate), ratioText);
    const [often, place] =
      at === 0 ? [`**${times} as often**`, `${words} the window of ${stretch} as inside it`] : [times, `${words} it`];
    return `${often} ${place} ${limits}${chanceClause(ratio.pValue)}`;
  });
  return emphasised(
    `By ${measuredWords[quantity]}, what else is known taken into account, ${happens(evidence.asked)} ${listed(says)}.`,
    sentenceCase(`failures: ${counts}`),
    heap,
  );
}
