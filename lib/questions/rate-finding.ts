import type { Doubt, Estimate, Finding, Group, QuestionId } from '../../shared/finding.ts';
import { shortCautions } from '../../shared/cautions.ts';
import type { EventRate } from '../statistics/index.ts';
import type { Axis } from '../../shared/view.ts';
import { rateName } from './age-axis.ts';
import type { Asking } from './asking.ts';
import { compareRates, groupRates, ratiosToReference, type RateSettings } from './rates.ts';
import { countByGroup } from './curve-rows.ts';
import type { Comparison } from './comparison.ts';
import { verdictOnComparison, verdictOnOne, firmnessOfOne } from './firmness.ts';
import { comparedEvents, limitsOf, rateDoubts, type RateChecks } from './rate-doubts.ts';
import { rateEvidence, type RateEvidence } from './rate-evidence.ts';
import { sumByGroup, type TallyName } from './tally.ts';
import type { RateAnswer, RateWords } from './words/rate-answer.ts';
import type { Answer } from './words/emphasised.ts';

/** What makes a question about rates its own; everything else is the same for all of them. */
export interface RateQuestion {
  readonly id: QuestionId;
  readonly title: string;
  readonly events: TallyName & ('failures' | 'contaminated');
  readonly what: RateWords;
  /** Named counts of a group, from the tally. */
  readonly counts: Readonly<Record<string, TallyName>>;
  estimates(rate: EventRate | null, counts: Readonly<Record<string, number>>, at: GroupAt): Record<string, Estimate>;
  answer(asked: RateAnswer): Answer;
  doubts(groups: readonly Group[], asking: Asking, evidence: RateEvidence): (Doubt | null)[];
}

/** Where a group's further estimates come from. */
export interface GroupAt {
  readonly group: number;
  readonly evidence: RateEvidence;
  readonly level: number;
  readonly axis: Axis;
}

function groupsOf(
  question: RateQuestion,
  evidence: RateEvidence,
  rates: readonly (EventRate | null)[],
  settings: RateSettings,
  asking: Asking,
): Group[] {
  const { keys, vehicles: tally, wheelEnds } = evidence;
  const size = keys.groups.length;
  const column = (name: TallyName) => sumByGroup(tally, name, size);
  const events = column(question.events);
  const [lives, failures, miles] = [column('lives'), column('failures'), column('miles')];
  const years = column('months').map((months) => months / 12);
  const counted = Object.entries(question.counts).map(([name, from]) => [name, column(from)] as const);
  const vehicles = countByGroup(tally.group, size, () => true);
  const ratios = ratiosToReference(asking.view, keys.groups, tally, settings);
  return keys.groups.map(({ label, by }, group) => {
    const counts = Object.fromEntries(
      [...counted, ['vehicles', vehicles] as const, ['wheelEnds', wheelEnds] as const].map(([name, values]) => [
        name,
        values[group] as number,
      ]),
    );
    // A lives table that was opened need not tell the days.
    if (!Number.isNaN(years[group])) counts['wheelEndYears'] = years[group] as number;
    const rate = rates[group] ?? null;
    const estimates = question.estimates(rate, counts, { group, evidence, level: settings.level, axis: settings.axis });
    const ratio = ratios.get(group);
    const bare = {
      label,
      by: { ...by },
      lives: lives[group] as number,
      failures: failures[group] as number,
      miles: miles[group] as number,
    };
    const all = ratio ? { ...estimates, rateRatio: ratio } : estimates;
    const firmness = firmnessOfOne(
      events[group] as number,
      limitsOf({ ...bare, firmness: 'thin', counts, estimates: all }, rateName(question.events, settings.axis)),
    );
    return { ...bare, firmness, counts, estimates: all };
  });
}

/** A finding of rates: the same groups, doubts and verdict whatever is counted. */
export async function rateFinding(question: RateQuestion, asking: Asking): Promise<Finding> {
  const evidence = await rateEvidence(asking);
  const { view, words, source } = asking;
  const { keys, vehicles: tally } = evidence;
  const settings = { events: question.events, axis: view.axis, level: view.level };
  const rate = rateName(question.events, view.axis);
  const rates = groupRates(tally, keys.groups.length, settings);
  const groups = groupsOf(question, evidence, rates, settings, asking);
  const comparison = compareRates(view, keys.groups, tally, settings);
  const events = sumByGroup(tally, question.events, groups.length);
  const checks: RateChecks = {
    ...{ asking, evidence, groups, comparison, events: question.events },
    ...{ event: question.what.event, rate },
  };
  const doubts = rateDoubts(checks, question.doubts(groups, asking, evidence));
  const said = question.answer({
    ...{ view, words, what: question.what, groups, comparison, events: Array.from(events), rate },
  });
  const total = (name: 'lives' | 'failures' | 'miles') => groups.reduce((sum, group) => sum + group[name], 0);
  return {
    ...{ question: question.id, title: question.title, ...said },
    ...verdictOf(question, checks, events, comparison, doubts),
    settings: view,
    data: {
      ...source.account,
      files: [...source.account.files],
      lives: total('lives'),
      failures: total('failures'),
      miles: total('miles'),
    },
    ...{ groups, series: [], doubts, cautions: shortCautions },
  };
}

function verdictOf(
  { what }: RateQuestion,
  { groups, asking, rate }: RateChecks,
  events: Float64Array,
  comparison: Comparison | null,
  doubts: readonly Doubt[],
): Pick<Finding, 'firmness' | 'firmnessReason'> {
  const { firmness, reason } =
    asking.view.by.length === 0
      ? verdictOnOne({ failures: events[0] ?? 0, limits: limitsOf(groups[0], rate), event: what.event }, doubts)
      : verdictOnComparison(
          {
            failures: comparison ? comparedEvents(groups, events) : [],
            ...{ event: what.event, pValue: comparison?.pValue ?? null, ratio: comparison?.ratio ?? null },
          },
          doubts,
        );
  return { firmness, firmnessReason: reason };
}
