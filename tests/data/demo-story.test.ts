// The shipped fleet tells its story: what was planted (data/demo/story.ts) can be seen in its true lives.
import { describe, expect, it } from 'vitest';
import type { LifeTruth } from '../../data/demo/life-truth-row.ts';
import { demoRows } from '../../data/demo/demo-units.ts';
import { generateDemoFleet } from '../../data/demo/generate-demo-fleet.ts';
import { BAD_LOT, BAD_SPELL, CHANGE, PLACEBO, SHOPS } from '../../data/demo/story.ts';
import { likeForLike } from './like-for-like.ts';

const fleet = generateDemoFleet();
const lives = fleet.truthLives.filter(
  (life) => life.start === 'replacement' && life.end !== 'before-window' && life.exit_age > life.entry_age,
);
const compare = likeForLike(lives);
const with_ = (code: string) => (life: LifeTruth) => life.deviations.split(';').includes(code);
const shareEarly = (some: readonly LifeTruth[], miles = 25_000) =>
  some.filter(({ onset_age }) => onset_age <= miles).length / some.length;
const open = lives.filter(({ hub_build }) => hub_build !== 'unitized');

describe('what goes with early leaks', () => {
  it.each([
    ['seal-cocked', 0.6, open],
    ['packed-in-oil-bath', 0.25, open.filter(({ lubricant }) => lubricant === 'oil')],
    ['nut-backed-off', 0.25, lives.filter(({ hub_build }) => hub_build === 'spacer')],
    ['spacer-missing', 0.45, lives.filter(({ hub_build }) => hub_build === 'spacer')],
    ['hub-hung-on-seal', 0.2, open],
  ])('%s: many leak within 25,000 miles, at least four times the share of those without', (code, share, among) => {
    const yes = among.filter(with_(code));
    const no = among.filter((life) => !with_(code)(life));
    expect(yes.length).toBeGreaterThan(10);
    expect(shareEarly(yes)).toBeGreaterThan(share);
    expect(shareEarly(yes)).toBeGreaterThan(4 * shareEarly(no));
  });

  it('the bad lot, beside the other lot of its quarter', () => {
    const bad = compare(lives.filter(({ seal_lot }) => seal_lot === BAD_LOT.lot));
    const other = compare(lives.filter(({ seal_lot }) => seal_lot === BAD_LOT.lot.replace('B', 'A')));
    expect(bad.failures).toBeGreaterThanOrEqual(30);
    expect(bad.ratio).toBeGreaterThan(1.8 * other.ratio);
  });
});

describe('decoys', () => {
  it.each(['mark-missing', 'sealant-on-seal'])('%s: no early leak in excess where nothing else was wrong', (code) => {
    // Over a fleet of 3,000 vehicles, so that chance alone cannot make the difference.
    const clean = [...demoRows('truthLives', { units: 3_000 })].filter(
      ({ start, hub_build, deviations, seal_lot }) =>
        start === 'replacement' &&
        hub_build === 'spacer' &&
        seal_lot !== BAD_LOT.lot &&
        (deviations === '' || deviations === code),
    );
    const yes = clean.filter(({ deviations }) => deviations === code);
    const no = clean.filter(({ deviations }) => deviations === '');
    const difference = shareEarly(yes, 60_000) - shareEarly(no, 60_000);
    const spread = (some: readonly LifeTruth[]) => {
      const share = shareEarly(some, 60_000);
      return (share * (1 - share)) / some.length;
    };
    expect(yes.length).toBeGreaterThan(150);
    expect(Math.abs(difference)).toBeLessThan(3.5 * Math.sqrt(spread(yes) + spread(no)));
  });
});

