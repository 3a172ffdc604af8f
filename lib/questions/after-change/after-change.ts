import { shortCautions } from '../../../shared/cautions.ts';
import type { Finding } from '../../../shared/finding.ts';
import type { Asking } from '../asking.ts';
import { outcomeAsked } from '../causes/outcome.ts';
import { afterChangeAnswer } from '../words/after-change-answer.ts';
import { componentWords } from '../words/component-words.ts';
import { listed } from '../words/share-words.ts';
import { changeDoubts } from './change-doubts.ts';
import { changeEvidence, dayNumber, dayText, type ChangeEvidence } from './change-evidence.ts';
import { changeGroups, whereChanged } from './change-groups.ts';
import { cellOf } from './change-sides.ts';
import { changeVerdict } from './change-verdict.ts';
import { guardSeries } from './guards.ts';
import { judgedLives, type JudgedLives } from './judged.ts';
import { judgedChange } from './judged-change.ts';
import { planSeries } from './plan.ts';
import { prevalenceSeries } from './prevalences.ts';
import { runningSumSeries } from './running-sum.ts';
import { sayWhenAndWhere, type Unjudged } from './say-when-and-where.ts';

/**
 * Did the change work? Lives by their day of installation, before and after a change, at ages both
 * reach, against other shops over the same time and against the same contrast where nothing changed.
 */
export async function afterChange(asking: Asking): Promise<Finding> {
  const { view, source } = asking;
  const evidence = await changeEvidence(asking);
  const base = {
    ...({ question: 'after-change', title: 'Did the change work?' } as const),
    cautions: shortCautions,
    settings: { ...view, by: [] },
    data: {
      ...source.account,
      files: [...source.account.files],
      lives: evidence.rows.length,
      failures: evidence.event.reduce((sum, one) => sum + one, 0),
      miles: evidence.miles.reduce((sum, one) => sum + one, 0),
    },
  };
  const change = await judgedChange(asking);
  const trouble = troubleOf(asking, evidence);
  if (trouble !== null) return { ...base, ...sayWhenAndWhere(evidence, trouble) };
  if (change === null) return { ...base, ...sayWhenAndWhere(evidence, unasked) };
  const judged = await judgedLives(asking, evidence, change);
  const event = eventOf(asking);
  const doubts = changeDoubts(judged, event);
  const { firmness, reason } = changeVerdict(judged, event, doubts);
  return {
    ...base,
    ...afterChangeAnswer(judged),
    ...{ firmness, firmnessReason: reason, groups: changeGroups(judged), series: seriesOf(judged), doubts, change },
  };
}

const asks = (what: string, first: string): Unjudged => ({
  says: `**Say when and where**: ${what}. Give the first day on which parts were fitted the new way and the shops that did so`,
  first,
  toChoose: true,
});
const unasked = asks(
  'no change is asked for yet',
  'the day and the shops, or a change that was written down before it was made',
);

/** What is wrong with the change asked for, so that it cannot be judged; null where nothing is. */
function troubleOf({ view }: Asking, { shops, followedTo, rows }: ChangeEvidence): Unjudged | null {
  const { change, changedShops } = view;
  if (rows.length === 0) return asks('no lives of known start and day match this choice', 'a wider choice of lives');
  if (change === null) return changedShops.length === 0 ? null : asks('the shops are given, the day is not', 'the day');
  if (changedShops.length === 0) return asks('the day is given, the shops are not', 'the shops');
  const unknown = changedShops.filter((shop) => !shops.includes(shop));
  if (unknown.length > 0)
    return asks(`nothing here was fitted by ${listed(unknown.map((shop) => `“${shop}”`))}`, 'shops of these records');
  if (dayNumber(change) < followedTo) return null;
  return {
    says: `**Too early to tell**: lives are followed to ${dayText(followedTo)}, and the change is of ${change}`,
    first: 'records of a time after the change',
    toChoose: false,
  };
}

function eventOf({ view }: Asking): string {
  const { kind, component } = outcomeAsked(view);
  if (kind === 'any') return 'failure';
  return kind === 'lining' ? 'soaked lining' : componentWords[component].failure;
}

function seriesOf({ evidence, sides, asking, sum, guards, plan }: JudgedLives): Finding['series'] {
  const cells = [cellOf(sides, 1, 0), cellOf(sides, 1, 1)] as const;
  return [
    ...prevalenceSeries(evidence.deviations, cells, asking.view.level),
    ...(sum ? runningSumSeries(sum) : []),
    ...guardSeries(guards),
    ...(plan ? [planSeries(plan, whereChanged)] : []),
  ];
}
