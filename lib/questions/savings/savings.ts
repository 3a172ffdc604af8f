import { shortCautions } from '../../../shared/cautions.ts';
import type { Doubt, Finding } from '../../../shared/finding.ts';
import type { Asking } from '../asking.ts';
import { verdictOnComparison, type Verdict } from '../firmness.ts';
import { componentWords } from '../words/component-words.ts';
import { savingsAnswer } from '../words/savings-answer.ts';
import { costOfFailure } from './saving-cost.ts';
import { savingDoubts } from './saving-doubts.ts';
import { savingResult } from './saving-draws.ts';
import { chanceOfNone } from './saving-estimates.ts';
import { carrying, criticalHere, savingGroups, type SavingOf } from './saving-groups.ts';
import { savingLives } from './saving-lives.ts';
import { savingPlan } from './saving-plan.ts';

/**
 * What would fewer deviations save? Failures fewer of 1,000 installations and a year, if chosen
 * deviations fell to a chosen level and what goes with them went away: jointly, adjusted for one another.
 */
export async function savings(asking: Asking): Promise<Finding> {
  const { view, source } = asking;
  const lives = await savingLives(asking);
  const plan = savingPlan(view, lives);
  const result = plan.steps.length === 0 ? null : await savingResult(asking, lives, plan.steps);
  const cost = result === null ? null : await costOfFailure(asking, lives);
  const of: SavingOf = { asking, lives, plan, result, cost };
  const event = eventOf(lives.causes.asked);
  const doubts = savingDoubts(of, event);
  const { firmness, reason } = verdict(of, event, doubts);
  const critical = criticalHere(of);
  const total = (column: Float64Array | Uint8Array) =>
    Array.from(column).reduce((sum: number, one: number) => sum + one, 0);
  return {
    ...{ question: 'savings', title: 'What would fewer deviations save?' },
    ...savingsAnswer(of, event),
    ...{ firmness, firmnessReason: reason, settings: { ...view, by: [] } },
    data: {
      ...source.account,
      files: [...source.account.files],
      lives: lives.causes.rows.length,
      failures: total(lives.causes.lives.event),
      miles: total(lives.causes.lives.miles),
    },
    groups: savingGroups(of),
    series: [],
    doubts,
    cautions: critical === null ? shortCautions : [critical, ...shortCautions],
  };
}

function eventOf({ kind, component }: SavingOf['lives']['causes']['asked']): string {
  if (kind === 'any') return 'failure';
  return kind === 'lining' ? 'soaked lining' : componentWords[component].failure;
}

/** By the failures with any of the chosen and those without; what is assumed keeps it from firm. */
function verdict({ lives, plan, result }: SavingOf, event: string, doubts: readonly Doubt[]): Verdict {
  if (result === null) return { firmness: 'too few', reason: 'no saving worked out' };
  const { failures, failuresWithout } = carrying(
    lives,
    plan.steps.map(({ deviation }) => deviation),
  );
  const pValue = chanceOfNone(result.together);
  const told = verdictOnComparison({ failures: [failures, failuresWithout], event, pValue, ratio: null }, doubts);
  if (told.firmness !== 'firm') return told;
  return { firmness: 'fair', reason: `${told.reason}; what would go with the deviations is assumed: fair at most` };
}
