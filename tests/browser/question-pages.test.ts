import { expect, it } from 'vitest';
import { answered, answerOf, patience, usePages } from './page.ts';

const opened = usePages();

it(
  'reaches every question from the contents, and each answers with figure, doubts, numbers and choices in the address',
  { timeout: patience * 3 },
  async () => {
    const { page, go } = opened();
    const turn = async (part: string, question: RegExp, path: RegExp) => {
      await page.getByRole('button', { name: part, exact: true }).click();
      await page.locator('.contents').getByRole('link', { name: question }).click();
      await page.waitForURL(path);
      await answered(page);
      expect(await page.locator('.contents-list:popover-open').count()).toBe(0);
    };
    await go('detection/');
    await answered(page);
    expect(await answerOf(page)).toMatch(/found leaking by 100,000 miles[^]*begun/);
    for (const name of [/by finding and by beginning/i, /looked at/i, /soaked linings and failed bearings/i])
      expect(await page.getByRole('heading', { name }).count()).toBe(1);
    expect(await page.locator('.numbers tbody tr').count()).toBeGreaterThanOrEqual(3);
    expect(await page.locator('.sentence').innerText()).toMatch(/told apart by[^]*lubricant/);

    await turn('How parts last', /Repeats/, /repeats/);
    await page.getByRole('button', { name: /^Comeback window/ }).click();
    await page.getByLabel(/Early is up to/).fill('10000');
    await page.keyboard.press('Enter');
    await page.waitForURL(/early=10000/);
    await page.keyboard.press('Escape');
    await answered(page);
    expect(await answerOf(page)).toMatch(/Within 10,000 miles/);

    await turn('Why they fail', /Dose/, /dose/);
    await page.getByRole('button', { name: /^Measured value/ }).click();
    await page.getByLabel('end play', { exact: true }).check();
    await page.waitForURL(/deviation=end-play-high/);
    await page.keyboard.press('Escape');
    await page.getByRole('button', { name: /^Units/ }).click();
    await page.waitForURL(/units=metric/);
    await answered(page);
    expect(await answerOf(page)).toMatch(/window of 0\.025 to 0\.127 mm/);
    expect(await page.locator('.numbers tbody').innerText()).toMatch(/mm/);
    expect(await page.locator('main').innerText()).not.toMatch(/lbf·ft|0\.\d+ in\b/);

    await turn('Why they fail', /Rule strip/, /rules/);
    expect(await answerOf(page)).toMatch(/with \w+ other defensible rules/);
    expect(await page.locator('.numbers tbody tr').count()).toBeGreaterThan(8);
  },
);
