import { fileURLToPath } from 'node:url';
import { describe, expect, it } from 'vitest';
import { run } from '../../lib/cli/main.ts';
import { findingSchema } from '../../shared/finding.ts';

const lives = fileURLToPath(new URL('../reference/causes/lives.csv', import.meta.url));

async function call(...parts: string[]) {
  const [out, progress]: [string[], string[]] = [[], []];
  const code = await run(['ask', 'causes', lives, ...parts], {
    out: (text) => out.push(text),
    err: () => undefined,
    progress: (text) => progress.push(text),
  });
  return { code, out: out.join('\n'), progress };
}

describe('hubcause ask causes', () => {
  it('ranks a lives file, says the settings and how far it is', async () => {
    const { code, out, progress } = await call(
      '--json',
      '--early',
      '40000',
      '--adjust',
      'role',
      '--by',
      'dev_seal_cocked',
    );
    expect(code).toBe(0);
    const finding = findingSchema.parse(JSON.parse(out));
    expect(finding.settings).toMatchObject({ earlyMiles: 40_000, adjust: ['role'], by: ['dev_seal_cocked'] });
    expect(finding.groups.map(({ label }) => label)).toEqual(['seal-cocked']);
    expect(finding.groups[0]?.estimates['earlyHazardRatio']?.method).toMatch(
      /axle role taken into account, within shop.*up to 40,000 miles/,
    );
    expect(progress[0]).toBe('ranking: 0 of 1');
    expect(progress.at(-1)).toBe('');
  }, 60_000);

  it('writes what stands beside each line', async () => {
    const { out } = await call('--by', 'dev_nut_backed_off');
    expect(out).toMatch(/Each by itself\nnut backed off\n {2}- /);
    expect(out).toMatch(/changed on mechanism, not on statistics/);
  }, 60_000);

  it.each([[['--outcome', 'axle']], [['--early', '0']], [['--deviation', 'bad-luck']]])('refuses %s', async (parts) => {
    expect((await call(...parts)).code).toBe(2);
  });
});
