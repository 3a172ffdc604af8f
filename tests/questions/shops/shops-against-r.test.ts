import { afterAll, beforeAll, expect, test } from 'vitest';
import type { Engine } from '../../../lib/engine/engine.ts';
import { openNodeEngine } from '../../../lib/engine/node.ts';
import { ask } from '../../../lib/questions/index.ts';
import { findingSchema } from '../../../shared/finding.ts';
import { viewSchema } from '../../../shared/view.ts';
import { check, loadData, numbers } from '../../reference/reference.ts';
import { fleet } from '../fleet.ts';

let engine: Engine;
beforeAll(async () => {
  engine = await openNodeEngine();
});
afterAll(() => engine.close());

/*
 * The veteran data as lives: cell type the shop, treatment the lubricant, prior treatment the role.
 * R 4.2.2, survival 3.5-3: fit <- coxph(Surv(time, status) ~ celltype + factor(trt) + factor(prior)); lp
 * from the last two terms alone; expected = status - residuals(coxph(y ~ offset(lp)), "martingale").
 */
test('expected failures are those of R, fitted with terms for the shops and predicted without', async () => {
  const data = loadData('veteran');
  const [time, status, trt, prior] = ['time', 'status', 'trt', 'prior'].map((name) => numbers(data, name)) as [
    Float64Array,
    Float64Array,
    Float64Array,
    Float64Array,
  ];
  const lives = Array.from(time, (age, row) => ({
    exit_miles: age * 1000,
    shop: (data['celltype'] as string[])[row] as string,
    lubricant: trt[row] === 1 ? 'oil' : 'packed',
    role: prior[row] === 0 ? 'drive' : 'trailer',
    ...(status[row] === 1 ? { state: 'failed', mode: 'seal-inner' } : {}),
  }));
  const view = viewSchema.parse({ adjust: ['lubricant', 'role'] });
  const finding = findingSchema.parse(await ask(await fleet(engine, lives), 'shops', view));
  const at = (label: string, name: string) =>
    finding.groups.find((group) => group.label === label)?.estimates[name]?.value as number;
  const shops = ['adeno', 'large', 'smallcell', 'squamous'];
  const about = { method: 'shops', source: 'R survival, veteran' };
  expect(shops.map((shop) => at(shop, 'observedFailures'))).toEqual([26, 26, 45, 31]);
  const expected = [16.0573057498, 33.8841395537, 28.7097150371, 49.3488396593];
  check(
    about,
    shops.map((shop) => at(shop, 'expectedFailures')),
    expected,
    1e-9,
  );
  check(
    about,
    shops.map((shop) => at(shop, 'observedToExpected')),
    [26 / 16.0573057498, 26 / 33.8841395537, 45 / 28.7097150371, 31 / 49.3488396593],
    1e-9,
  );
  expect(finding.groups.map(({ label }) => label)).toEqual(['adeno', 'smallcell', 'large', 'squamous']);
});
