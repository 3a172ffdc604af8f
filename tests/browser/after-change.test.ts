import { expect, it } from 'vitest';
import { axeFindings, overrun } from './axe-findings.ts';
import { answered, answerOf, usePages } from './page.ts';

const opened = usePages({ bypassCSP: true });
const patience = 240_000;

it(
  'asks when and where, offers the invented changes, judges one, and keeps what is written down',
  { timeout: patience },
  async () => {
    const { page, go } = opened();
    page.setDefaultTimeout(patience);
    await go('after-change/');
    // Nothing to draw yet: no figure is waited for.
    await page.locator('[data-question][data-ready=true]').waitFor();
    expect(await answerOf(page)).toMatch(/Say when and where/);
    expect(await page.locator('.firmness').innerText()).toMatch(
      /^Nothing is judged yet\. First: the day and the shops/,
    );
    await page.getByRole('button', { name: /Brackwell from 2022-07-01/ }).click();
    await page.waitForURL((url) => url.search.includes('changed-shop=Brackwell'));
    await answered(page);
    expect(await answerOf(page)).toMatch(/Fewer failures since[^]*a date given now/);
    for (const name of [/month by month/i, /must not get worse/i, /was it followed/i, /written down$/i])
      expect(await page.getByRole('heading', { name }).count()).toBe(1);
    expect(await axeFindings(page)).toEqual([]);
    expect(await overrun(page)).toBeLessThanOrEqual(0);
    await page.getByLabel('Name', { exact: true }).fill('Dolly at every bay');
    await page.getByRole('button', { name: 'Write it down' }).click();
    await page.locator('[data-changes="1"]').waitFor();
    await answered(page);
    expect(await answerOf(page)).toMatch(/written down afterwards/);
    const [download] = await Promise.all([
      page.waitForEvent('download'),
      page.getByRole('button', { name: 'Save as a file' }).click(),
    ]);
    expect(download.suggestedFilename()).toBe('change-2022-07-01.json');
  },
);

it(
  'says what fewer deviations would save, and restores the choice from the address',
  { timeout: patience },
  async () => {
    const { page, go } = opened();
    page.setDefaultTimeout(patience);
    await go('savings/?saving=seal-cocked&saving-to=zero');
    await answered(page);
    expect(await answerOf(page)).toMatch(/If what goes with the deviation would go away with it/);
    expect(await page.locator('.asked').innerText()).toMatch(/seal cocked[^]*none at all/);
    expect(await axeFindings(page)).toEqual([]);
    expect(await overrun(page)).toBeLessThanOrEqual(0);
  },
);
