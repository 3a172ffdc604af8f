import { readFile } from 'node:fs/promises';
import { expect, it } from 'vitest';
import { axeFindings, overrun } from './axe-findings.ts';
import { answered, answerOf, usePages } from './page.ts';

const opened = usePages({ bypassCSP: true });
const patience = 240_000;

it('plans a renewal by costs entered, and lists what is ahead', { timeout: patience }, async () => {
  const { page, go } = opened();
  page.setDefaultTimeout(patience);
  await go('renewal/?role=trailer');
  await answered(page);
  expect(await answerOf(page)).toMatch(/planned renewal costs least at [\d,]+ miles/);
  const before = await answerOf(page);
  await page.getByRole('button', { name: /what a soaked lining adds/i }).click();
  await page.getByRole('textbox', { name: /soaked lining adds/i }).fill('2000');
  await page.getByRole('button', { name: 'Take this cost' }).click();
  await page.waitForURL((url) => url.searchParams.get('lining-cost') === '2000');
  await page.waitForFunction((text) => document.querySelector('.answer')?.textContent !== text, before);
  await answered(page);
  expect(await axeFindings(page)).toEqual([]);
  expect(await overrun(page)).toBeLessThanOrEqual(0);

  await go('ahead/?ahead=miles&ahead-miles=10000&role=trailer');
  await answered(page);
  expect(await answerOf(page)).toMatch(/Over the next 10,000 miles [\d,]+ leaks \([\d,]+ to [\d,]+\) are expected/);
  for (const name of [/look first/i, /cut open/i]) expect(await page.getByRole('heading', { name }).count()).toBe(1);
  expect(await page.locator('main').innerText()).toMatch(/No list clears a wheel end/);
  expect(await axeFindings(page)).toEqual([]);
  const [download] = await Promise.all([
    page.waitForEvent('download'),
    page.getByRole('button', { name: 'List (CSV)' }).first().click(),
  ]);
  expect(download.suggestedFilename()).toBe('inspection-invented.csv');
  expect(await readFile(await download.path(), 'utf8')).toMatch(/life_id,unit_id,.*\r\n.*INVENTED/);
  await page.locator('section[aria-labelledby=inspection] tbody a').first().click();
  await page.waitForURL(/\/lives\/.*life=/);
});
