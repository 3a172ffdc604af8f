import { fileURLToPath } from 'node:url';
import { describe, expect, it } from 'vitest';
import { run } from '../../lib/cli/main.ts';
import { findingSchema } from '../../shared/finding.ts';

const lives = fileURLToPath(new URL('../reference/causes/lives.csv', import.meta.url));

async function call(question: string, ...parts: string[]) {
  const out: string[] = [];
  const code = await run(['ask', question, lives, ...parts], { out: (text) => out.push(text), err: () => undefined });
  return { code, out: out.join('\n') };
}

describe('hubcause ask renewal and ask ahead', () => {
  it('take costs and how far ahead, and say them back', async () => {
    const costs = ['--planned-cost', '80', '--failure-cost', '500', '--downtime-cost', '0', '--lining-cost', '40'];
    const renewal = await call('renewal', ...costs, '--road-call-cost', '900', '--json');
    expect(renewal.code).toBe(0);
    expect(findingSchema.parse(JSON.parse(renewal.out)).settings).toMatchObject({
      ...{ plannedCost: 80, failureCost: 500, downtimeCost: 0, liningCost: 40, roadCallCost: 900, axis: 'miles' },
    });
    const ahead = await call('ahead', '--ahead-miles', '12000', '--json');
    expect(findingSchema.parse(JSON.parse(ahead.out)).settings).toMatchObject({ ahead: 'miles', aheadMiles: 12_000 });
    const months = await call('ahead', '--ahead-months', '3', '--json');
    expect(findingSchema.parse(JSON.parse(months.out)).settings).toMatchObject({ ahead: 'months', aheadMonths: 3 });
  }, 60_000);

  it.each([
    [['--planned-cost', '0']],
    [['--lining-cost', '-1']],
    [['--ahead-months', '121']],
    [['--ahead-miles', 'far']],
    [['--ahead-miles', '5', '--ahead-months', '5']],
  ])('refuse %s', async (parts) => {
    expect((await call('ahead', ...parts)).code).toBe(2);
  });
});
