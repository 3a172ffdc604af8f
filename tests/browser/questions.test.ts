import { describe, expect, it } from 'vitest';
import { answered, answerOf, usePages } from './page.ts';

const opened = usePages();

describe('the built app, below a sub-path and a strict policy', () => {
  it('opens on the demo fleet, says that it is invented, and answers every question at a glance', async () => {
    const { page, go } = opened();
    await go('.');
    await answered(page);
    expect(await page.locator('.invented').first().innerText()).toMatch(/invented/i);
    const glances = page.locator('.glance [data-question]');
    expect(await glances.evaluateAll((parts) => parts.map((part) => part.getAttribute('data-question')))).toEqual([
      'seal-life',
      'mean-miles',
      'contamination',
      'causes',
      'shops',
      'ahead',
    ]);
    for (const text of await glances.locator('.glance-answer').allInnerTexts()) expect(text).toMatch(/\d/);
    expect(await glances.locator('svg').count()).toBeGreaterThanOrEqual(6);
  });

  it.each(['seal-life', 'mean-miles', 'contamination'])(
    'answers %s with sentence, firmness, figure, doubts, table and cautions',
    async (question) => {
      const { page, go } = opened();
      await go(`${question}/?by=role`);
      await answered(page);
      expect(await answerOf(page)).toMatch(/\d/);
      expect(await page.locator('.firmness').first().innerText()).toMatch(/firm|fair|thin|too few/i);
      expect(await page.locator('figure svg').count()).toBeGreaterThan(0);
      expect(await page.getByRole('heading', { name: /doubts/i }).count()).toBeGreaterThan(0);
      expect(await page.locator('table').last().locator('tbody tr').count()).toBeGreaterThanOrEqual(3);
      expect(await page.locator('body').innerText()).toMatch(/clears a wheel end for service/);
    },
  );

  it('restores a view from its address, and writes every choice back into it', async () => {
    const { page, go } = opened();
    await go('seal-life/?by=dev_seal_cocked&lubricant=oil&horizon=50000&units=metric');
    await answered(page);
    const first = await answerOf(page);
    expect(await page.locator('main').innerText()).toMatch(/km/);
    await page.reload();
    await answered(page);
    expect(await answerOf(page)).toBe(first);
    expect(page.url()).toMatch(/by=dev_seal_cocked/);
  });

  it('says what it could not use of a link', async () => {
    const { page, go } = opened();
    await go('seal-life/?by=zeal&horizon=-3');
    await answered(page);
    expect(await page.locator('.notice').count()).toBeGreaterThan(0);
  });

  it('keeps answering with the network cut', async () => {
    const { page, context, errors, go } = opened();
    await go('seal-life/?by=role');
    await answered(page);
    await context.setOffline(true);
    await page.getByRole('slider').focus();
    await page.keyboard.press('ArrowRight');
    await page.waitForURL(/horizon=/);
    await answered(page);
    expect(await answerOf(page)).toMatch(/\d/);
    // Fetching pages ahead is all that may fail now; the browser says so of itself.
    expect(errors.filter((text) => !text.includes('ERR_INTERNET_DISCONNECTED'))).toEqual([]);
    errors.length = 0;
  });

  it('lets a finding be taken away as table, figure and JSON', async () => {
    const { page, go } = opened();
    await go('mean-miles/?by=role');
    await answered(page);
    for (const [name, ending] of [
      [/CSV/, 'csv'],
      [/Arrow/, 'arrow'],
      [/SVG/, 'svg'],
      [/PNG/, 'png'],
      [/JSON/, 'json'],
    ] as const) {
      const [download] = await Promise.all([
        page.waitForEvent('download'),
        page.getByRole('button', { name }).first().click(),
      ]);
      expect(download.suggestedFilename()).toMatch(new RegExp(`${ending}$`));
    }
  });
});
