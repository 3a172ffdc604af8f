import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { fitLife } from '../../lib/statistics/fit-life.ts';
import type { LifeData } from '../../lib/statistics/life-rows.ts';
import { turnbull } from '../../lib/statistics/turnbull.ts';

const replay = (name: string) =>
  JSON.parse(readFileSync(new URL(`../reference/broke-once/${name}.json`, import.meta.url), 'utf8')) as LifeData;

describe('inputs that once broke the life fits', () => {
  it.each(['weibull', 'lognormal'] as const)(
    'fit-life-entered-after: %s has no maximum, and claims no limits',
    (distribution) => {
      const fit = fitLife(replay('fit-life-entered-after'), { distribution });
      expect(fit.converged).toBe(false);
      expect(fit.warnings[0]).toMatch(/climbs with the shape without end/);
      expect(fit.covariance).toBeNull();
      expect(fit.lifeAt(0.1)).toMatchObject({ lower: 0, upper: Infinity });
      expect(fit.survivalAt(80)).toMatchObject({ lower: 0, upper: 1 });
    },
  );

  it('turnbull-nobody-watched: the curve stays flat there', () => {
    const { intervals, survival } = turnbull(replay('turnbull-nobody-watched'));
    expect([...intervals.mass]).toEqual([0, 1]);
    expect([...survival]).toEqual([1, 0]);
  });
});
