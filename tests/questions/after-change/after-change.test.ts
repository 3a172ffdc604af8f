import { createHash } from 'node:crypto';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import type { Engine } from '../../../lib/engine/engine.ts';
import { openNodeEngine } from '../../../lib/engine/node.ts';
import { findingText } from '../../../lib/cli/finding-text.ts';
import { ask, changeFingerprint } from '../../../lib/questions/index.ts';
import { canonicalChange, changeRecordSchema } from '../../../shared/change-record.ts';
import { createRandom } from '../../../lib/statistics/numeric/random.ts';
import { findingSchema, shownLimits, type Finding } from '../../../shared/finding.ts';
import { viewSchema, type View } from '../../../shared/view.ts';
import { fleet, type Life } from '../fleet.ts';
import { changeDay, plantedChange } from './planted-change.ts';

let engine: Engine;
beforeAll(async () => {
  engine = await openNodeEngine();
});
afterAll(async () => {
  await engine.close();
});

const asked = { change: changeDay, changedShops: ['Alpha'] };
const judged = async (lives: readonly Life[], view: Partial<View> = asked, changes = [] as Parameters<typeof ask>[4]) =>
  findingSchema.parse(
    await ask(await fleet(engine, lives), 'after-change', viewSchema.parse(view), undefined, changes),
  );
const changed = ({ groups }: Finding) =>
  groups.find(({ label }) => label === 'where changed') as Finding['groups'][number];
const estimate = (finding: Finding, name: string) =>
  changed(finding).estimates[name] as Finding['groups'][number]['estimates'][string];
const doubtOf = ({ doubts }: Finding, name: string) => doubts.find((doubt) => doubt.name === name);
const showsNothing = (finding: Finding, name: string): boolean => {
  const { lower, upper } = shownLimits(estimate(finding, name));
  return (lower ?? 0) <= 1 && (upper ?? Infinity) >= 1;
};

const record = changeRecordSchema.parse({
  ...{ name: 'Dolly at every bay', date: changeDay, shops: ['Alpha'], what: 'hub dolly', deviations: ['seal-cocked'] },
  ...{
    expectedRatio: 0.6,
    failuresNeeded: 60,
    monthsNeeded: 24,
    success: 'upper limit below 1',
    writtenOn: '2022-11-15',
  },
});

describe('against R', () => {
  // R 4.2 survival 3.5, coxph(ties = 'efron', cluster = vehicle) on these lives, followed to 45 days before the last of
  // the records: Surv(exit, event) ~ role + lubricant + after + strata(shop), and for the contrast of shops with the year.
  const lives = plantedChange({ seed: 11, afterRatio: 0.6, cocked: { share: 0.15, after: 0.05, ratio: 2.5 } });

  test('the ratio after over before, at the changed shop and at the others', async () => {
    const finding = await judged(lives);
    const own = estimate(finding, 'hazardRatioAfterBefore');
    expect(own.value).toBeCloseTo(0.6078715729, 7);
    const z = 1.959963984540054;
    expect(own.lower).toBeCloseTo(0.6078715729 * Math.exp(-z * 0.1349585736), 6);
    expect(own.vehicleUpper).toBeCloseTo(0.6078715729 * Math.exp(z * 0.1307276155), 6);
    const others = finding.groups.find(({ label }) => label === 'other shops')?.estimates['hazardRatioAfterBefore'];
    expect(others?.value).toBeCloseTo(0.8876167995, 7);
    expect(changed(finding).counts).toMatchObject({
      livesBefore: 327,
      livesAfter: 270,
      failuresBefore: 175,
      failuresAfter: 82,
    });
  });

  test('that ratio over the same of the other shops', async () => {
    const against = estimate(await judged(lives), 'hazardRatioAgainstComparison');
    expect(against.value).toBeCloseTo(0.6830611485, 6);
    expect(against.vehicleLower).toBeCloseTo(0.6830611485 * Math.exp(-1.959963984540054 * 0.151903096), 5);
  });

  test('jobs with a deviation, counted', async () => {
    const finding = await judged(lives);
    const share = (late: boolean) => {
      const own = lives.filter(
        (life) =>
          life['shop'] === 'Alpha' &&
          String(life['install_date']) >= changeDay === late &&
          String(life['install_date']) < '2025-11-16',
      );
      return own.filter((life) => life['dev_seal_cocked'] === 'yes').length / own.length;
    };
    expect(estimate(finding, 'prevalenceBefore').value).toBeCloseTo(share(false), 10);
    expect(estimate(finding, 'prevalenceAfter').value).toBeCloseTo(share(true), 10);
  });
});

