import { describe, expect, test } from 'vitest';
import { axlesOf, chooseEnds, isChosen, planView, pressed, wheelEndsOf } from '../../app/_parts/scope/wheel-ends.ts';
import { viewSchema, type View } from '../../shared/view.ts';
import { estimate, handFinding } from '../charts/invented-findings.ts';

const places = ['trailer 1', 'trailer 2', 'drive 2', 'steer 1', 'drive 3'].flatMap((place) => [
  `${place} left`,
  `${place} right`,
]);
const finding = handFinding(
  'mean-miles',
  { by: ['role', 'position'] },
  [...places, 'unknown unknown'].map((place, index) => {
    const [role = '', axle = '', side = ''] = place.split(' ');
    const by = { role, position: side === '' ? 'unknown' : `${axle} ${side}` };
    return { by, estimates: { failuresPerMillionMiles: estimate(index + 1, 0.5, 20, 'per million miles') } };
  }),
);
const ends = wheelEndsOf(finding);
const view = viewSchema.parse({});
const at = (name: string) => ends.filter(({ role, position }) => `${role} ${position}`.startsWith(name));
const chosenIn = (where: View['where']) =>
  ends.filter((end) => isChosen({ ...view, where }, end)).map(({ role, position }) => `${role} ${position}`);

describe('the wheel-end plan', () => {
  test('stands front to rear and leaves out what has no known place', () => {
    expect(axlesOf(ends).map(([end]) => `${end?.role} ${end?.axle}`)).toEqual([
      'steer 1',
      'drive 2',
      'drive 3',
      'trailer 1',
      'trailer 2',
    ]);
  });

  test('hatches by rate in four densities against the worst', () => {
    // Rates run 1 to 10: 10 of 10 is density 4, 1 of 10 density 1, 5 of 10 density 2.
    expect(at('drive 3 right')[0]?.hatch).toBe(4);
    expect(at('trailer 1 left')[0]?.hatch).toBe(1);
    expect(at('drive 2 left')[0]?.hatch).toBe(2);
  });

  test('draws no rate where there are too few failures to tell one', () => {
    const few = { ...finding, groups: finding.groups.map((group) => ({ ...group, firmness: 'too few' as const })) };
    expect(wheelEndsOf(few).every(({ rate, hatch }) => rate === null && hatch === 0)).toBe(true);
  });

  test('asks for all places whatever is chosen, within the rest of the scope', () => {
    const narrowed = viewSchema.parse({
      where: { role: ['drive'], position: ['2 left'], side: ['left'], shop: ['A'] },
    });
    expect(planView(narrowed)).toMatchObject({ by: ['role', 'position'], where: { shop: ['A'] } });
  });
});

describe('choosing on the plan', () => {
  test('one wheel end, from all, keeps that one only', () => {
    expect(chosenIn(pressed(view, ends, at('trailer 1 left')))).toEqual(['trailer 1 left']);
  });

  test('a further one is added, a second press gives it up', () => {
    const one = pressed(view, ends, at('trailer 1 left'));
    const two = pressed({ ...view, where: one }, ends, at('trailer 2 left'));
    expect(chosenIn(two)).toEqual(['trailer 1 left', 'trailer 2 left']);
    expect(chosenIn(pressed({ ...view, where: two }, ends, at('trailer 1 left')))).toEqual(['trailer 2 left']);
  });

  test('giving up the last one, or choosing all, frees the scope', () => {
    const one = pressed(view, ends, at('steer 1 left'));
    expect(pressed({ ...view, where: one }, ends, at('steer 1 left'))).toEqual({});
    expect(chooseEnds(view, ends, ends)).toEqual({});
  });

  test('all ends of a role are said by the role alone', () => {
    expect(chooseEnds(view, ends, at('drive'))).toEqual({ role: ['drive'] });
  });

  test('leaves the rest of the scope alone', () => {
    const narrowed = viewSchema.parse({ where: { shop: ['A'], role: ['drive'] } });
    expect(chooseEnds(narrowed, ends, at('steer'))).toEqual({ shop: ['A'], role: ['steer'] });
  });
});
