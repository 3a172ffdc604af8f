import { describe, expect, test } from 'vitest';
import { readFileSync } from 'node:fs';
import { briefFiles, sumsIn, sumsText } from '../../lib/brief/brief-files.ts';
import { briefIn, briefText } from '../../lib/brief/brief-file.ts';
import { checkedNumbers } from '../../lib/brief/check-numbers.ts';
import { briefHtml } from '../../lib/brief/brief-html.ts';
import { zipOfFiles } from '../../lib/brief/zip-of-files.ts';
import { findingTable } from '../../lib/charts/index.ts';
import type { BriefGrounds } from '../../shared/brief-grounds.ts';
import { briefFields, briefSections } from '../../shared/brief-sections.ts';
import { briefSchema, planOf, type Brief } from '../../shared/brief.ts';
import { settingsFileSchema, settingsIn, settingsText } from '../../shared/settings-file.ts';
import { toolVersion } from '../../shared/version.ts';
import { viewSchema } from '../../shared/view.ts';
import { estimate, handFinding, threeRoles } from '../charts/invented-findings.ts';

const hostile = `<img src=x onerror="alert(1)">&</style><script>'"`;

const causes = handFinding('causes', {}, [
  { by: { deviation: 'seal-cocked' }, estimates: { hazardRatio: estimate(3.2, 1.9, 5.4, 'ratio') } },
]);

const brief: Brief = briefSchema.parse({
  brief: 1,
  title: `Dress ${hostile}`,
  words: Object.fromEntries(briefFields.map(({ name }) => [name, `${name} ${hostile}`])),
  approvals: [
    { role: hostile, name: 'A. Writer', decision: 'with-conditions', date: '2025-03-01', conditions: hostile },
    { role: 'Safety' },
  ],
  photos: [{ id: 'p', name: hostile, caption: hostile, picture: 'data:image/png;base64,AAAA' }],
  entries: [
    { id: 'a', finding: { ...threeRoles(), further: `Each renewal ${hostile}` }, units: 'us', note: hostile },
    { id: 'b', finding: causes, units: 'metric' },
  ],
});

const grounds: BriefGrounds = {
  ...{ name: hostile, invented: true, fingerprint: 'abc123', observedFrom: '2019-01-01', observedTo: null },
  ...{ vehicles: 12, lives: 300, failures: 50, miles: 3e7, lateEntries: 9, unknownStarts: 2, failuresUnchecked: 11 },
  states: [
    { value: 'running', lives: 250 },
    { value: 'failed', lives: 50 },
  ],
  mileage: [
    { value: 'measured', lives: 290 },
    { value: 'extrapolated', lives: 10 },
  ],
  scope: { shop: [{ value: hostile, lives: 300 }] },
  ...{ firstInstalled: '2018-01-01', lastInstalled: null, procedures: [] },
  tables: [{ table: 'services', read: 1200, kept: 1190, setAside: 10, reasons: [{ reason: hostile, rows: 10 }] }],
  fields: [{ table: 'services', column: 'lubricant', filled: 3, rows: 4 }],
  repairs: [{ rule: 'reset', rows: 7 }],
  weaknesses: [{ weakness: hostile, effect: 'too few' }],
};

const document = { brief, grounds, figures: { a: '<svg data-drawn="yes"></svg>' } };
const page = briefHtml(document);

