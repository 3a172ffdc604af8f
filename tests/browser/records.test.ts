import { readFileSync } from 'node:fs';
import { expect, it } from 'vitest';
import { answered, openFiles, recordFile, usePages } from './page.ts';

const opened = usePages();

const services = [
  'service_id,unit_id,axle,side,date,miles,replaced,reason,shop,lubricant,comment',
  's1,007,1,left,2021-03-01,50000,seal,planned,North,oil,',
  's2,007,1,right,2021-03-01,50000,seal,failure,North,oil,"<img src=x onerror=alert(1)>"',
  's3,007,1,middle,2021-03-01,50000,seal,planned,North,oil,=1+1',
  's4,007,1,left,2022-30-01,90000,seal,planned,North,oil,',
].join('\n');
const failures = ['failure_id,unit_id,axle,side,date,miles,mode', 'f1,007,1,left,2021-09-01,70000,seal-inner'].join(
  '\n',
);

it('imports files, shows what is set aside, and exports it', async () => {
  const { page, go } = opened();
  await go('records/');
  await page.locator('[data-ready=true]').waitFor();
  await openFiles(page, [recordFile('services-north.csv', services), recordFile('failures.csv', failures)]);
  const aside = page.locator('[data-set-aside="2"]');
  await aside.waitFor();
  const rows = await aside.locator('table.set-aside tbody tr').allInnerTexts();
  expect(rows).toHaveLength(2);
  expect(rows[0]).toMatch(/services-north\.csv\s+4\s+side\s+middle.*left, right/s);
  expect(rows[1]).toMatch(/5\s+date\s+2022-30-01/);
  const [download] = await Promise.all([
    page.waitForEvent('download'),
    page.getByRole('button', { name: /set aside \(CSV\)/ }).click(),
  ]);
  const csv = readFileSync(await download.path(), 'utf8');
  expect(csv.split('\r\n').filter(Boolean)).toHaveLength(3);
  expect(csv).toContain('middle');
});

it('asks the imported records, and says that few failures are few', async () => {
  const { page, go } = opened();
  await go('records/');
  await page.locator('[data-ready=true]').waitFor();
  await openFiles(page, [recordFile('services.csv', services), recordFile('failures.csv', failures)]);
  await page.locator('[data-set-aside="2"]').waitFor();
  await page.getByRole('button', { name: 'How parts last' }).click();
  await page
    .getByRole('navigation', { name: 'Questions' })
    .getByRole('link', { name: /how often/i })
    .click();
  await answered(page);
  expect(await page.locator('.firmness').first().innerText()).toMatch(/too few/i);
});

it('says what is wrong with files that hold nothing usable', async () => {
  const { page, go } = opened();
  await go('records/');
  await page.locator('[data-ready=true]').waitFor();
  await openFiles(page, [recordFile('services.csv', 'a,b\n1,2\n')]);
  await page
    .getByText(/no column service_id/)
    .first()
    .waitFor();
});

it('forgets the records when told to', async () => {
  const { page, go } = opened();
  await go('records/');
  await page.locator('[data-ready=true]').waitFor();
  await page.getByRole('button', { name: /forget everything/i }).click();
  await page
    .getByText(/no records are open/i)
    .first()
    .waitFor();
});
