import { expect, test } from 'vitest';
import { commonGround, groundCells, refusalOf } from '../../../lib/questions/adjustment/common-ground.ts';

const shops = (codes: number[]) => ({ levels: ['A', 'B', 'C'], codes: Int32Array.from(codes) });
const roles = (codes: number[]) => ({ levels: ['drive', 'trailer'], codes: Int32Array.from(codes) });

/** Eight lives: shop A holds both sides on drive axles; in B the exposed are on trailers, the others on drives; C has exposed only. */
const ground = groundCells({
  strataOf: ['shop'],
  strata: shops([0, 0, 0, 1, 1, 1, 2, 2]),
  covariates: { role: roles([0, 0, 0, 1, 1, 0, 0, 0]) },
});
const side = [1, 1, 0, 1, 1, 0, 1, 2];
const failed = [1, 0, 0, 1, 1, 1, 0, 1];

test('exposed lives and failures that have an unexposed life beside them, counted by hand', () => {
  const common = commonGround(ground, side, failed);
  // Exposed: two in A, two in B, one in C; alike in shop and role only the two in A.
  expect(common).toMatchObject({ lives: 5, failures: 3, livesShare: 2 / 5, failuresShare: 1 / 3 });
  expect(common.least).toEqual({ columns: ['shop', 'role'], share: 2 / 5 });
});

test('under half is refused, and says in what the lives differ', () => {
  expect(refusalOf(commonGround(ground, side, failed))).toBe(
    'no common ground: under half of the lives with it have lives without it in the same shop and axle role',
  );
});

test('half or more is not; nothing exposed is', () => {
  const onlyA = [1, 1, 0, 2, 2, 0, 1, 2];
  expect(commonGround(ground, onlyA, failed).livesShare).toBeCloseTo(2 / 3, 12);
  expect(refusalOf(commonGround(ground, onlyA, failed))).toBeNull();
  expect(refusalOf(commonGround(ground, [0, 0, 0, 0, 0, 0, 0, 0], failed))).toBe('no life carries it');
});