describe('the brief as a page', () => {
  test('has the fourteen sections in the order of the trade', () => {
    const heads = [...page.matchAll(/<h2>(\d+) ([^<]+)<\/h2>/g)].map(([, number, title]) => [Number(number), title]);
    expect(heads).toEqual(briefSections.map(({ number, title }) => [number, title]));
    expect(heads.map(([number]) => number)).toEqual(Array.from({ length: 14 }, (_, at) => at + 1));
  });

  test('turns no text into markup, style or script', () => {
    expect(page.match(/<script|<img src=x|onerror="/g)).toBeNull();
    expect(page.match(/<\/style>/g)).toHaveLength(1);
    expect(page.match(/<img /g)).toHaveLength(1);
    expect(page).toContain('&lt;img src=x onerror=&quot;alert(1)&quot;&gt;&amp;');
  });

  test('fetches nothing and lets nothing run', () => {
    expect(page).toContain('default-src &#39;none&#39;; style-src &#39;unsafe-inline&#39;; img-src data:;');
    expect(page).not.toMatch(/(?:src|href)="(?!data:)|url\(|@import/);
  });

  test('fills in what the records say: rows, what was cut off, found late, assumed, and by which version', () => {
    for (const said of [
      '1,190',
      '250 of 300',
      '11 of 50',
      '10 of 300',
      '7 × meter reset',
      'abc123',
      `Hubcause ${toolVersion}`,
    ])
      expect(page).toContain(said);
    expect(page).toContain('Invented records');
    expect(page).toContain('data-drawn="yes"');
  });

  test('says in short what is proposed, what was found how firmly, and how it stands', () => {
    const short = page.slice(page.indexOf('In short'), page.indexOf('1 Problem'));
    expect(short).toContain('newStep &lt;img');
    expect(short.match(/Firmness: fair\./g)).toHaveLength(2);
    expect(short).toContain('Of 2 asked: 1 open, 1 approved with conditions.');
  });

  test('holds who is asked to approve with name, decision, conditions and day', () => {
    const table = page.slice(page.indexOf('<div class="sign">'));
    expect(table).toMatch(/A\. Writer[^]*approved with conditions: &lt;img[^]*2025-03-01[^]*Safety[^]*open/);
  });

  test('lists the cases of a safety-critical deviation however few, and one by one only where they are few', () => {
    const ratio = { hazardRatio: estimate(3.2, 1.9, 5.4, 'ratio') };
    const cases = (many: string) =>
      `Safety-critical: changed on mechanism. ${many}: vehicle 7, axle 1 left: seal (F1).`;
    const [few, many] = [
      { by: { deviation: 'spacer-missing' }, estimates: {} },
      { by: { deviation: 'nut-backed-off' }, estimates: ratio },
    ];
    const told = handFinding('causes', {}, [few, many]);
    const finding = {
      ...told,
      groups: told.groups.map((group, at) => ({
        ...group,
        firmness: at === 0 ? ('too few' as const) : ('fair' as const),
        notes: [cases(at === 0 ? '1 failed case' : '44 failed cases; the first 15 of 44'), 'Other side: it agrees.'],
      })),
    };
    const entries = [{ ...(brief.entries[0] as Brief['entries'][number]), finding }];
    const html = briefHtml({ ...document, brief: { ...brief, entries } });
    expect(html).toMatch(/spacer left out<\/b>:\s*1 failed case: vehicle 7/);
    expect(html).toMatch(/nut backed off<\/b>:\s*44 failed cases\s*<\/li>/);
    expect(html).toMatch(/nut backed off<\/b>: Other side: it agrees\./);
    expect(html).toMatch(/Of 1 more, too few to tell of or not beyond chance,\s+findings\/1-causes\.json/);
  });

  test('tells a method once, whatever the levels of its limits', () => {
    const odd = { ...estimate(3.2, 1.9, 5.4, 'ratio'), level: 0.9 };
    const finding = handFinding('causes', {}, [
      { by: { deviation: 'seal-cocked' }, estimates: { hazardRatio: estimate(3.2, 1.9, 5.4, 'ratio') } },
      { by: { deviation: 'nut-backed-off' }, estimates: { hazardRatio: odd } },
    ]);
    const entries = [{ ...(brief.entries[0] as Brief['entries'][number]), finding }];
    const html = briefHtml({ ...document, brief: { ...brief, entries } });
    expect(html.match(/by hand; 90 to 95\s%/g)).toHaveLength(1);
  });

  test('keeps a day on one line where it stands in a table', () =>
    expect(page).toContain('<span class="day">2025-03-01</span>'));

  test('numbers its pages and says on each that nothing is cleared', () => {
    expect(page).toContain('counter(page) " of " counter(pages)');
    expect(page).toMatch(/@bottom-left \{ content: "[^"]*no wheel end for service/);
  });

  test('says of words that nobody wrote that nobody wrote them', () => {
    const empty = briefHtml({ brief: briefSchema.parse({ brief: 1, entries: [] }), grounds: null, figures: {} });
    // Problem and proposed step are said in short too.
    expect(empty.match(/Not written yet/g)).toHaveLength(briefFields.length + 2);
    expect(empty.match(/Nobody is asked to approve it yet/g)).toHaveLength(2);
    expect(empty).toContain('No finding was put in');
  });

  test('marks a finding that was made from other records', () => {
    expect(page).not.toContain('Made from other records');
    expect(briefHtml({ ...document, grounds: { ...grounds, fingerprint: 'another' } })).toContain(
      'Made from other records than section 3 describes: abc123',
    );
  });

  test('tells what else belongs to an answer beneath it', () =>
    expect(page).toMatch(/class="answer"[^]*class="small">Each renewal &lt;img/));

  test('tells sizes with their intervals', () => expect(page).toMatch(/seal cocked[^]*3\.20 \(1\.90–5\.40\)/));
});

const settings = settingsFileSchema.parse({
  ...{ settings: 1, page: '/brief/', view: viewSchema.parse({ by: ['role'] }), units: 'metric' },
  madeFrom: { name: 'Fleet', records: 'r', fingerprint: 'f' },
  brief: planOf(brief),
});

describe('what stands beside the brief', () => {
  const files = new Map(briefFiles(document, settings).map(({ name, content }) => [name, String(content)]));

  test('has every estimate that the page shows in its CSV', () => {
    for (const [at, { finding, units }] of brief.entries.entries()) {
      const csv = files.get(`numbers/${at + 1}-${finding.question}.csv`) ?? '';
      const shown = findingTable(finding, units).columns.filter(({ key }) =>
        finding.groups.some(({ estimates }) => estimates[key] !== undefined),
      );
      expect(shown.length).toBeGreaterThan(0);
      for (const { key } of shown)
        for (const { estimates, label } of finding.groups) {
          const { value } = estimates[key] ?? { value: null };
          expect(csv.split('\r\n').some((line) => line.includes(label) && line.includes(`${key},${value ?? ''}`))).toBe(
            true,
          );
        }
    }
  });

  test('names methods with their sources, the fingerprint, the version and the cautions', () => {
    const readme = files.get('README.txt') ?? '';
    for (const said of ['abc123', toolVersion, 'by hand', 'Level', 'INVENTED', 'sha256sum --check'])
      expect(readme.toLowerCase()).toContain(said.toLowerCase());
  });

  test('finds what was said beneath an answer and is said otherwise now', () => {
    const said = { ...threeRoles(), further: 'Each renewal is a new installation.' };
    expect(checkedNumbers(said, said).every(({ holds }) => holds)).toBe(true);
    const now = threeRoles();
    expect(checkedNumbers(said, now).filter(({ holds }) => !holds)).toMatchObject([
      { name: 'further', now: 'not there' },
    ]);
  });

  test('keeps brief and settings over a round trip', () => {
    expect(briefIn(briefText(brief))).toEqual(brief);
    expect(settingsIn(settingsText(settings))).toEqual(settings);
    expect(() => settingsIn('{"settings":1}')).toThrow(/view/);
    expect(() => briefIn('{"brief":9}')).toThrow(/version 9/);
    expect(() => briefIn('{"brief":1,"entries":[],"photos":[{"id":"x","name":"x","picture":"https://x"}]}')).toThrow(
      /data URL/,
    );
  });

  test('takes approvals of briefs that held them as lines among the words', () => {
    const old = { brief: 1, entries: [], words: { problem: 'x', approvals: 'Safety\n\n Maintenance ' } };
    const { approvals, words } = briefIn(JSON.stringify(old));
    expect(words).toEqual({ problem: 'x' });
    expect(approvals.map(({ role, decision }) => [role, decision])).toEqual([
      ['Safety', 'open'],
      ['Maintenance', 'open'],
    ]);
    const plan = settingsIn(JSON.stringify({ ...settings, brief: { asks: [], words: { approvals: 'Safety' } } })).brief;
    expect(plan?.approvals).toMatchObject([{ role: 'Safety' }]);
  });

  test('has the version that the package has', () => {
    const text = readFileSync(new URL('../../package.json', import.meta.url), 'utf8');
    expect((JSON.parse(text) as { version: string }).version).toBe(toolVersion);
  });

  test('reads its sums again, and packs into an archive that begins as one', async () => {
    const sums = [{ name: 'a b.txt', sum: 'f'.repeat(64) }];
    expect(sumsIn(sumsText(sums))).toEqual(sums);
    const zip = new Uint8Array(await (await zipOfFiles([{ name: 'a.txt', content: 'x' }])).arrayBuffer());
    expect([...zip.subarray(0, 4)]).toEqual([0x50, 0x4b, 3, 4]);
  });
});
