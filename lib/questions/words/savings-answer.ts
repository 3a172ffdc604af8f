import { shownLimits, type Estimate } from '../../../shared/finding.ts';
import { horizonOf } from '../../../shared/view.ts';
import { savedEstimate } from '../savings/saving-estimates.ts';
import { moneyOf } from '../savings/saving-cost.ts';
import type { SavingOf } from '../savings/saving-groups.ts';
import { componentWords } from './component-words.ts';
import { deviationSays } from './deviation-says.ts';
import { emphasised, type Answer } from './emphasised.ts';
import { moneySays } from './failure-cost-says.ts';
import { inWords, listed, percent, percentRange } from './share-words.ts';
import { range, significant } from './wording.ts';

const number = (value: number): string => significant(value, 2);
const said = (estimate: Estimate): string =>
  `${number(estimate.value as number)} ${range(shownLimits(estimate), number)}`;

/** Named with their shares in the answer itself; more are told beneath it. */
const mostInAnswer = 2;

/** What would fewer deviations save? Of 1,000 installations, a year, and of all failures; the assumption in words. */
export function savingsAnswer(of: SavingOf, event: string): Answer {
  const { plan, result, asking, lives } = of;
  if (lives.causes.rows.length === 0) return emphasised('**No lives** of known start match this choice.');
  const untold =
    plan.untold.length === 0
      ? ''
      : ` Of ${listed(plan.untold.map(({ code }) => `“${deviationSays(code)}”`))} no saving can be told: ${plan.untold[0]?.reason ?? ''}.`;
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
  // Those that save most by themselves are named first.
  const most = plan.steps
    .map((step, at) => ({ ...step, alone: result.alone[at]?.value.share ?? 0 }))
    .sort((a, b) => b.alone - a.alone);
  const steps = most.map(({ deviation, withIt, told, best, to }) => {
    const target = to === 'best-shop' ? (best ? best.withIt / best.told : 0) : to;
    return `“${deviationSays(deviation.code)}” from ${percent(withIt / told)} to ${percent(target)}`;
  });
  const few = steps.length <= mostInAnswer;
  const brought = few ? listed(steps) : `${inWords(steps.length)} deviations to ${targetsSay(of)}`;
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
  const first = few ? '' : ` Brought down: ${listed(steps)}.`;
  const noBest = plan.noBest
    ? ' No two shops here tell of enough jobs to have a best one: down to none at all is taken instead.'
    : '';
  return emphasised(
    `If what goes with ${plan.steps.length === 1 ? 'the deviation would go away with it' : 'these deviations would go away with them'}, bringing ${brought} would save ${main}${yearly}.${part}${untold}`,
    `${first}${moneySaid(of, event, of1000, year)}${noBest}`,
  );
}

/** What several deviations are brought down to, where each by itself is told beneath. */
function targetsSay({ plan: { steps }, asking: { view } }: SavingOf): string {
  const entered = steps.some(({ deviation }) => view.savingLevels[deviation.code] !== undefined);
  if (entered) return 'the shares entered';
  return steps.some(({ to }) => to === 'best-shop') ? 'the share of the best shop' : 'none at all';
}

/** What that comes to by the costs entered, of 1,000 and a year. */
function moneySaid({ cost }: SavingOf, event: string, of1000: Estimate, year: Estimate): string {
  if (cost === null) return '';
  const sums = (
    [
      [of1000, 'of 1,000 fitted'],
      [year, 'a year'],
    ] as const
  ).flatMap(([fewer, per]) => (fewer.value === null ? [] : [`${said(moneyOf(fewer, cost))} ${per}`]));
  if (sums.length === 0) return '';
  return ` At ${moneySays(cost.mean)} a ${event} that is ${listed(sums)}; costs are assumptions until entered.`;
}
