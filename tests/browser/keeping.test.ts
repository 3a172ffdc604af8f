import type { Page } from 'playwright-core';
import { expect, it } from 'vitest';
import { openFiles, recordFile, usePages } from './page.ts';

const opened = usePages();

const services = (unit: string) =>
  recordFile(
    'services.csv',
    `service_id,unit_id,axle,side,date,miles,replaced,reason\ns1,${unit},1,left,2021-03-01,50000,seal,planned\ns2,${unit},1,middle,2021-03-01,50000,seal,planned`,
  );
const failures = (unit: string) =>
  recordFile(
    'failures.csv',
    `failure_id,unit_id,axle,side,date,miles,mode\nf1,${unit},1,left,2021-09-01,70000,seal-inner`,
  );

async function openUnit(page: Page, unit: string): Promise<void> {
  await openFiles(page, [services(unit), failures(unit)]);
  await page.locator('[data-set-aside="1"]').waitFor();
}
const keep = (page: Page) => page.getByLabel(/keep these records/i);
const fingerprint = (page: Page) => page.locator('.fingerprint').first().innerText();

async function keptRecords(page: Page, go: (path: string) => Promise<void>, unit: string): Promise<string> {
  await go('records/');
  await page.locator('[data-ready=true]').waitFor();
  await openUnit(page, unit);
  await keep(page).check();
  await page.locator('[data-keeping=kept]').waitFor();
  return fingerprint(page);
}

it('keeps records over a reload only when told to, the account the same to the row', async () => {
  const { page, go } = opened();
  await go('records/');
  await page.locator('[data-ready=true]').waitFor();
  await openUnit(page, '007');
  const before = await fingerprint(page);
  await page.reload();
  await page.locator('[data-ready=true]').waitFor();
  expect(await fingerprint(page)).not.toBe(before);
  await openUnit(page, '007');
  await keep(page).check();
  await page.locator('[data-keeping=kept]').waitFor();
  await page.reload();
  await page.locator('[data-set-aside="1"]').waitFor();
  expect(await fingerprint(page)).toBe(before);
  expect(await keep(page).isChecked()).toBe(true);
});

it('forgets everything: nothing is left in the browser, and the demo fleet opens next time', async () => {
  const { page, go } = opened();
  await keptRecords(page, go, '007');
  await page.getByRole('button', { name: 'Forget everything' }).click();
  await page.getByText(/No records are open/).waitFor();
  const left = await page.evaluate(async () => {
    const root = await navigator.storage.getDirectory();
    const drawer = await root.getDirectoryHandle('hubcause');
    const names: string[] = [];
    for await (const name of drawer.keys()) names.push(name);
    return names;
  });
  expect(left).toEqual([]);
  await page.reload();
  await page
    .getByText(/invented records/i)
    .first()
    .waitFor();
});

it('tells the other tab when what is kept changes, and both keep working', async () => {
  const { page, context, go } = opened();
  await keptRecords(page, go, '007');
  const other = await context.newPage();
  await other.goto(page.url());
  await other.locator('[data-keeping=kept]').waitFor();
  await openUnit(other, '008');
  await page.locator('[data-elsewhere=replaced]').waitFor();
  await other.getByRole('button', { name: 'Forget everything' }).click();
  await page.locator('[data-elsewhere=forgotten]').waitFor();
  expect(await page.locator('[data-set-aside="1"]').count()).toBe(1);
});

it('leaves the set before whole where a tab dies while keeping another', async () => {
  const { page, context, go } = opened();
  const before = await keptRecords(page, go, '007');
  // Every write of the second set hangs, and the tab is closed in the middle of it.
  await page.evaluate(() => {
    FileSystemFileHandle.prototype.createWritable = () => new Promise(() => undefined);
  });
  await openUnit(page, '008');
  await page.locator('[data-keeping=saving]').waitFor();
  const next = await context.newPage();
  await page.close();
  await next.goto(page.url());
  await next.locator('[data-set-aside="1"]').waitFor();
  expect(await fingerprint(next)).toBe(before);
});

it('says when the browser has no room, and keeps what was kept', async () => {
  const { page, go } = opened();
  const before = await keptRecords(page, go, '007');
  await page.evaluate(() => {
    FileSystemFileHandle.prototype.createWritable = () =>
      Promise.reject(new DOMException('no room', 'QuotaExceededError'));
  });
  await openUnit(page, '008');
  await page
    .locator('[data-kept-trouble]')
    .getByText(/no room to keep/)
    .waitFor();
  await page.reload();
  await page.locator('[data-set-aside="1"]').waitFor();
  expect(await fingerprint(page)).toBe(before);
});

it.each([
  ['a newer version', '{"version":99,"folder":"x"}', /version 99/],
  ['damage', '{"version":1,', /damaged/],
  ['files that are gone', null, /missing or damaged/],
])('opens clean with a message over %s', async (_, written, says) => {
  const { page, go } = opened();
  await keptRecords(page, go, '007');
  await page.evaluate(async (text) => {
    const root = await navigator.storage.getDirectory();
    const drawer = await root.getDirectoryHandle('hubcause');
    if (text === null) {
      for await (const name of drawer.keys()) {
        if (name.startsWith('set-')) await drawer.removeEntry(name, { recursive: true });
      }
      return;
    }
    const file = await (await drawer.getDirectoryHandle('current')).getFileHandle('kept.json');
    const writable = await file.createWritable();
    await writable.write(text);
    await writable.close();
  }, written);
  await page.reload();
  await page.locator('[data-kept-trouble]').getByText(says).waitFor();
  await page.locator('[data-ready=true]').waitFor();
  await page.getByRole('button', { name: 'Forget what was kept' }).click();
  await page.locator('[data-kept-trouble]').waitFor({ state: 'detached' });
});
