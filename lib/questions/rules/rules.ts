import { shortCautions } from '../../../shared/cautions.ts';
import { shownLimits, type Doubt, type Estimate, type Finding, type Group } from '../../../shared/finding.ts';
import type { Asking } from '../asking.ts';
import { breathe } from '../breathe.ts';
import type { Pair } from '../comparison.ts';
import { doubt, failingFirst, failsIf } from '../doubts/doubt.ts';
import { fewFailures } from '../doubts/few-failures.ts';
import { leftOut } from '../doubts/left-out.ts';
import { setAsideRows } from '../doubts/set-aside-rows.ts';
import { firmnessOfOne, verdictOnOne } from '../firmness.ts';
import type { GroupKey } from '../group-keys.ts';
import { componentWords } from '../words/component-words.ts';
import { rulesAnswer, stripOf, type Strip } from '../words/rules-answer.ts';
import { ratioOf, shareOf } from './reading-numbers.ts';
import { readings, type Reading, type RuleEvidence } from './readings.ts';
import { pairOf, rulesEvidence } from './rules-evidence.ts';

/**
 * Does the answer depend on a choice? The headline (the share failed by the horizon or, where groups
 * are compared, their adjusted ratio) under every defensible rule, a rule a line: where all lie
 * together no choice made the answer.
 */
export async function rules(asking: Asking): Promise<Finding> {
  const { view, signal, onProgress } = asking;
  const given = await rulesEvidence(asking);
  const pair = pairOf(given, view);
  const read = readings(given);
  const groups: Group[] = [];
  for (const [done, reading] of read.entries()) {
    onProgress?.({ done, of: read.length, doing: reading.rule });
    await breathe(signal);
    const share = shareOf(given, reading, asking);
    const ratio = pair && (await ratioOf(given, reading, pair, asking));
    groups.push(groupOf(given, reading, share, ratio));
  }
  return findingOf(asking, given, groups, pair);
}

function groupOf({ evidence }: RuleEvidence, reading: Reading, share: Estimate, ratio: Estimate | null): Group {
  const failures = reading.event.reduce((sum, one) => sum + one, 0);
  const miles = reading.places.reduce((sum, place) => sum + (evidence.lives.exposureMiles[place] as number), 0);
  return {
    ...{ label: reading.rule, by: { rule: reading.rule }, lives: reading.places.length, failures, miles },
    firmness: firmnessOfOne(failures, shownLimits(ratio ?? share)),
    counts: {},
    estimates: { ...(ratio ? { hazardRatio: ratio } : {}), failedByHorizonHadNoneBeenRenewed: share },
  };
}

function findingOf(asking: Asking, given: RuleEvidence, groups: Group[], pair: Pair | null): Finding {
  const { view, words, source } = asking;
  const { evidence } = given;
  const name = pair ? 'hazardRatio' : 'failedByHorizonHadNoneBeenRenewed';
  const strip = stripOf(groups, name);
  const thing = componentWords[view.component];
  const [first] = groups as [Group];
  const { failures, lives, miles } = first;
  const doubts = failingFirst([
    choiceDoubt(strip),
    fewFailures([{ label: first.label, failures }], thing.failure),
    setAsideRows(source.account),
    leftOut(evidence.leftOut),
  ]);
  const { firmness, reason } = verdictOnOne(
    { failures, limits: shownLimits(first.estimates[name] as Estimate), event: thing.failure },
    doubts,
  );
  const keys = pair && ([evidence.groups[pair.compared], evidence.groups[pair.reference]] as [GroupKey, GroupKey]);
  const compares = evidence.by.length > 0;
  return {
    ...{ question: 'rules', title: 'Does the answer depend on a choice?' },
    ...rulesAnswer({ view, words, thing, strip, failures, lives, pair: keys, compares }),
    ...{ firmness, firmnessReason: reason, settings: view },
    data: { ...source.account, files: [...source.account.files], lives, failures, miles },
    ...{ groups, series: strip ? [stripSeries(strip)] : [], doubts, cautions: shortCautions },
  };
}

function choiceDoubt(strip: Strip | null): Doubt {
  const settledBy = 'records that leave no choice: removals with their reason, checks before removals, odometers';
  if (!strip)
    return doubt('Choice of rule', 'cannot-tell', 'Too few failures to hold rules against each other.', settledBy);
  const detail = strip.hangs ?? `No rule moves the answer outside its limits as the records are read.`;
  return doubt('Choice of rule', failsIf(strip.hangs !== null), detail, settledBy);
}

/** One line of the strip a rule, in the order of the groups. */
function stripSeries({ told, name }: Strip): Finding['series'][number] {
  const estimates = told.map(({ estimates: own }) => own[name] as Estimate);
  return {
    ...{ name: 'strip', group: name },
    columns: {
      value: estimates.map(({ value }) => value),
      lower: estimates.map((one) => shownLimits(one).lower),
      upper: estimates.map((one) => shownLimits(one).upper),
    },
  };
}
