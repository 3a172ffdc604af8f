// Files as shops write them: stopped at, confirmed once, and read by themselves the month after.
import { readFileSync } from 'node:fs';
import type { Page } from 'playwright-core';
import { describe, expect, it } from 'vitest';
import { columnMapSchema } from '../../shared/column-map.ts';
import { bookOf, plainRow } from '../records/packing.ts';
import { axeFindings, overrun } from './axe-findings.ts';
import { answered, answerOf, openFiles, recordFile, usePages } from './page.ts';

const fleet = recordFile(
  'fleet list.csv',
  'Unit,Axle Config,New/Used,In Service Date,In Service Miles\n0412,6x4,N,2020-01-02,0\n0413,6x4,N,2020-01-02,0\n',
);

/** Services and failures in one list, told apart by a word; no date says which number is the month. */
const head = 'Record Type,WO Line,Unit No.,Wheel Pos,Repair Date,Odometer,Parts Replaced,Lube,Failure Mode\n';
const march = recordFile(
  'north wo 2024-03.csv',
  `${head}REPAIR,1,0412,LF,03/02/2021,40000,wheel seal,00,
REPAIR,2,0412,RF,03/02/2021,40000,wheel seal,00,
FAILURE,3,0412,LF,05/04/2022,90000,,,Wheel seal leak
REPAIR,4,0412,LF,05/05/2022,90010,wheel seal,gear oil,
REPAIR,5,0413,RR,06/07/2022,95000,wheel seal,gear oil,
TIRE,6,0413,LF,06/08/2022,95100,,,
REPAIR,7,0413,1st drive LH,07/08/2022,99000,"wheel seal, brg set",moly,
FAILURE,8,0413,1st drive LH,08/09/2023,150000,,,Wheel seal leak
`,
);
const april = recordFile(
  'north wo 2024-04.csv',
  `${head}REPAIR,9,0412,RF,04/02/2024,180000,wheel seal,gear oil,
FAILURE,10,0412,LF,04/03/2024,181000,,,Wheel seal leak
`,
);

/** The same records as we write them: month before day, miles, the rear drive axle where the rule says so. */
const ours = [
  recordFile(
    'units.csv',
    'unit_id,axle_roles,acquired,in_service_date,in_service_miles\n0412,steer drive drive,new,2020-01-02,0\n0413,steer drive drive,new,2020-01-02,0\n',
  ),
  recordFile(
    'services.csv',
    `service_id,unit_id,axle,side,date,miles,replaced,lubricant
1,0412,1,left,2021-03-02,40000,seal,semi-fluid
2,0412,1,right,2021-03-02,40000,seal,semi-fluid
4,0412,1,left,2022-05-05,90010,seal,oil
5,0413,3,right,2022-06-07,95000,seal,oil
7,0413,2,left,2022-07-08,99000,seal;bearings,
`,
  ),
  recordFile(
    'failures.csv',
    `failure_id,unit_id,axle,side,date,miles,mode
3,0412,1,left,2022-05-04,90000,seal-unknown
8,0413,2,left,2023-08-09,150000,seal-unknown
`,
  ),
];

const choose = (page: Page, question: RegExp, answer: RegExp) =>
  page.locator('fieldset[data-ask]').filter({ hasText: question }).getByLabel(answer).check();
const confirm = (page: Page) => page.getByRole('button', { name: 'Confirm and open' });
const row = (page: Page, header: string) => page.locator(`tr[data-header="${header}"]`);

type Go = (path: string) => Promise<void>;

/** Opens files in the place of the demo fleet, which is on its way. */
async function opening(page: Page, go: Go, files: Parameters<typeof openFiles>[1]) {
  await go('records/');
  await page.locator('[data-opening]').waitFor();
  await openFiles(page, files);
}

async function stopped(page: Page, go: Go, files: Parameters<typeof openFiles>[1]) {
  await opening(page, go, files);
  await page.locator('[data-waiting] h1').waitFor();
  await page.locator('.outcome[data-settled=true]').waitFor();
}

/** Says everything that the two files leave open. */
async function sayAll(page: Page): Promise<void> {
  await page.getByRole('navigation', { name: 'Sources' }).getByText('north wo').click();
  await choose(page, /No date of this file tells day from month/, /month, day, year/);
  await choose(page, /In which unit is "Odometer"/, /^mi$/);
  await choose(page, /"RR" on units with the axles steer, drive, drive/, /2nd drive right/);
  await choose(page, /which shop did the work/, /Leave the shop unknown/);
  await row(page, 'Lube').getByLabel('moly in Lube means').selectOption('ours ');
  await page.locator('.outcome[data-settled=true]').waitFor();
}

