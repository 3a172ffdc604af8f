import { expect, it } from 'vitest';
import { patience, usePages } from './page.ts';

const opened = usePages();

it('opens the demo fleet as five shops would export it, without a question', { timeout: 2 * patience }, async () => {
  const { page, go } = opened();
  await go('records/');
  await page.locator('[data-ready=true]').waitFor();
  await page.getByRole('button', { name: 'Open it as five shops would export it' }).click();
  await page.getByText('trailer_yard.xlsx/Breakdowns').first().waitFor();
  expect(await page.locator('.invented').first().innerText()).toMatch(/invented/i);
  // Every kind of mess that sets a row aside has its row there, with the file's own words.
  const aside = await page.locator('[data-set-aside] table.set-aside tbody').innerText();
  expect(aside).toMatch(/check_sheets\.zip\/check_sheets\.csv/);
});
