import type { Doubt } from '../../../shared/finding.ts';
import type { Asking } from '../asking.ts';
import { breathe } from '../breathe.ts';
import { doubt, failsIf } from '../doubts/doubt.ts';
import { meanFailureCost, shareBounds } from '../fitted/consequences.ts';
import { fittedLives, type FittedLives } from '../fitted/fitted-lives.ts';
import { ended } from '../life-rows.ts';
import { componentWords } from '../words/component-words.ts';
import { listed, percent } from '../words/share-words.ts';
import { counted } from '../words/wording.ts';
import { livesIf } from './renewal-doubts.ts';
import type { RenewalEvidence } from './renewal-evidence.ts';
import type { RenewalGroup } from './renewal-group.ts';
import { planOf, type Planning, type RenewalPlan } from './renewal-plan.ts';

/** Few draws do: what is asked is whether the answer stands. */
const draws = 200;

interface WhatIf {
  readonly asking: Asking;
  readonly evidence: RenewalEvidence;
  readonly main: RenewalGroup;
  readonly planning: Planning;
}

type Outcome = RenewalPlan | null;

/** The doubts that plan again under another assumption, of the group the answer leans on. */
export async function whatIfs(whatIf: WhatIf): Promise<Doubt[]> {
  const { asking, main } = whatIf;
  const parts = [costs, consequences, shapes, unknownRemovals, foundLate];
  const doubts: (Doubt | null)[] = [];
  for (const [done, part] of parts.entries()) {
    asking.onProgress?.({ done, of: parts.length, doing: `${main.group.label}: planning under other assumptions` });
    await breathe(asking.signal);
    doubts.push(part(whatIf));
  }
  return doubts.filter((one) => one !== null);
}

const again = ({ main, planning }: WhatIf, fit: FittedLives['used'], mean: number): RenewalPlan =>
  planOf(fit, main.plan.fits as FittedLives, {
    ...{ cost: { ...main.plan.cost, mean }, watched: main.plan.watchedTo },
    ...{ planning: { ...planning, draws }, also: [] },
  });

function says(outcome: Outcome, { asking: { words } }: WhatIf): string {
  if (!outcome) return 'no fit could be had';
  const age = outcome.reason === null ? outcome.plan?.age.value : null;
  return age == null ? `none is named (${outcome.reason ?? 'no fit'})` : `renewal at ${words.miles(age)}`;
}

/** Whether another assumption turns the answer: named or not, or miles outside the flat stretch and the limits. */
function turns(outcome: Outcome, { main: { plan: told } }: WhatIf): boolean {
  const named = told.reason === null;
  if ((outcome?.reason === null) !== named) return true;
  const age = outcome?.plan?.age.value;
  if (!named || age == null || !told.plan) return false;
  const { age: limits, flat } = told.plan;
  const [least, most] = [
    Math.min(limits.lower ?? 0, flat.from ?? 0),
    Math.max(limits.upper ?? Infinity, flat.to ?? Infinity),
  ];
  return age < least || age > most;
}

function costs(whatIf: WhatIf): Doubt | null {
  const { fits, cost } = whatIf.main.plan;
  if (!fits) return null;
  const [half, twice] = [again(whatIf, fits.used, cost.mean / 2), again(whatIf, fits.used, cost.mean * 2)];
  return doubt(
    'Costs entered',
    failsIf(turns(half, whatIf) || turns(twice, whatIf)),
    `The costs are entered, not read from the records. Did a failure cost half as much: ${says(half, whatIf)}; twice as much: ${says(twice, whatIf)}.`,
    'what renewals and failures cost this fleet',
  );
}

