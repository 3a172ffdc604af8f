import { readFile } from 'node:fs/promises';
import { expect, it } from 'vitest';
import { axeFindings, overrun } from './axe-findings.ts';
import { answered, answerOf, usePages } from './page.ts';

const opened = usePages({ bypassCSP: true });
/** A ranking takes its time on a busy machine. */
const patience = 300_000;

it(
  'ranks the demo fleet: answer, figure, cases, mechanisms and teardowns; the files hold what the screen leaves out',
  { timeout: patience },
  async () => {
    const { page, go } = opened();
    page.setDefaultTimeout(patience);
    await go('causes/');
    await answered(page);
    expect(await answerOf(page)).toMatch(/^Seals leak [^]* times as often/);
    const text = await page.locator('main').innerText();
    expect(text).toMatch(/goes with what/);
    expect(text).not.toMatch(/caused/i);
    expect(text).toMatch(/changed on mechanism, not on statistics/);
    for (const name of [/safety-critical/i, /thought to do/i, /at teardown only/i, /what it does not/i])
      expect(await page.getByRole('heading', { name }).count()).toBe(1);
    const heads = await page.locator('.numbers thead th').allInnerTexts();
    expect(heads.length).toBeLessThanOrEqual(12);
    expect(await page.locator('.numbers tbody tr').count()).toBeGreaterThan(10);
    expect(await axeFindings(page)).toEqual([]);
    expect(await overrun(page)).toBeLessThanOrEqual(0);
    const [download] = await Promise.all([
      page.waitForEvent('download'),
      page.getByRole('button', { name: /CSV/ }).first().click(),
    ]);
    expect(await readFile(await download.path(), 'utf8')).toMatch(/,hazardRatioIfUnknownYes,/);
  },
);

it('looks into one deviation from the address, can be stopped, and says so', { timeout: patience }, async () => {
  const { page, go } = opened();
  page.setDefaultTimeout(patience);
  await go('causes/?deviation=nut-backed-off&early=30000&adjust=role+lubricant');
  await page.locator('[data-progress=working]').waitFor();
  await page.locator('.progress-strip').getByRole('button', { name: 'Stop' }).click();
  await page.locator('[data-progress=stopped]').waitFor();
  expect(await page.locator('.progress-strip').innerText()).toMatch(/not all/);
  await page.getByRole('button', { name: 'Go on' }).click();
  await answered(page);
  expect(await page.locator('[data-deviation]').getAttribute('data-deviation')).toBe('nut-backed-off');
  expect(await page.locator('.asked').innerText()).toMatch(/30,000 mi, with[^]*axle role, lubricant taken/);
  expect(await page.locator('.looked-into').innerText()).toMatch(/Without one shop[^]*shuffled within shops/);
  await page.locator('.receipt summary').first().click();
  await page.locator('.receipt details').first().waitFor();
  expect(await page.locator('.receipt').innerText()).toMatch(/rows|Rows/);
});
