import { describe, expect, test } from 'vitest';
import {
  accountSays,
  isAsked,
  askedOutcomes,
  outcomeSays,
  toggledAccount,
  usualColumns,
} from '../../app/_parts/asked/asked-words.ts';
import { depthRows, shadowsOf } from '../../app/_parts/causes/depth-words.ts';
import { lineWords } from '../../lib/charts/index.ts';
import { answerSoFar } from '../../app/_parts/finding/answer-so-far.ts';
import { chosenForAll, lookedInto } from '../../app/_parts/scope/narrow.ts';
import { deviationRows, stepTable } from '../../app/_parts/shops/shop-tables.ts';
import { TakingTurns } from '../../app/_state/taking-turns.ts';
import { usualAdjustment } from '../../lib/questions/adjustment/adjusting-columns.ts';
import { livesBehind } from '../../lib/view/index.ts';
import type { Finding, Group } from '../../shared/finding.ts';
import { viewSchema } from '../../shared/view.ts';
import { estimate, handFinding } from '../charts/invented-findings.ts';

const view = (part: object = {}) => viewSchema.parse(part);
const withNotes = (notes: string[]) => ({ notes }) as unknown as Group;

describe('what is asked for', () => {
  test('what usually is taken into account is what the questions take', () =>
    expect(usualColumns).toEqual([...usualAdjustment]));
  test('a column more or less, and back to what is usual by naming none', () => {
    const less = toggledAccount(view(), 'duty');
    expect(less).toEqual(['role', 'lubricant', 'hub_build', 'install_year']);
    expect(toggledAccount(view({ adjust: less }), 'duty')).toEqual([]);
    expect(accountSays(view({ adjust: ['role', 'seal_lot'] }))).toBe('axle role, seal lot');
  });
  test('exactly one outcome is asked of any view', () => {
    for (const component of ['seal', 'gasket', 'bearing'] as const)
      for (const outcome of ['component', 'any', 'lining'] as const)
        expect(askedOutcomes.filter((one) => isAsked({ component, outcome }, one))).toHaveLength(1);
    expect(outcomeSays(view({ outcome: 'lining' }))).toMatch(/linings/);
  });
  test('a deviation pressed is looked into, and on the front page tells all answers apart', () => {
    expect(lookedInto(view(), { deviation: 'seal-cocked' })).toEqual({ deviation: 'seal-cocked' });
    expect(chosenForAll(view(), { deviation: 'seal-cocked' })).toEqual({ by: ['dev_seal_cocked'] });
    expect(lookedInto(view({ by: ['role'] }), { role: 'tag' })).toEqual({ where: { role: ['tag'] }, by: [] });
  });
});

describe('the notes of a line', () => {
  test('part into mechanism, cases one by one, and the rest', () => {
    const words = lineWords(
      withNotes([
        'It opens (engineering judgement, not a finding). It would tell soon after the job.',
        'Other side: it agrees.',
        'Safety-critical: changed on mechanism. 2 failed cases: vehicle 7, axle 1 left: seal after 900 miles (F1); vehicle 8, axle 2 right: seal (F2).',
      ]),
    );
    expect(words.mechanism).toMatch(/^It opens/);
    expect(words.others).toEqual(['Other side: it agrees.']);
    expect(words.critical).toEqual({
      said: '2 failed cases',
      cases: ['vehicle 7, axle 1 left: seal after 900 miles (F1)', 'vehicle 8, axle 2 right: seal (F2)'],
    });
  });
  test('say so where no case is recorded', () =>
    expect(lineWords(withNotes(['Safety-critical: a rule. No failed case is recorded.'])).critical).toEqual({
      ...{ said: 'No failed case is recorded.', cases: [] },
    }));
});

describe('a deviation looked into', () => {
  const finding: Finding = {
    ...handFinding('causes', {}, []),
    series: [
      {
        ...{ name: 'one-shop', group: 'Alder' },
        columns: { ratio: [2], lower: [1], upper: [4], failures: [9], failuresWithout: [40] },
      },
      { name: 'shadow', group: 'nut-backed-off', columns: { ratio: [1, 2.5, 0.4, 1.2, null] } },
    ],
  };
  test('has a row a shop with its failures', () =>
    expect(depthRows(finding, 'one-shop', 'shop')).toEqual([
      { name: 'Alder', value: 2, lower: 1, upper: 4, cells: ['9', '40'] },
    ]));
  // Of 1, 2.5, 0.4 and 1.2 those as far from 1 as 2 either way: 2.5 and 0.4 (1/2.5).
  test('counts the shadows as far from 1 either way', () =>
    expect(shadowsOf(finding, 2)).toEqual({ ratios: [1, 2.5, 0.4, 1.2], asFar: 2 }));
});

