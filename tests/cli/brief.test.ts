import { execFileSync, spawnSync } from 'node:child_process';
import { existsSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { findingSchema, type Estimate } from '../../shared/finding.ts';
import { openNodeEngine, openTableFile, saveTableFile } from '../../lib/engine/node.ts';
import { sql } from '../../lib/engine/statement.ts';
import { call } from './folder-and-call.ts';

const reference = fileURLToPath(new URL('../reference/brief/', import.meta.url));
const read = (path: string) => readFileSync(path, 'utf8');

/** The invented fleet of 60 vehicles, and the brief that `plan.json` asks of it, made once. */
let folder = '';
const [fleet, brief, lives] = [
  () => join(folder, 'fleet'),
  () => join(folder, 'brief'),
  () => join(folder, 'lives.csv'),
];

beforeAll(async () => {
  folder = mkdtempSync(join(tmpdir(), 'hubcause-brief-'));
  await call('demo', '--units', '60', '--out', fleet());
  const made = await call('brief', fleet(), '--settings', join(reference, 'plan.json'), '--out', brief());
  expect(made.code).toBe(0);
  const engine = await openNodeEngine();
  await openTableFile(engine, join(brief(), 'lives.parquet'), 'own');
  await saveTableFile(
    engine,
    sql`select life_id, lubricant, install_kind, dev_spindle_not_dressed, entry_miles, exit_miles, state from own where component = 'seal' order by life_id`,
    lives(),
  );
  await engine.close();
}, 60_000);
afterAll(() => rmSync(folder, { recursive: true, force: true }));

const estimateOf = (file: string, group: string, name: string): Estimate => {
  const finding = findingSchema.parse(JSON.parse(read(join(brief(), 'findings', file))));
  const estimate = finding.groups.find(({ label }) => label === group)?.estimates[name];
  if (estimate === undefined) throw new Error(`no ${name} of ${group}`);
  return estimate;
};

/** To 1e-9 of itself: what both print of a curve is a product of some hundred factors. */
function expectThese({ value, lower, upper }: Estimate, expected: readonly (number | null)[], tolerance = 1e-9): void {
  for (const [at, now] of [value, lower, upper].entries()) {
    const said = expected[at] ?? null;
    if (said === null || now === null) expect(now).toBe(said);
    else expect(Math.abs(now - said)).toBeLessThanOrEqual(tolerance * Math.abs(said));
  }
}

type Expected = Record<string, Record<string, (number | null)[]>> & { crudeHazardRatio: (number | null)[] };

function expectWhatSurvivalSays(text: string): void {
  const expected = JSON.parse(text) as Expected;
  for (const lubricant of ['oil', 'semi-fluid']) {
    const told = expected[lubricant] ?? {};
    const estimate = (name: string) => estimateOf('1-seal-life.json', lubricant, name);
    expectThese(estimate('b10Life'), told['b10Life'] ?? []);
    expectThese(estimate('medianLife'), told['medianLife'] ?? []);
    expectThese(estimate('failedByHorizonHadNoneBeenRenewed'), told['failedBy'] ?? []);
  }
  // Both climb to the top of a likelihood: to where the step is small.
  expectThese(estimateOf('2-causes.json', 'spindle-not-dressed', 'crudeHazardRatio'), expected.crudeHazardRatio, 1e-6);
}

describe('the numbers of a brief from its own exported lives', () => {
  // R 4.2.2, survival 3.5-3, by tests/reference/brief/make-brief.R.
  it('are those of R on the lives kept beside its results', () => {
    expect(read(lives())).toBe(read(join(reference, 'lives.csv')));
    expectWhatSurvivalSays(read(join(reference, 'expected.json')));
  });

  const withR = spawnSync('Rscript', ['-e', 'library(survival)']).status === 0;
  it.runIf(withR)('are those of R run now', () => {
    expectWhatSurvivalSays(execFileSync('Rscript', [join(reference, 'make-brief.R'), lives()], { encoding: 'utf8' }));
  });
});

describe('hubcause brief --check', () => {
  it('finds every number again from the lives beside it, and from the records', async () => {
    const own = await call('brief', '--check', brief());
    expect(own.out).toMatch(/^(\d+) of \1 hold, .*; 0 do not\. Files changed since: 0\. .* other records: 0\.$/m);
    expect(own.code).toBe(0);
    expect((await call('brief', '--check', brief(), fleet())).code).toBe(0);
  }, 60_000);

  it('finds a number that was changed, in the brief and by the sum of its file', async () => {
    const path = join(brief(), 'brief.json');
    const before = read(path);
    const said = estimateOf('1-seal-life.json', 'oil', 'b10Life').value ?? 0;
    writeFileSync(path, before.replace(`"value": ${said}`, `"value": ${said + 1}`));
    const { code, out, err } = await call('brief', '--check', brief());
    writeFileSync(path, before);
    expect(code).toBe(1);
    expect(out).toContain(`DIFFERS  6.1 seal-life · oil · b10Life: says ${said + 1}; now ${said}`);
    expect(out.match(/^DIFFERS/gm)).toHaveLength(1);
    expect(err).toContain('brief.json is missing or not as it was written');
  }, 60_000);

  it('finds a record that was changed, and says the fingerprint is another', async () => {
    const path = join(fleet(), 'failures-ambleford.csv');
    const before = read(path);
    // The last seal failure never was.
    const lines = before.trimEnd().split('\n');
    const last = lines.findLastIndex((line) => line.includes('seal-inner'));
    writeFileSync(path, `${lines.filter((_, at) => at !== last).join('\n')}\n`);
    const { code, out, err } = await call('brief', '--check', brief(), fleet());
    writeFileSync(path, before);
    expect(code).toBe(1);
    expect(out).toMatch(/^DIFFERS .*ailures\w*: says \d+; now \d+$/m);
    expect(err).toMatch(/seal-life was made from other records or settings: fingerprint [0-9a-f]{64}; these are/);
  }, 60_000);
});

describe('what the findings read beside the lives', () => {
  const asks = [
    { question: 'detection', view: { by: ['lubricant'] } },
    { question: 'dose', view: { deviation: 'end-play-high' } },
    { question: 'rules', view: { deviation: 'nut-backed-off' } },
    { question: 'shops', view: {} },
    { question: 'renewal', view: {} },
    { question: 'ahead', view: {} },
  ];
  const told = () => join(folder, 'told');

  beforeAll(async () => {
    const settings = join(folder, 'told.json');
    const madeFrom = { name: 'x', records: '', fingerprint: '' };
    writeFileSync(settings, JSON.stringify({ settings: 1, view: {}, madeFrom, brief: { asks } }));
    expect((await call('brief', fleet(), '--settings', settings, '--out', told())).code).toBe(0);
  }, 60_000);

  it('is enough to ask each of them again from the folder alone, every number', async () => {
    const { code, out } = await call('brief', '--check', told());
    expect(out).toMatch(/^(\d+) of \1 hold, .*; 0 do not\. Files changed since: 0\. .* other records: 0\.$/m);
    expect(code).toBe(0);
  }, 60_000);

  it('is said to be lacking where it is gone, with how many numbers hang on it; no number is called wrong for it', async () => {
    rmSync(join(told(), 'evidence', 'inspections.parquet'));
    const { code, out } = await call('brief', '--check', told());
    expect(code).toBe(1);
    expect(out).toMatch(/^6\.1 detection: \d+ of \d+ cannot be recomputed; it reads inspections beside the lives/m);
    expect(out).toMatch(/^\d+ of \d+ hold, .*; 0 do not\. \d+ could not be recomputed\. Files changed since: 1\./m);
    expect(out).not.toMatch(/^DIFFERS/m);
    // What reads no looks is asked as before.
    expect(out).not.toMatch(/^UNTOLD {3}6\.2 dose/m);
  }, 60_000);
});

describe('hubcause brief', () => {
  it('writes what makes it again: from its own settings the same brief', async () => {
    const again = join(folder, 'again');
    const { code } = await call('brief', fleet(), '--settings', join(brief(), 'settings.json'), '--out', again);
    expect(code).toBe(0);
    for (const name of ['brief.html', 'brief.json', 'numbers/1-seal-life.csv', 'README.txt'])
      expect(read(join(again, name)).replaceAll('fleet', '')).toBe(read(join(brief(), name)).replaceAll('fleet', ''));
  }, 60_000);

  it.each([
    [['--out', 'x', '--settings', 'none.json'], /no such file/],
    [[], /nowhere to write/],
    [['--check', '/nowhere'], /no brief there/],
  ])('refuses %s', async (parts, says) => {
    const { code, err } = await call('brief', fleet(), ...parts);
    expect(code).toBe(2);
    expect(err).toMatch(says);
    expect(existsSync('x')).toBe(false);
  });
});
