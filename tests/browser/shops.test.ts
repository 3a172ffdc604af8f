import { expect, it } from 'vitest';
import { axeFindings, overrun } from './axe-findings.ts';
import { answered, answerOf, usePages } from './page.ts';

const opened = usePages({ bypassCSP: true });
const patience = 240_000;

it(
  'compares the shops of the demo fleet: ranking, funnel, mix, trend, what was recorded, severe events',
  { timeout: patience },
  async () => {
    const { page, go } = opened();
    page.setDefaultTimeout(patience);
    await go('shops/');
    await answered(page);
    expect(await answerOf(page)).toMatch(/on like work/);
    for (const name of [/chance alone/i, /plain to like for like/i, /by quarter/i, /written down/i, /severe events/i])
      expect(await page.getByRole('heading', { name }).count()).toBe(1);
    await page.locator('figure svg').nth(1).waitFor();
    expect(await page.locator('main').innerText()).toMatch(/ranks no person/);
    const shown = await page.locator('.register tbody tr').count();
    await page.getByRole('button', { name: /show all/i }).click();
    expect(await page.locator('.register tbody tr').count()).toBeGreaterThan(shown);
    expect(await axeFindings(page)).toEqual([]);
    expect(await overrun(page)).toBeLessThanOrEqual(0);
    const [download] = await Promise.all([
      page.waitForEvent('download'),
      page.getByRole('button', { name: /CSV/ }).first().click(),
    ]);
    expect(download.suggestedFilename()).toMatch(/^shops.*csv$/);
  },
);

it(
  'restores whose it counts as from the address, and warns of what finding compares',
  { timeout: patience },
  async () => {
    const { page, go } = opened();
    page.setDefaultTimeout(patience);
    await go('shops/?attribution=finding&component=bearing');
    await answered(page);
    expect(await page.locator('.asked').innerText()).toMatch(
      /bearings that failed; compared are[^]*by who[^]*found how it ended/,
    );
    await page.getByRole('button', { name: /whose it counts as/i }).click();
    expect(await page.locator('.chooser:popover-open').innerText()).toMatch(/not whose work failed/);
    await page.getByRole('radio', { name: 'fitted the part' }).check();
    await page.waitForURL((url) => !url.search.includes('attribution'));
    await answered(page);
    expect(await page.locator('.asked').innerText()).toMatch(/by who[^]*fitted the part/);
  },
);