describe('what was planted', () => {
  test('a change that does nothing shows nothing in nine of ten fleets, whatever the year does everywhere', async () => {
    let nothing = 0;
    for (let seed = 1; seed <= 20; seed++) {
      const finding = await judged(plantedChange({ seed, vehicles: 200, yearRatio: 0.6 }));
      if (finding.answer.startsWith('No difference') && showsNothing(finding, 'hazardRatioAgainstComparison'))
        nothing++;
      expect(finding.firmness).not.toBe('firm');
    }
    expect(nothing).toBeGreaterThanOrEqual(18);
  });

  test('one that works only through fewer deviations is seen, and that it was followed', async () => {
    let seen = 0;
    for (let seed = 1; seed <= 5; seed++) {
      const finding = await judged(plantedChange({ seed, cocked: { share: 0.4, after: 0.05, ratio: 4 } }));
      if (finding.answer.startsWith('Fewer failures since')) seen++;
      expect(doubtOf(finding, 'Whether it was followed')?.state).toBe('holds');
    }
    expect(seen).toBeGreaterThanOrEqual(4);
  });

  test('more written down since is no more deviating: judged of what is told', async () => {
    const random = createRandom(4);
    const lives = plantedChange({ seed: 4, cocked: { share: 0.2, after: 0.2, ratio: 2 } }).map((life): Life => {
      const told = life['shop'] === 'Alpha' && String(life['install_date']) < changeDay ? 0.4 : 1;
      const dirty = random.uniform() < 0.4 ? 'yes' : 'no';
      return { ...life, dev_dirty_cavity: random.uniform() < told ? dirty : 'unknown' };
    });
    const finding = await judged(lives);
    // Of jobs, many more are seen to deviate, beyond chance; deviation by deviation nothing moved.
    expect(estimate(finding, 'prevalenceDifference').lower).toBeGreaterThan(0);
    const alike = estimate(finding, 'prevalenceDifferenceLikeForLike');
    expect(alike.lower).toBeLessThan(0);
    expect(alike.upper).toBeGreaterThan(0);
    expect(doubtOf(finding, 'Whether it was followed')?.state).not.toBe('holds');
    expect(doubtOf(finding, 'Written down alike')).toMatchObject({
      state: 'cannot-tell',
      detail: expect.stringMatching(/cavity not cleaned on \d+\s% and 100\s%/),
    });
    expect(finding.further).toMatch(/they are not written down alike, and deviation by deviation/);
    const fewer = lives.map((life): Life =>
      life['shop'] === 'Alpha' && String(life['install_date']) >= changeDay && life['unit_id'] !== 'V1'
        ? { ...life, dev_dirty_cavity: 'unknown' }
        : life,
    );
    // The other way round a shop that stops writing is not taken for one that deviates less.
    expect(doubtOf(await judged(fewer), 'Whether it was followed')?.state).not.toBe('holds');
  });

  test('another shop that changed over the same time is told of, and alike ones are', async () => {
    const names: Record<string, string> = { Alpha: 'Beta', Beta: 'Alpha' };
    const swapped = plantedChange({ seed: 9, afterRatio: 0.3 }).map((life) => {
      const shop = String(life['shop']);
      return { ...life, shop: names[shop] ?? shop };
    });
    const finding = await judged(swapped);
    expect(doubtOf(finding, 'Other shops over the same time')).toMatchObject({
      state: 'cannot-tell',
      detail: expect.stringMatching(/did not move alike \(p\s<\s0\.001\): from 0\.\d+ times at “Beta”/),
    });
    expect(doubtOf(await judged(plantedChange({ seed: 9 })), 'Other shops over the same time')?.state).toBe('holds');
  });

  test('a shop picked after a bad spell is not taken for one that got better', async () => {
    let [fooled, warned] = [0, 0];
    for (let seed = 1; seed <= 6; seed++) {
      const finding = await judged(plantedChange({ seed, vehicles: 400, spellRatio: 3 }));
      if (!showsNothing(finding, 'hazardRatioAgainstComparison')) fooled++;
      if (doubtOf(finding, 'Picked after a bad spell')?.state !== 'holds') warned++;
    }
    expect(fooled).toBeLessThanOrEqual(1);
    expect(warned).toBeGreaterThanOrEqual(5);
  });

  test('failures that have not arrived yet make no difference: lives end 45 days before the records do', async () => {
    const whole = plantedChange({ seed: 3 });
    // The last month's failures are missing and those lives look as if they ran on.
    const late = whole.map((life) => {
      const failedOn =
        Date.parse(`${String(life['install_date'])}T00:00:00Z`) / 86_400_000 + Number(life['exit_months']) * 30.4375;
      if (life['state'] !== 'failed' || failedOn < Date.parse('2025-12-01T00:00:00Z') / 86_400_000) return life;
      const months =
        (Date.parse('2025-12-31T00:00:00Z') / 86_400_000 - (failedOn - Number(life['exit_months']) * 30.4375)) /
        30.4375;
      return { ...life, state: 'running', mode: null, exit_miles: months * 30.4375 * 200, exit_months: months };
    });
    expect(late).not.toEqual(whole);
    const [one, other] = [await judged(whole), await judged(late)];
    expect(estimate(other, 'hazardRatioAfterBefore').value).toBeCloseTo(
      estimate(one, 'hazardRatioAfterBefore').value as number,
      9,
    );
  });
});