describe('shops', () => {
  const byShop = SHOPS.map((shop) => ({ shop, ...compare(lives.filter((life) => life.shop === shop)) }));
  const worst = (by: 'raw' | 'ratio') => byShop.reduce((a, b) => (b[by] > a[by] ? b : a)).shop;

  it('have another worst one raw than like for like', () => {
    expect(worst('raw')).toBe('Coldmere');
    expect(worst('ratio')).toBe('Eastfen');
    for (const { failures } of byShop) expect(failures).toBeGreaterThanOrEqual(100);
  });

  it('show the change at Brackwell, nothing at the placebo, and the bad spell at Dunhollow', () => {
    const contrast = (shop: string, date: string) => {
      const own = lives.filter((life) => life.shop === shop);
      const after = compare(own.filter(({ install_date }) => install_date >= date)).ratio;
      return after / compare(own.filter(({ install_date }) => install_date < date)).ratio;
    };
    expect(contrast(CHANGE.shop, CHANGE.date)).toBeLessThan(0.75);
    const placebo = contrast(PLACEBO.shop, PLACEBO.date);
    expect(placebo).toBeGreaterThan(0.8);
    expect(placebo).toBeLessThan(1.25);
    const own = lives.filter(({ shop }) => shop === BAD_SPELL.shop);
    const inSpell = ({ install_date }: LifeTruth) => install_date >= BAD_SPELL.from && install_date <= BAD_SPELL.to;
    const rest = compare(own.filter((life) => !inSpell(life))).ratio;
    expect(compare(own.filter(inSpell)).ratio).toBeGreaterThan(1.5 * rest);
  });
});

describe('detection', () => {
  it('finds leaks of oil hubs sooner than those of semi-fluid hubs', () => {
    const meanLag = (lubricant: string) => {
      const found = lives.filter(
        (life) =>
          life.end === 'failed' && life.lubricant === lubricant && life.role === 'trailer' && life.cause === 'wear',
      );
      expect(found.length).toBeGreaterThan(100);
      return found.reduce((sum, { exit_age, onset_age }) => sum + exit_age - onset_age, 0) / found.length;
    };
    expect(meanLag('semi-fluid')).toBeGreaterThan(1.5 * meanLag('oil'));
  });

  it('soaks linings more often the longer an oil leak stayed unseen', () => {
    const onsets = new Map(lives.map((life) => [life.failure_id, life.exit_age - life.onset_age]));
    const known = fleet.failures.filter((row) => row.mode.startsWith('seal') && onsets.has(row.failure_id));
    const shareSoaked = (from: number, to: number) => {
      const rows = known.filter((row) => {
        const lag = onsets.get(row.failure_id) as number;
        return row.lining_contaminated !== null && lag >= from && lag < to;
      });
      return rows.filter((row) => row.lining_contaminated === 'yes').length / rows.length;
    };
    expect(shareSoaked(15_000, Infinity)).toBeGreaterThan(2 * shareSoaked(0, 5_000));
  });
});

describe('rare and special cases', () => {
  it('are there: a wheel lost by its fasteners and by bearings, unlocked nuts, repair-only leaks, unknown starts', () => {
    const lost = fleet.failures.filter((row) => row.wheel_lost === 'yes').map((row) => row.wheel_lost_by);
    expect(lost.filter((by) => by === 'fastener')).toHaveLength(1);
    expect(lost.filter((by) => by === 'bearing').length).toBeGreaterThanOrEqual(1);
    expect(lives.filter(with_('lock-not-engaged')).length).toBeGreaterThanOrEqual(5);
    expect(lives.filter(({ end, failure_id }) => end === 'failed' && failure_id === null).length).toBeGreaterThan(10);
    const ends = new Set(fleet.truthLives.map(({ end }) => end));
    for (const end of ['planned', 'mate', 'other-failure', 'removed-unknown', 'unit-left', 'running'] as const)
      expect(ends).toContain(end);
    expect(fleet.truthLives.filter(({ start }) => start === 'unknown').length).toBeGreaterThan(100);
    const reasons = new Set(fleet.services.map(({ reason }) => reason));
    expect(reasons).toEqual(
      new Set(['failure', 'planned', 'brake-work', 'inspection-finding', 'comeback', 'other', null]),
    );
    expect(new Set(fleet.services.map(({ site }) => site))).toEqual(new Set(['shop', 'vendor', 'roadside']));
  });
});