/** Failures that say nothing of lining or road call, bounded both ways. */
function consequences(whatIf: WhatIf): Doubt | null {
  const { asking, main, evidence } = whatIf;
  const { fits } = main.plan;
  const { liningCost, roadCallCost } = asking.view;
  const own = main.lives.consequences.lining.yes + main.lives.consequences.lining.no > 0 ? main.lives : evidence;
  const { lining, roadCall } = own.consequences;
  const untold = [
    ...(lining.unknown > 0 && liningCost > 0
      ? [`${counted(lining.unknown, 'failure')} say nothing of the lining`]
      : []),
    ...(roadCall.unknown > 0 && roadCallCost > 0
      ? [`${counted(roadCall.unknown, 'failure')} do not say who found them`]
      : []),
  ];
  if (!fits) return null;
  const settledBy = 'the lining and who found it written down with every failure';
  if (untold.length === 0)
    return doubt(
      'Consequences not told',
      'holds',
      'Every failure says whether the lining was soaked and who found it.',
      settledBy,
    );
  const [l, r] = [shareBounds(lining), shareBounds(roadCall)];
  const [least, most] = [
    again(whatIf, fits.used, meanFailureCost(asking.view, l[0], r[0])),
    again(whatIf, fits.used, meanFailureCost(asking.view, l[1], r[1])),
  ];
  return doubt(
    'Consequences not told',
    failsIf(turns(least, whatIf) || turns(most, whatIf)),
    `${listed(untold)}. Had none of those had it: ${says(least, whatIf)}; had all: ${says(most, whatIf)}.`,
    settledBy,
  );
}

/** One shape against early failures beside wear-out. */
function shapes(whatIf: WhatIf): Doubt | null {
  const { fits, cost } = whatIf.main.plan;
  if (!fits) return null;
  const settledBy = 'more failures, early and late';
  if (!fits.mixture)
    return doubt(
      'Early failures or one shape',
      'cannot-tell',
      'Too few failures to tell early failures and wear-out apart; one shape is taken for both.',
      settledBy,
    );
  const twoUsed = fits.used === fits.mixture;
  if (!twoUsed)
    return doubt(
      'Early failures or one shape',
      'holds',
      `Two kinds of failure, early and worn out, are not called for: ${fits.mixture.reason ?? 'the fit did not settle'}.`,
      settledBy,
    );
  const one = again(whatIf, fits.weibull, cost.mean);
  const { earlyShare } = fits.mixture.parameters;
  return doubt(
    'Early failures or one shape',
    failsIf(turns(one, whatIf)),
    `The lives call for ${percent(earlyShare.value)} that fail early beside those that wear out, and are planned so. Under one shape for all: ${says(one, whatIf)}.`,
    settledBy,
  );
}

/** The lives with other ends, fitted in the same shape. */
function refitted(whatIf: WhatIf, lives: RenewalGroup['lives']['fitted']): Outcome {
  const { main, planning } = whatIf;
  const two = main.plan.fits?.used.distribution === 'weibull-mixture';
  const fits = fittedLives(lives, planning.view, () => two);
  return typeof fits === 'string' ? null : again(whatIf, fits.used, main.plan.cost.mean);
}

function unknownRemovals(whatIf: WhatIf): Doubt | null {
  const { evidence, main, asking } = whatIf;
  const { many, one } = componentWords[asking.view.component];
  const gone = (place: number) => evidence.lives.ended[place] === ended.removedUnknown;
  const lives = main.lives.places.filter(gone).length;
  if (lives === 0 || !main.plan.fits) return null;
  const outcome = refitted(
    whatIf,
    livesIf(evidence, main.lives, (place) => (gone(place) ? { event: 1 } : null)),
  );
  return doubt(
    'Removed for no stated reason',
    failsIf(turns(outcome, whatIf)),
    `${counted(lives, one, many)} came off for no stated reason and count as not failed. Had all of them failed: ${says(outcome, whatIf)}.`,
    'the reason of those services',
  );
}

/** A leak is found later than it began; the bound puts every one right after its last clean check. */
function foundLate(whatIf: WhatIf): Doubt | null {
  const { evidence, main, asking } = whatIf;
  const { lives } = evidence;
  if (asking.view.component === 'bearing' || !main.plan.fits) return null;
  const { failure } = componentWords[asking.view.component];
  const settledBy = 'clean inspections written down more often';
  const failed = main.lives.places.filter((place) => lives.ended[place] === ended.failed);
  const told = failed.filter((place) => !Number.isNaN(lives.onsetLower[place]));
  if (told.length === 0)
    return doubt(
      'Found late',
      'cannot-tell',
      `No inspection tells how long a ${failure} had been there before it was found.`,
      settledBy,
    );
  const onset = new Set(told);
  const outcome = refitted(
    whatIf,
    livesIf(evidence, main.lives, (place) => (onset.has(place) ? { exit: lives.onsetLower[place] as number } : null)),
  );
  return doubt(
    'Found late',
    failsIf(turns(outcome, whatIf)),
    `A ${failure} is found after it began. Had each begun right after its last clean check: ${says(outcome, whatIf)}.`,
    settledBy,
  );
}
