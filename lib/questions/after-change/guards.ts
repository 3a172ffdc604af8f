import { components, type FailureMode } from '../../../shared/vocabulary.ts';
import { shownLimits, type Series } from '../../../shared/finding.ts';
import type { Asking } from '../asking.ts';
import type { Ratio } from '../causes/ratios.ts';
import { modeCode } from '../columns/life-columns.ts';
import { changeEvidence, type ChangeEvidence } from './change-evidence.ts';
import { changeSides, type ChangeSides } from './change-sides.ts';
import { contrast, type Cohort } from './contrast.ts';

/** A failure that a change must not make more frequent, before and after. */
export interface Guard {
  readonly name: string;
  readonly cohorts: readonly [Cohort, Cohort];
  /** After over before, like for like; no value where too few. */
  readonly ratio: Ratio;
}

/** A job that comes back so soon was not done right, or not on the right part. */
export const comebackDays = 90;

/** Bearing failures and hot hubs found at the wheel ends of seals, and jobs that came back, where the change was made. */
export async function guards(
  asking: Asking,
  evidence: ChangeEvidence,
  sides: ChangeSides,
  day: number,
): Promise<Guard[]> {
  const { view } = asking;
  const ofSeals = evidence.asked.kind === 'component' && evidence.asked.component === 'seal' && view.mode === null;
  const seals = ofSeals
    ? evidence
    : await changeEvidence({ ...asking, view: { ...view, component: 'seal', outcome: 'component', mode: null } });
  const own = ofSeals ? sides : changeSides(seals, day, view.changedShops);
  const told = (name: string, counted: ChangeEvidence): Guard => {
    const { changed, afterBefore } = contrast(counted, {
      side: own.side.map((side) => (side === 1 ? 1 : -1)),
      after: own.after,
      level: view.level,
    });
    return { name, cohorts: changed, ratio: afterBefore };
  };
  return [
    told('bearing failures', await firstOf(asking, seals, components.bearing.modes)),
    told('hot hubs', await firstOf(asking, seals, ['hot-hub'])),
    ...(seals.exitDays.some(Number.isNaN) ? [] : [told(`comebacks within ${comebackDays} days`, comebacksOf(seals))]),
  ];
}

/** The same lives, ended by the first failure of some modes that was found in each. */
async function firstOf(
  { view, signal }: Asking,
  seals: ChangeEvidence,
  modes: readonly FailureMode[],
): Promise<ChangeEvidence> {
  const found = await seals.lives.outcomes(signal);
  const codes = new Set(modes.map(modeCode));
  const first = new Map<number, number>();
  for (let at = 0; at < found.rows; at++) {
    if (!codes.has(found.mode[at] as number)) continue;
    const [life, age] = [found.life[at] as number, found.age[view.axis][at] as number];
    if (!((first.get(life) ?? Infinity) <= age)) first.set(life, age);
  }
  const exit = seals.exit.slice();
  const event = new Uint8Array(exit.length);
  seals.rows.forEach((row, at) => {
    const age = first.get(row) ?? Infinity;
    if (!(age > (seals.entry[at] as number) && age <= (exit[at] as number))) return;
    exit[at] = age;
    event[at] = 1;
  });
  return { ...seals, exit, event };
}

/** Days since the job, up to where a failure is a comeback no more. */
function comebacksOf(seals: ChangeEvidence): ChangeEvidence {
  const { entryDays, exitDays, event } = seals;
  return {
    ...seals,
    entry: entryDays,
    exit: exitDays.map((days) => Math.min(days, comebackDays)),
    event: event.map((one, at) => ((exitDays[at] as number) <= comebackDays ? one : 0)),
  };
}

export const guardSeries = (all: readonly Guard[]): Series[] =>
  all.map(({ name, cohorts: [before, after], ratio: { estimate } }) => ({
    ...{ name: 'guard', group: name },
    columns: {
      livesBefore: [before.lives],
      failuresBefore: [before.failures],
      livesAfter: [after.lives],
      failuresAfter: [after.failures],
      ratio: [estimate.value],
      lower: [shownLimits(estimate).lower],
      upper: [shownLimits(estimate).upper],
    },
  }));
