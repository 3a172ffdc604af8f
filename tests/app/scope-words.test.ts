import { describe, expect, test } from 'vitest';
import { scopeSentence } from '../../lib/charts/index.ts';
import { narrowedTo } from '../../app/_parts/scope/narrow.ts';
import { viewSchema } from '../../shared/view.ts';
import { kilometresPerMile } from '../../shared/units.ts';

const sentence = (part: object, units: 'us' | 'metric' = 'us') => scopeSentence(viewSchema.parse(part), units);

describe('the scope sentence', () => {
  test.each([
    [
      {},
      'Seals on all axles, in any lubricant and any hub build, installed by any shop at any time, followed for 100,000 miles.',
    ],
    [
      { where: { role: ['trailer'], lubricant: ['oil', 'packed'], hub_build: ['spacer'] }, by: ['dev_nut_backed_off'] },
      'Seals on trailer axles, in oil or packed grease and spacer hubs, installed by any shop at any time, followed for 100,000 miles, told apart by nut backed off.',
    ],
    [
      {
        where: { role: ['drive'], position: ['2 left', '3 left'], shop: ['A', 'B', 'C'] },
        installedFrom: '2019-01-01',
      },
      'Seals on drive axles, axle 2, left or axle 3, left, in any lubricant and any hub build, installed by 3 shops since 2019, followed for 100,000 miles.',
    ],
    [
      { component: 'gasket', where: { seal_lot: ['unknown'] }, installedFrom: '2021-01-01', installedTo: '2021-12-31' },
      'Gaskets on all axles, in any lubricant and any hub build, installed by any shop in 2021, seal lot: not known, followed for 100,000 miles.',
    ],
    [
      { installedTo: '2022-06-30', by: ['role', 'lubricant'] },
      'Seals on all axles, in any lubricant and any hub build, installed by any shop up to 2022-06-30, followed for 100,000 miles, told apart by axle role and lubricant.',
    ],
  ])('says %j', (view, says) => expect(sentence(view)).toBe(says));

  test('says the horizon in the units chosen', () => {
    expect(sentence({ horizonMiles: 150_000 / kilometresPerMile }, 'metric')).toContain('followed for 150,000 km');
  });
});

describe('narrowing to a group', () => {
  const view = viewSchema.parse({ by: ['role', 'lubricant'], where: { shop: ['A'], role: ['drive', 'trailer'] } });
  test('keeps only its values, and what else was narrowed', () => {
    const { where } = narrowedTo(view, { role: 'trailer', lubricant: 'oil' });
    expect(where).toEqual({ shop: ['A'], role: ['trailer'], lubricant: ['oil'] });
  });
  test('tells nothing apart by a column that has come down to one value', () => {
    expect(narrowedTo(view, { role: 'trailer', lubricant: 'oil' }).by).toEqual([]);
    expect(narrowedTo(view, { role: 'trailer' }).by).toEqual(['lubricant']);
  });
});
