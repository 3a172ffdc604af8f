import type { Asking } from '../asking.ts';
import { breathe } from '../breathe.ts';
import { firmnessRule } from '../firmness.ts';
import { dayText, type ChangeEvidence } from './change-evidence.ts';
import { cellOf, type ChangeSides } from './change-sides.ts';
import { contrast, type Contrast } from './contrast.ts';

/** Dates tried are half a year apart, and so many at most. */
const stepDays = 182;
const mostDates = 6;

/** The same contrast where nothing was changed. */
export interface Placebo {
  readonly kind: 'shop' | 'date';
  readonly label: string;
  readonly contrast: Contrast;
  /** Log ratio over its standard error. */
  readonly z: number;
}

/**
 * The yardstick: each other shop as though it had changed on the day, and the changed shops as though
 * they had changed on earlier days, of lives fitted before the change alone.
 */
export async function placebos(
  asking: Asking,
  evidence: ChangeEvidence,
  sides: ChangeSides,
  day: number,
): Promise<Placebo[]> {
  const { view, signal, onProgress } = asking;
  const shops = enoughShops(evidence, sides);
  const dates = enoughDates(evidence, sides, day);
  const found: Placebo[] = [];
  const tried = [...shops.map((code) => ({ code, day: null })), ...dates.map((date) => ({ code: null, day: date }))];
  for (const [done, { code, day: date }] of tried.entries()) {
    onProgress?.({ done, of: tried.length, doing: 'the same contrast where nothing was changed' });
    await breathe(signal);
    const asked =
      code !== null
        ? {
            side: sides.side.map((own, at) => (own !== 0 ? -1 : evidence.shop[at] === code ? 1 : 0)),
            after: sides.after,
          }
        : {
            side: sides.side,
            after: sides.after.map((when, at) =>
              when !== 0 ? -1 : (evidence.installDay[at] as number) >= date ? 1 : 0,
            ),
          };
    const own = contrast(evidence, { ...asked, level: view.level });
    const { estimate, variance } = own.againstOthers;
    if (estimate.value === null || estimate.value <= 0 || variance === null) continue;
    found.push({
      kind: code === null ? 'date' : 'shop',
      label: code === null ? dayText(date) : (evidence.shops[code] ?? ''),
      ...{ contrast: own, z: Math.log(estimate.value) / Math.sqrt(variance) },
    });
  }
  return found;
}

function enoughShops({ shop, shops, event }: ChangeEvidence, sides: ChangeSides): number[] {
  const failures = [0, 1].map((when) => {
    const counts = shops.map(() => 0);
    for (const at of cellOf(sides, 0, when))
      counts[shop[at] as number] = (counts[shop[at] as number] as number) + (event[at] as number);
    return counts;
  });
  const enough = shops.flatMap((_, code) =>
    Math.min(failures[0]?.[code] ?? 0, failures[1]?.[code] ?? 0) >= firmnessRule.thinFailures ? [code] : [],
  );
  // Alone against nobody tells nothing.
  return enough.length < 2 ? [] : enough;
}

function enoughDates({ installDay, event }: ChangeEvidence, sides: ChangeSides, day: number): number[] {
  const before = cellOf(sides, 1, 0);
  return Array.from({ length: mostDates }, (_, step) => day - stepDays * (step + 1)).filter((date) => {
    const failures = (late: boolean) =>
      before.reduce((sum, at) => sum + ((installDay[at] as number) >= date === late ? (event[at] as number) : 0), 0);
    return Math.min(failures(true), failures(false)) >= firmnessRule.thinFailures;
  });
}