test('an answer whose doubts are not all checked does not say how firm it is', () => {
  const answer = 'Seals leak 1.3 times as often: 149 leaks with it and 960 without; too few. Also 10 times.';
  const told = answerSoFar({ ...handFinding('causes', {}, []), answer }).answer;
  expect(told).toBe('Seals leak 1.3 times as often: 149 leaks with it and 960 without. Also 10 times.');
});

describe('tables of shops', () => {
  const finding: Finding = {
    ...handFinding('shops', { by: ['shop'] }, [
      { by: { shop: 'Alder' }, estimates: { deviationsTold: estimate(0.25, 0.25, 0.25, 'share') } },
    ]),
    series: [
      { name: 'steps', group: 'Alder', columns: { watched: [1.5], age: [1.25], role: [null] } },
      { name: 'deviation seal-cocked', group: 'Alder', columns: { yes: [5], no: [15], unknown: [60] } },
      { name: 'deviation overfilled', group: 'Alder', columns: { yes: [0], no: [0], unknown: [80] } },
    ],
  };
  test('say each step from plain to like for like', () => {
    const table = stepTable(finding);
    expect(table?.heads).toEqual(['per mile watched', '+ age', '+ axle role']);
    expect(table?.rows).toEqual([{ name: 'Alder', cells: ['1.50', '1.25', '—'] }]);
  });
  // 5 of the 20 that tell are 25 %; where nothing tells there is no share.
  test('take what is not told for neither yes nor no', () =>
    expect(deviationRows(finding)?.rows.map(({ cells }) => cells)).toEqual([
      ['25.0\u00a0% of 20'],
      ['not told'],
      ['25\u00a0%'],
    ]));
});

describe('lives behind a comparison', () => {
  const finding = handFinding('causes', {}, [{ by: { deviation: 'seal-cocked' }, estimates: {} }]);
  const [group = null] = finding.groups;
  test('are replacements of known start that carry it, do not, or do not tell', () => {
    const behind = (counted: 'failures' | 'livesWithout' | 'livesUnknown') => livesBehind(finding, group, counted);
    expect(behind('failures')?.view.where).toEqual({ dev_seal_cocked: ['yes'], install_kind: ['replacement'] });
    expect(behind('failures')?.pick).toMatchObject({ past: 0, ended: ['failed'] });
    expect(behind('livesWithout')?.view.where['dev_seal_cocked']).toEqual(['no']);
    expect(behind('livesUnknown')?.view.where['dev_seal_cocked']).toEqual(['unknown']);
  });
  test('are no list where failures are found at the wheel end, or by who found them', () => {
    const any = { ...finding, settings: view({ outcome: 'any' }) };
    expect(livesBehind(any, group, 'failures')).toBeNull();
    const shops = handFinding('shops', { by: ['shop'], attribution: 'finding' }, [
      { by: { shop: 'A' }, estimates: {} },
    ]);
    expect(livesBehind(shops, shops.groups[0] ?? null, 'lives')).toBeNull();
  });
});

test('long questions wait for the quick ones asked with them, and for each other', async () => {
  const { turn } = new TakingTurns();
  const order: string[] = [];
  const never = new AbortController().signal;
  const work = (name: string, milliseconds: number) => async () => {
    order.push(`${name} begins`);
    await new Promise((resolve) => setTimeout(resolve, milliseconds));
    order.push(`${name} ends`);
  };
  const gone = new AbortController();
  const all = [
    turn('causes', never, work('causes', 20)),
    turn('shops', gone.signal, work('given up', 1)).catch(() => order.push('given up')),
    turn('shops', never, work('shops', 1)),
    turn('seal-life', never, work('seal-life', 30)),
  ];
  gone.abort();
  await Promise.all(all);
  expect(order.filter((said) => said !== 'given up')).toEqual([
    ...['seal-life begins', 'seal-life ends', 'causes begins', 'causes ends', 'shops begins', 'shops ends'],
  ]);
});
