import { shownLimits, type Estimate } from '../../../shared/finding.ts';
import { horizonOf } from '../../../shared/view.ts';
import { savedEstimate } from '../savings/saving-estimates.ts';
import type { SavingOf } from '../savings/saving-groups.ts';
import { componentWords } from './component-words.ts';
import { emphasised, type Answer } from './emphasised.ts';
import { listed, percent, percentRange } from './share-words.ts';
import { range, significant } from './wording.ts';

const number = (value: number): string => significant(value, 2);
const said = (estimate: Estimate): string =>
  `${number(estimate.value as number)} ${range(shownLimits(estimate), number)}`;

/** What would fewer deviations save? Of 1,000 installations, a year, and of all failures; the assumption in words. */
export function savingsAnswer(of: SavingOf, event: string): Answer {
  const { plan, result, asking, lives } = of;
  if (lives.causes.rows.length === 0) return emphasised('**No lives** of known start match this choice.');
  const untold =
    plan.untold.length === 0
      ? ''
      : ` Of ${listed(plan.untold.map(({ code }) => `“${code.replaceAll('-', ' ')}”`))} no saving can be told: ${plan.untold[0]?.reason ?? ''}.`;
  if (result === null)
    return emphasised(
      plan.byNumbers
        ? '**No deviation surely goes with more failures** here, so that none was taken. Name those that could be made rarer to see what that might save.'
        : `**Too few to tell**.${untold}`,
    );
  const { level } = asking.view;
  const of1000 = savedEstimate(result.together, 'perThousand', level, '');
  const year = savedEstimate(result.together, 'perYear', level, '');
  const share = savedEstimate(result.together, 'share', level, '');
  const steps = plan.steps.map(({ deviation, withIt, told, best, to }) => {
    const target = to === 'best-shop' ? (best ? best.withIt / best.told : 0) : to;
    return `“${deviation.code.replaceAll('-', ' ')}” from ${percent(withIt / told)} to ${percent(target)}`;
  });
  const shown = steps.length > 4 ? [...steps.slice(0, 3), `${steps.length - 3} more`] : steps;
  const { many } = componentWords[lives.causes.asked.component];
  const by = asking.words.age(horizonOf(asking.view));
  const main =
    of1000.value === null
      ? `by ${by} it cannot be told`
      : `**${said(of1000)} ${event}s of 1,000 ${many} fitted**, by ${by}`;
  const yearly = year.value === null ? '' : `, and **${said(year)} a year** at the rate of the last two years`;
  const part =
    share.value === null
      ? ''
      : ` That is ${percent(share.value)} ${percentRange(shownLimits(share), share.value)} of the ${event}s on record.`;
  return emphasised(
    `If what goes with the deviation would go away with it, bringing ${listed(shown)} would save ${main}${yearly}.${part}${untold}`,
  );
}
