import type { ChangeEvidence } from './change-evidence.ts';
import { cellOf, type ChangeSides } from './change-sides.ts';
import { expectingAs } from './expected-before.ts';

/** A quarter of a year; so many of them before the change are looked at, one after another. */
const quarterDays = 91;
const quartersBack = 4;
/** Well above its own average: by size and beyond what chance often does. Somewhat above: worth a word. */
const wellAbove = { ratio: 1.3, z: 2.24 };
const somewhat = { ratio: 1.15, z: 1 };

/** The last stretch before the change that stands out most from what the same shops fitted before. */
export interface BadSpell {
  /** First day of the stretch. */
  readonly from: number;
  readonly observed: number;
  /** Failures expected of what was fitted in it by how the shops' own work did before the change. */
  readonly expected: number;
  /** Observed over expected in it, over the same before it. */
  readonly ratio: number;
  readonly standing: 'well above' | 'somewhat above' | 'not above';
}

/**
 * A shop picked after a bad spell returns to its average by itself. Failures of what the changed
 * shops fitted in the last one to four quarters before the change, against their own work before.
 * @param design robust over model variance: failures come in clusters
 */
export function badSpell(evidence: ChangeEvidence, sides: ChangeSides, day: number, design: number): BadSpell | null {
  const before = cellOf(sides, 1, 0);
  const { entry, exit, event, installDay } = evidence;
  const own = {
    ...{ places: before, entry: Float64Array.from(before, (at) => entry[at] as number) },
    exit: Float64Array.from(before, (at) => exit[at] as number),
    event: Uint8Array.from(before, (at) => event[at] as number),
  };
  if (!own.event.includes(1)) return null;
  const expecting = expectingAs(evidence, own);
  const expected = Float64Array.from(before, (at) => expecting(at, entry[at] as number, exit[at] as number));
  const sums = (test: (day: number) => boolean) => {
    const sum = { observed: 0, expected: 0 };
    before.forEach((at, place) => {
      if (!test(installDay[at] as number)) return;
      sum.observed += event[at] as number;
      sum.expected += expected[place] as number;
    });
    return sum;
  };
  const stretches = Array.from({ length: quartersBack }, (_, quarter) => day - quarterDays * (quarter + 1)).flatMap(
    (from) => {
      const [spell, rest] = [sums((own) => own >= from), sums((own) => own < from)];
      if (spell.observed === 0 || rest.observed === 0 || spell.expected <= 0 || rest.expected <= 0) return [];
      const ratio = spell.observed / spell.expected / (rest.observed / rest.expected);
      const z = Math.log(ratio) / Math.sqrt(design * (1 / spell.observed + 1 / rest.observed));
      return [{ from, ...spell, ratio, z }];
    },
  );
  const worst = stretches.sort((a, b) => b.z - a.z)[0];
  if (!worst) return null;
  const above = (least: typeof wellAbove) => worst.ratio >= least.ratio && worst.z >= least.z;
  const standing = above(wellAbove) ? 'well above' : above(somewhat) ? 'somewhat above' : 'not above';
  return { from: worst.from, observed: worst.observed, expected: worst.expected, ratio: worst.ratio, standing };
}
