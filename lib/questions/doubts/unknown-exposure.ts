import type { Doubt } from '../../../shared/finding.ts';
import { percent } from '../words/share-words.ts';
import { count, ratioText } from '../words/wording.ts';
import { doubt, failsIf } from './doubt.ts';

/** How the comparison of with and without comes out, and under both readings of what is not known. */
export interface UnknownExposure {
  /** Lives whose record does not tell, and all in the comparison. */
  readonly unknown: number;
  readonly all: number;
  /** Ratio of with to without as recorded, had all unknown been with it, and had none. Null = cannot be had. */
  readonly ratio: number | null;
  readonly ifAllYes: number | null;
  readonly ifAllNo: number | null;
}

/** A ratio that an assumption takes to less than half its distance from 1 (on the log scale) hangs on what is not known. */
const halves = (ratio: number, other: number): boolean => Math.log(other) / Math.log(ratio) < 0.5;

/**
 * Not known is neither yes nor no. Bounded both ways; fails where either reading takes more than
 * half of the difference away, or where most of the record is silent.
 */
export function unknownExposure({ unknown, all, ratio, ifAllYes, ifAllNo }: UnknownExposure): Doubt | null {
  if (all === 0) return null;
  const name = 'Not known';
  const settledBy = 'the missing column on the installation records';
  if (unknown === 0) return doubt(name, 'holds', 'Every life compared says whether it had the deviation.', settledBy);
  const share = unknown / all;
  const about = `Not known for ${percent(share)} (${count(unknown)} lives)`;
  if (ratio === null || ifAllYes === null || ifAllNo === null || ratio === 0)
    return doubt(
      name,
      share > 0.5 ? 'fails' : 'cannot-tell',
      `${about}; what they would change cannot be told.`,
      settledBy,
    );
  const says = `had all of them had it the ratio would be ${ratioText(ifAllYes)}, had none ${ratioText(ifAllNo)}, instead of ${ratioText(ratio)}`;
  // A ratio near 1 has no difference to lose: there the readings may not make one.
  const near = Math.abs(Math.log(ratio)) < Math.log(1.1);
  const moved = [ifAllYes, ifAllNo].some((other) =>
    near ? Math.abs(Math.log(other)) > Math.log(1.25) : halves(ratio, other),
  );
  return doubt(name, failsIf(moved || share > 0.5), `${about}; ${says}.`, settledBy);
}