describe.each([
  ['light', 1440],
  ['dark', 390],
] as const)('%s at %i px', (colorScheme, width) => {
  const opened = usePages({ colorScheme, viewport: { width, height: 900 }, bypassCSP: true });

  it('axe finds nothing on the screen, and nothing runs out of it', async () => {
    const { page, go } = opened();
    await stopped(page, go, [fleet, march]);
    for (const source of ['fleet list', 'north wo']) {
      await page.getByRole('navigation', { name: 'Sources' }).getByText(source).click();
      await page.locator(`.source[data-source="${source}"] .outcome[data-settled=true]`).waitFor();
      await page.locator('.place-in-file summary').click();
      expect(await axeFindings(page)).toEqual([]);
      expect(await overrun(page)).toBeLessThanOrEqual(0);
    }
    await page.getByRole('button', { name: 'Put them away' }).click();
    await page.getByText('No file waits for an answer').waitFor();
    expect(await axeFindings(page)).toEqual([]);
  });
});

describe('files of shops', () => {
  const opened = usePages();

  it('stops at files that are not in our layout, asks, and answers as the same records do in our own', async () => {
    const { page, go } = opened();
    await stopped(page, go, [fleet, march]);
    expect(await confirm(page).isDisabled()).toBe(true);
    await sayAll(page);
    // Eight rows, of which the one about a tyre is passed over.
    const outcome = page.locator('.outcome');
    expect(await outcome.getByRole('status').innerText()).toMatch(
      /All 8 rows .* 7 would be kept \(5 services, 2 failures\), 1 set aside, 1 of them passed over/,
    );
    expect(await row(page, 'Wheel Pos').locator('.becomes').textContent()).toMatch(/LF becomes\s*→ axle 1 left/);
    expect(await row(page, 'Repair Date').locator('.becomes').textContent()).toMatch(
      /03\/02\/2021 becomes\s*→ 2021-03-02/,
    );
    expect(await row(page, 'Lube').getByLabel('00 in Lube means').inputValue()).toBe('ours semi-fluid');
    await confirm(page).click();
    await page.locator('[data-ready=true] [data-set-aside="1"]').waitFor();
    expect(await page.locator('[data-read-by="north wo"]').innerText()).toMatch(
      /Read by the map of north wo, saved \d{4}-\d{2}-\d{2}\. Change/,
    );
    const answers = async () => {
      await page.getByRole('button', { name: 'How parts last' }).click();
      await page
        .getByRole('navigation', { name: 'Questions' })
        .getByRole('link', { name: /how often/i })
        .click();
      await answered(page);
      return answerOf(page);
    };
    const theirs = await answers();
    await opening(page, go, ours);
    await page.locator('[data-set-aside="0"]').waitFor();
    expect(await answers()).toBe(theirs);
  });

  it('reads next month’s file without asking, and says by which map; change leads back', async () => {
    const { page, go } = opened();
    await stopped(page, go, [fleet, march]);
    await sayAll(page);
    await confirm(page).click();
    await page.locator('[data-read-by="north wo"]').waitFor();
    await opening(page, go, [fleet, april]);
    await page.locator('[data-set-aside="0"] >> text=No row was set aside').waitFor();
    await page.getByRole('button', { name: /Change the map of north wo/ }).click();
    await page.locator('.source[data-source="north wo"]').waitFor();
    // What was said once stands, and nothing is asked again.
    expect(await row(page, 'Repair Date').getByLabel('Ours for Repair Date').inputValue()).toBe('date');
    await row(page, 'Lube').getByLabel('Ours for Lube').selectOption('');
    await page.locator('.outcome[data-settled=true]').waitFor();
    await confirm(page).click();
    await page
      .getByText(/Not used: .*Lube/)
      .first()
      .waitFor();
  });

  it('gives maps as JSON and takes them, dropped along with the files or brought in', async () => {
    const { page, go } = opened();
    await stopped(page, go, [fleet, march]);
    await sayAll(page);
    const [download] = await Promise.all([
      page.waitForEvent('download'),
      page.getByRole('button', { name: 'Maps (JSON)' }).click(),
    ]);
    const text = readFileSync(await download.path(), 'utf8');
    const maps = (JSON.parse(text) as unknown[]).map((map) => columnMapSchema.parse(map));
    expect(maps.map(({ source }) => source).sort()).toEqual(['fleet list', 'north wo']);
    await page.getByRole('button', { name: 'Put them away' }).click();
    await page.getByText('No file waits for an answer').waitFor();
    // Along with the files they are read without asking, and nothing is kept.
    await openFiles(page, [fleet, march, recordFile('maps.json', text)]);
    await page.locator('.opened', { hasText: '2 vehicles' }).waitFor();
    await page.reload();
    await page.locator('[data-kept="0"]').waitFor();
    await page.locator('input[data-open=column-map]').setInputFiles([recordFile('maps.json', text)]);
    await page.locator('[data-kept="2"]').waitFor();
    await page.getByRole('button', { name: 'Forget fleet list' }).click();
    await page.locator('[data-kept="1"]').waitFor();
  });

  it.each([
    ['{"version":2,"recognised":{}}', 'is a column map of version 2; version 1 is read here'],
    ['{', 'is no JSON'],
    ['{"version":1,"recognised":{"headers":["a"]}}', 'is no column map'],
  ])('refuses %s with the reason', async (text, why) => {
    const { page, go } = opened();
    await go('records/columns/');
    await page.locator('[data-kept]').waitFor();
    await page.locator('input[data-open=column-map]').setInputFiles([recordFile('odd.json', text)]);
    const refused = page.locator('[data-refused=true]');
    await refused.waitFor();
    expect(await refused.innerText()).toContain(why);
    expect(await refused.innerText()).toContain('odd.json was not taken');
  });

  it('asks in which sheet and below which row the records stand, shows the rows there, and keeps it in the map', async () => {
    const { page, go } = opened();
    const cells = [
      ['Work', 'of', 'the', 'north', 'yard', 'only', 'this', 'year', 'so far'],
      ...march.buffer
        .toString()
        .split('\n')
        .filter((line) => /^(Record Type|REPAIR,[12]),/.test(line))
        .map((line) => line.split(',')),
    ];
    const rows = (list: readonly (readonly string[])[]) => list.map((row) => plainRow(...row)).join('');
    const book = bookOf({ sheets: { 'last year': rows(cells.slice(1, 3)), 'this year': rows(cells) } });
    await stopped(page, go, [fleet, recordFile('services north.xlsx', book)]);
    await page.getByRole('navigation', { name: 'Sources' }).getByText('services north').click();
    await page.locator('details[data-place="sheet last year, headers in row 1, as found"] summary').click();
    const sheet = page.getByLabel('Sheet');
    expect(await sheet.locator('option').allInnerTexts()).toEqual(['last year: 2 rows', 'this year: 4 rows']);
    await sheet.selectOption('this year');
    await page.locator('.their-columns tr[data-header="so far"]').waitFor();
    await page.getByLabel('The headers stand in row').fill('2');
    await page.locator('.their-columns tr[data-header="Wheel Pos"]').waitFor();
    await page.locator('.first-rows tr.headers[data-row="2"]', { hasText: 'Wheel Pos' }).waitFor();
    await page.getByLabel('The headers stand in row').fill('9');
    await page.getByText('This file has no row 9 that could hold headers; what was chosen before holds.').waitFor();
    const [download] = await Promise.all([
      page.waitForEvent('download'),
      page.getByRole('button', { name: 'Maps (JSON)' }).click(),
    ]);
    const maps = JSON.parse(readFileSync(await download.path(), 'utf8')) as { where?: object }[];
    expect(maps.flatMap(({ where }) => (where ? [where] : []))).toEqual([{ sheet: 'this year', headerRow: 2 }]);
  });

  it('takes a file of maps alone for what it is, wherever files are opened', async () => {
    const { page, go } = opened();
    await go('records/');
    await page.locator('[data-opening]').waitFor();
    const map = {
      ...{
        version: 1,
        source: 'fleet list',
        recognised: { headers: ['Unit', 'Axle Config'] },
        feeds: { table: 'units' },
      },
      tables: {
        units: ['unit_id', 'axle_roles'].map((ours, at) => ({ ours, from: [{ header: ['Unit', 'Axle Config'][at] }] })),
      },
      ...{ dates: {}, numbers: { decimal: 'point' } },
    };
    await openFiles(page, [recordFile('maps of ours.json', JSON.stringify([map]))]);
    await page.getByText('fleet list from maps of ours.json will read files with these headers from now on.').waitFor();
    expect(await page.locator('[data-trouble]').count()).toBe(0);
    await page.getByRole('button', { name: 'Put this note away' }).click();
  });

  it('loses nothing while another page is looked at, and works by keyboard', async () => {
    const { page, go } = opened();
    await stopped(page, go, [fleet, march]);
    await page.getByRole('navigation', { name: 'Sources' }).getByText('north wo').focus();
    await page
      .getByRole('navigation', { name: 'Sources' })
      .getByRole('button', { name: /north wo/ })
      .focus();
    await page.keyboard.press('Enter');
    await page.locator('.source[data-source="north wo"]').waitFor();
    const first = page.locator('fieldset[data-ask] input[type=radio]').first();
    await first.focus();
    await page.keyboard.press('Space');
    expect(await first.isChecked()).toBe(true);
    const question = await page.locator('fieldset[data-ask]').first().getAttribute('data-ask');
    await page.getByRole('navigation', { name: 'Questions' }).getByRole('link', { name: 'Procedure' }).click();
    await page.getByRole('link', { name: 'Say what their columns mean' }).click();
    await page.locator('.source[data-source="north wo"]').waitFor();
    expect(await page.locator(`fieldset[data-ask="${question}"] input[type=radio]`).first().isChecked()).toBe(true);
  });
});