describe('what it is held against', () => {
  const lives = plantedChange({ seed: 5, vehicles: 200 });

  test('a change written down beforehand, named with its day and fingerprint', async () => {
    const finding = await judged(lives, asked, { changes: [record] });
    expect(finding.change).toMatchObject({
      against: 'written down beforehand',
      fingerprint: await changeFingerprint(record),
    });
    expect(finding.answer).toContain('written down beforehand, on 2022-11-15');
    expect(finding.further).toMatch(
      /Expected then: 0\.\d+ times\. \d+ of \d+ failures and \d+ of \d+ months needed are in\.$/,
    );
    expect(doubtOf(finding, 'Written down beforehand')?.state).toBe('holds');
  });

  test('one written down afterwards, or of other shops, is none beforehand', async () => {
    const after = await judged(lives, asked, { changes: [{ ...record, writtenOn: '2024-01-01' }] });
    expect(after.change?.against).toBe('written down afterwards');
    const other = await judged(lives, asked, { changes: [{ ...record, shops: ['Beta'] }] });
    expect(other.change?.against).toBe('a date given now');
    expect(other.answer).toContain('Judged against a date given now');
  });

  test('another shop with a change of its own is no comparison', async () => {
    const other = { ...record, shops: ['Beta'] };
    const finding = await judged(lives, asked, { changes: [other] });
    const others = finding.groups.find(({ label }) => label === 'other shops');
    const whole = (await judged(lives)).groups.find(({ label }) => label === 'other shops');
    expect(others?.lives).toBeLessThan(whole?.lives ?? 0);
    expect(doubtOf(finding, 'Other shops over the same time')?.detail).toContain('record of their own: Beta');
  });

  test('the fingerprint is the SHA-256 of the canonical content, whatever the order of fields and shops', async () => {
    const shuffled = Object.fromEntries(Object.entries({ ...record, shops: ['Beta', 'Alpha'] }).reverse());
    const same = { ...record, shops: ['Alpha', 'Beta'] };
    expect(await changeFingerprint(shuffled as typeof record)).toBe(await changeFingerprint(same));
    expect(await changeFingerprint(same)).toBe(createHash('sha256').update(canonicalChange(same)).digest('hex'));
    expect(await changeFingerprint({ ...same, expectedRatio: 0.5 })).not.toBe(await changeFingerprint(same));
  });
});

describe('what cannot be judged is said, not thrown', () => {
  const lives = plantedChange({ seed: 5, vehicles: 100 });

  test.each([
    [{}, 'no change is asked for yet', /the day and the shops/],
    [{ change: changeDay }, 'the shops are not', /the shops\.$/],
    [{ changedShops: ['Alpha'] }, 'the day is not', /the day\.$/],
    [{ change: changeDay, changedShops: ['Omega'] }, 'nothing here was fitted by “Omega”', /shops of these records/],
    [{ change: '2030-01-01', changedShops: ['Alpha'] }, 'lives are followed to 2025-11-16', /after the change/],
  ])('%o', async (view, says, first) => {
    const finding = await judged(lives, view);
    // Nothing was judged: what is lacking stands where the firmness of an answer would.
    expect(finding.asks).toMatch(/^Nothing is judged yet\. First: /);
    expect(finding.asks).toMatch(first);
    expect(findingText(finding, 'us')).not.toMatch(/Firmness: too few\. /);
    expect(finding.answer).toMatch(/^(Say when and where|Too early to tell)/);
    expect(finding.answer).toContain(says);
    expect(finding.groups.map(({ label }) => label).sort()).toEqual(['Alpha', 'Beta', 'Delta', 'Gamma']);
    expect(finding.series.every(({ name }) => name === 'plan')).toBe(true);
  });

  test('everybody changed: before and after alone, and at most fair', async () => {
    const finding = await judged(plantedChange({ seed: 6, afterRatio: 0.3 }), {
      change: changeDay,
      changedShops: ['Alpha', 'Beta', 'Gamma', 'Delta'],
    });
    expect(estimate(finding, 'hazardRatioAgainstComparison').value).toBeNull();
    expect(doubtOf(finding, 'Other shops over the same time')?.state).toBe('fails');
    expect(['fair', 'thin', 'too few']).toContain(finding.firmness);
  });

  test('no lives at all', async () => {
    const finding = await judged(lives, { ...asked, where: { role: ['steer'] } });
    expect(finding.data.lives).toBe(0);
  });
});
