import { attributeName } from '../words/group-words.ts';
import { listed } from '../words/share-words.ts';
import type { Adjustment } from './adjustment.ts';
import { cellsOf } from './cells-of.ts';

/** Where less than this share of the exposed lives stand beside unexposed ones, no comparison is given. */
export const leastCommonGround = 0.5;

/** Cells of all that is taken into account, made once for many exposures. */
export interface GroundCells {
  /** The strata, the strata by each covariate, and last everything together. */
  readonly cells: readonly {
    readonly columns: readonly string[];
    readonly codes: Int32Array;
    readonly count: number;
  }[];
}

/** How much of the exposed lives has unexposed lives beside it, alike in what is taken into account. */
export interface CommonGround {
  readonly lives: number;
  readonly failures: number;
  /** Share of the exposed lives with an unexposed one in the same cell; null without exposed lives. */
  readonly livesShare: number | null;
  readonly failuresShare: number | null;
  /** The strata, or these and one covariate, with least common ground, and the share of exposed lives there. */
  readonly least: { readonly columns: readonly string[]; readonly share: number } | null;
}

type Ground = Pick<Adjustment, 'covariates' | 'strata' | 'strataOf'>;

export function groundCells({ covariates, strata, strataOf }: Ground): GroundCells {
  const rows = strata.codes.length;
  const cell = (names: readonly string[]) => {
    const { levels, codes } = cellsOf([strata, ...names.map((name) => covariates[name] as typeof strata)], rows);
    return { columns: [...strataOf, ...names], codes, count: levels.length };
  };
  const names = Object.keys(covariates);
  return { cells: [cell([]), ...names.map((name) => cell([name])), cell(names)] };
}

/**
 * The share of exposed lives (and of their failures) that stand in a cell with unexposed lives.
 * @param side 1 exposed, 0 not, anything else in neither group; one a life
 */
export function commonGround({ cells }: GroundCells, side: ArrayLike<number>, event: ArrayLike<number>): CommonGround {
  const whole = { lives: 0, failures: 0 };
  for (let at = 0; at < side.length; at++) {
    if (side[at] !== 1) continue;
    whole.lives++;
    whole.failures += event[at] as number;
  }
  const share = (some: number, all: number) => (all === 0 ? null : some / all);
  const shares = cells.map(({ columns, codes, count }) => {
    const beside = besideOthers(codes, count, side, event);
    return { columns, lives: share(beside.lives, whole.lives), failures: share(beside.failures, whole.failures) };
  });
  const all = shares.at(-1);
  const least = shares.slice(0, -1).reduce<CommonGround['least']>((worst, { columns, lives }) => {
    if (lives === null || (worst !== null && worst.share <= lives)) return worst;
    return { columns, share: lives };
  }, null);
  return { ...whole, livesShare: all?.lives ?? null, failuresShare: all?.failures ?? null, least };
}

function besideOthers(codes: Int32Array, count: number, side: ArrayLike<number>, event: ArrayLike<number>) {
  const others = new Uint8Array(count);
  for (let at = 0; at < side.length; at++) if (side[at] === 0) others[codes[at] as number] = 1;
  let [lives, failures] = [0, 0];
  for (let at = 0; at < side.length; at++) {
    if (side[at] !== 1 || others[codes[at] as number] === 0) continue;
    lives++;
    failures += event[at] as number;
  }
  return { lives, failures };
}

/** Why no comparison is made; null where there is ground for one. */
export function refusalOf({ lives, least }: CommonGround): string | null {
  if (lives === 0) return 'no life carries it';
  if (least === null || least.share >= leastCommonGround) return null;
  const where = least.columns.length === 0 ? 'records' : listed(least.columns.map(attributeName));
  return `no common ground: under half of the lives with it have lives without it in the same ${where}`;
}
