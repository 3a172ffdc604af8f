import { readFileSync } from 'node:fs';
import type { Page } from 'playwright-core';
import { expect, it } from 'vitest';
import { bookOf, plainRow } from '../records/packing.ts';
import { answered, openFiles, patience, recordFile, usePages } from './page.ts';

const opened = usePages();

/** What would plant an element, set a flag, or ask for a picture, were a text ever taken for markup. */
const planted = (text: string) =>
  `${text}<img data-planted src=planted.png onerror=globalThis.ran=1><svg data-planted onload=globalThis.ran=1>` +
  `<script data-planted>globalThis.ran=1</script><a data-planted href="javascript:globalThis.ran=1">${text}</a>`;
const inXml = (text: string) => text.replaceAll('&', '&amp;').replaceAll('<', '&lt;').replaceAll('"', '&quot;');
const csv = (rows: readonly (readonly string[])[]) =>
  rows.map((row) => row.map((cell) => `"${cell.replaceAll('"', '""')}"`).join(',')).join('\n');

const shops = [planted('North'), planted('South')];
const units = Array.from({ length: 20 }, (_, at) => planted(`T${at}`));
const services = [
  ...['service_id,order_id,unit_id,axle,side,date,miles,shop,technician_key,reason,replaced,seal_lot,lubricant'],
  'lubricant_grade,deviations,comment',
]
  .join()
  .split(',');
const serviceRows = units.flatMap((unit, at) => [
  ...[1, 2].map((year) => [
    ...[planted(`S${year}-${at}`), planted('O'), unit, '1', 'left', `202${year}-03-01`, String(year * 100_000)],
    ...[
      shops[at % 2]!,
      planted('k'),
      'planned',
      'seal',
      planted('L'),
      'oil',
      planted('90'),
      'seal-cocked',
      planted('c'),
    ],
  ]),
]);
const failureRows = units
  .slice(0, 12)
  .map((unit, at) => [planted(`F${at}`), unit, '1', 'left', '2021-09-01', '140000', 'seal-inner', planted('c')]);
const bad = [
  planted('S9'),
  '',
  planted('T9'),
  planted('1'),
  planted('left'),
  planted('day'),
  '',
  ...shops,
  '',
  '',
  '',
  '',
  '',
  '',
  '',
];

const files = [
  recordFile(`services-${planted('x').replaceAll(/["/]/g, '')}.csv`, csv([services, ...serviceRows, bad])),
  recordFile(
    'failures.csv',
    csv([['failure_id', 'unit_id', 'axle', 'side', 'date', 'miles', 'mode', 'comment'], ...failureRows]),
  ),
  recordFile(
    'units.xlsx',
    bookOf({
      sheets: {
        [inXml('Fleet<img data-planted>')]: [
          ['unit_id', 'axle_roles', 'home_shop', planted('header')],
          ...units.map((unit) => [unit, 'steer drive', shops[0]!, 'x']),
        ]
          .map((row) => plainRow(...row.map(inXml)))
          .join(''),
        [inXml('Notes<script data-planted>')]: plainRow('a', 'b') + plainRow('1', '2'),
      },
    }),
  ),
  recordFile('record-set.json', JSON.stringify({ name: planted('Fleet') })),
  recordFile('other<img data-planted>.csv', 'a,b\n1,2\n'),
];

/** Whether anything of a text became an element, ran, or asked for something. */
async function harmless(page: Page, asked: readonly string[], shown: string): Promise<void> {
  expect(await page.locator('body').innerText()).toContain(shown);
  const found = await page.evaluate(() => ({
    planted: document.querySelectorAll('[data-planted], [onerror], [onload], iframe, a[href^="javascript:"]').length,
    ran: 'ran' in globalThis,
  }));
  expect(found).toEqual({ planted: 0, ran: false });
  expect(asked.filter((url) => url.includes('planted'))).toEqual([]);
}

async function toldApartByShop(page: Page): Promise<void> {
  await page.getByRole('button', { name: /^Told apart/ }).click();
  await page.getByLabel('first').selectOption('shop');
  await page.waitForURL(/by=shop/);
  await page.keyboard.press('Escape');
}

it('shows markup in any cell, id, name of a file or sheet as the text it is, on every page and in the report', async () => {
  const { page, context, go } = opened();
  const asked: string[] = [];
  context.on('request', (request) => asked.push(request.url()));
  const turn = async (name: RegExp) => {
    await page.getByRole('navigation').getByRole('link', { name }).first().click();
  };
  await go('records/');
  await page.locator('[data-ready=true]').waitFor();
  await openFiles(page, files);
  await page.locator('[data-set-aside="1"]').waitFor();
  await page.locator('[data-quality=ready]').waitFor();
  await harmless(page, asked, '1<img data-planted');
  const [download] = await Promise.all([
    page.waitForEvent('download'),
    page.getByRole('button', { name: /Data-quality report/ }).click(),
  ]);
  const report = readFileSync(await download.path(), 'utf8');

  await turn(/Lives/);
  await page.locator('.lives-rows a').first().waitFor();
  await harmless(page, asked, '<img data-planted');
  // So long a name is cut off behind the first column's width.
  await page
    .locator('.lives-rows a')
    .first()
    .click({ position: { x: 6, y: 10 } });
  await page.locator('[data-life]').waitFor();
  await expect
    .poll(() => page.locator('.written-cell').first().innerText(), { timeout: patience })
    .toContain('planted');
  await harmless(page, asked, '<img data-planted');

  await turn(/Procedure/);
  await page.locator('.procedure[data-ready=true]').waitFor();
  await harmless(page, asked, 'Procedure');
  for (const question of [/How long/, /How often/, /soaked/]) {
    await page.getByRole('button', { name: 'How parts last' }).click();
    await turn(question);
    await answered(page);
    if (!page.url().includes('by=shop')) await toldApartByShop(page);
    await answered(page);
    await page.locator('main').getByText('North<img data-planted').first().waitFor();
    await harmless(page, asked, 'North<img data-planted');
  }

  // The report is opened without the app's policy, which would have kept a script in it from running.
  const alone = await context.newPage();
  await alone.route('**/report.html', (route) => route.fulfill({ contentType: 'text/html', body: report }));
  await alone.goto(new URL('report.html', page.url()).href);
  await harmless(alone, asked, '<img data-planted');
}, 400_000);
