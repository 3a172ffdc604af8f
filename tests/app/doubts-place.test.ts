import { expect, test } from 'vitest';
import { doubtsBeneath } from '../../app/_parts/finding/doubts-place.ts';
import type { Finding } from '../../shared/finding.ts';
import { estimate, handFinding, threeRoles } from '../charts/invented-findings.ts';

const doubt = (state: 'fails' | 'holds', words: number) => ({
  ...{ name: 'Not known', state, settledBy: 'the missing columns' },
  detail: 'what is not known '.repeat(words),
});
const withDoubts = (finding: Finding, doubts: Finding['doubts']): Finding => ({ ...finding, doubts });

// A row of one group is some 130 pixels high, a curve 400.
const oneRow = handFinding('ahead', {}, [
  { by: {}, estimates: { expectedFailures: estimate(136, 113, 163, 'failures') } },
]);

test('a few notes stand beside the figure, and those that hold need no room', () => {
  expect(doubtsBeneath(withDoubts(threeRoles(), [doubt('fails', 10)]), 'us')).toBe(false);
  expect(
    doubtsBeneath(
      withDoubts(
        oneRow,
        Array.from({ length: 9 }, () => doubt('holds', 20)),
      ),
      'us',
    ),
  ).toBe(false);
});

test('more than a figure has room for go beneath it: of a short one sooner', () => {
  const notes = [doubt('fails', 25), doubt('fails', 25)];
  expect(doubtsBeneath(withDoubts(oneRow, notes), 'us')).toBe(true);
  expect(doubtsBeneath(withDoubts(threeRoles(), notes), 'us')).toBe(false);
  expect(doubtsBeneath(withDoubts(threeRoles(), [...notes, ...notes]), 'us')).toBe(true);
});
