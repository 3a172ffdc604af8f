import { expect, it } from 'vitest';
import { openFiles, patience, recordFile, usePages } from './page.ts';

const opened = usePages();
const within = { timeout: patience };

it('what was taken for true is shown, changed, told and put back', async () => {
  const { page, go } = opened();
  await go('records/');
  await page.locator('[data-taken=ready]').waitFor();
  const before = await page.locator('.windows p').first().innerText();
  expect(before).toMatch(/^Declared: \d{4}-\d\d-\d\d to /);
  await page.getByLabel('all records, watched from').fill('2023-01-01');
  await page.getByRole('button', { name: 'Rebuild the lives by this' }).click();
  await page.locator('.taken .change').waitFor();
  expect(await page.locator('.taken .change').innerText()).toMatch(
    /Seal lives [\d,]+, before it [\d,]+; .*miles at risk/,
  );
  expect(await page.locator('.windows p').first().innerText()).toContain('Declared: 2023-01-01');
  await page.getByRole('button', { name: 'Rebuild them as before' }).click();
  await expect.poll(() => page.locator('.windows p').first().innerText(), within).toBe(before);

  await page.locator('details[data-repairs] summary').click();
  const rows = page.locator('details[data-repairs] tbody tr');
  await rows.first().waitFor();
  expect(await rows.first().innerText()).toMatch(/row [\d,]+/);
});

it('rows said before are counted, kept where that is wanted, and set aside again', async () => {
  const { page, go } = opened();
  const head = 'service_id,order_id,unit_id,axle,side,date,miles,replaced,comment';
  const rows = ['1,w1,7,1,left,2021-03-04,40000,seal,', '2,w1,7,1,left,2021-04-20,40000,seal,billed again'];
  await go('records/');
  await page.locator('[data-opening]').waitFor();
  await openFiles(page, [recordFile('services.csv', [head, ...rows, ''].join('\n'))]);
  await page.locator('[data-set-aside="1"]').waitFor();
  const rule = page.locator('.duplicate-rules tr', { hasText: 'an order opened again' });
  expect(await rule.getByRole('cell').innerText()).toBe('1');
  await rule.getByRole('checkbox').uncheck();
  await page.getByRole('button', { name: 'Rebuild the lives by this' }).click();
  await page.locator('[data-set-aside="0"]').waitFor();
  // Work said twice at the same miles makes no other life: that is what the rule says, too.
  await page.getByText('The change altered no count of lives, failures or miles.').waitFor();
  expect(await rule.getByRole('checkbox').isChecked()).toBe(false);
  expect(await rule.getByRole('cell').innerText()).toBe('0');
  await page.getByRole('button', { name: 'Rebuild them as before' }).click();
  await page.locator('[data-set-aside="1"]').waitFor();
});

it('a window that ends before it begins cannot be applied', async () => {
  const { page, go } = opened();
  await go('records/');
  await page.locator('[data-taken=ready]').waitFor();
  await page.getByLabel('all records, watched from').fill('2024-01-01');
  await page.getByLabel('all records, watched to').fill('2023-01-01');
  expect(await page.getByRole('button', { name: 'Rebuild the lives by this' }).isDisabled()).toBe(true);
  expect(await page.locator('.taken [role=alert]').innerText()).toContain('must not end before it begins');
});
