import { expect, it } from 'vitest';
import { answered, answerOf, usePages } from './page.ts';

const opened = usePages({ serviceWorkers: 'allow' }, true);

/** One opening for all of it: the demo, a finding, the brief, the keys, and the same again without a network. */
it('leads a newcomer from the demo to a finding in the brief, by hand or by keys, and opens again without a network', async () => {
  const { page, context, errors, go } = opened();
  await go('.');
  const tour = page.getByRole('region', { name: 'Tour' });
  expect(await tour.innerText()).toMatch(/1 of 5/);

  // The tour: an answer, its doubts, a number, the brief.
  await tour.getByRole('button', { name: 'Next step' }).click();
  await tour.getByRole('link', { name: 'Show me' }).click();
  await answered(page);
  expect(await answerOf(page)).toMatch(/\d/);
  await tour.getByRole('button', { name: 'Next step' }).click();
  await tour.getByRole('button', { name: 'Next step' }).click();
  await page.locator('.number-opener').first().click();
  expect(await page.locator('#number-grounds').innerText()).toMatch(/Method/);
  await tour.getByRole('button', { name: 'Next step' }).click();
  await page.getByRole('button', { name: 'Put in the brief' }).click();
  await page.getByRole('button', { name: 'In the brief' }).waitFor();
  await tour.getByRole('button', { name: 'End the tour' }).click();
  expect(await tour.count()).toBe(0);

  // A doubt leads to what it means.
  const doubt = page.locator('.doubt .methods-link').first();
  const name = (await doubt.innerText()).replace(/\.$/, '');
  await doubt.click();
  await page.waitForURL(/\/methods\/.*#doubt-/);
  await expect.poll(() => page.evaluate(() => document.activeElement?.textContent)).toBe(name);

  // Keys: to the brief, the list, and none of it while text is written.
  await page.keyboard.press('g');
  await page.keyboard.press('b');
  await page.waitForURL(/\/brief\//);
  await page.locator('textarea, input[type=text]').first().focus();
  await page.keyboard.type('g?');
  expect(await page.locator('dialog[open]').count()).toBe(0);
  await page.evaluate(() => (document.activeElement as HTMLElement).blur());
  await page.keyboard.press('?');
  const list = page.getByRole('dialog', { name: 'Keyboard shortcuts' });
  await list.getByRole('checkbox').uncheck();
  await page.keyboard.press('Escape');
  await page.keyboard.press('?');
  expect(await list.count()).toBe(0);

  // Kept whole; the next load is served from what is kept, and so is one without a network.
  await page.evaluate(() => navigator.serviceWorker.ready);
  await context.setOffline(true);
  await page.goto(new URL('../seal-life/', page.url()).href);
  await answered(page);
  expect(await page.evaluate(() => navigator.serviceWorker.controller !== null)).toBe(true);
  expect(await answerOf(page)).toMatch(/\d/);
  // What was put away stays away for the visit.
  expect(await tour.count()).toBe(0);

  // Only the app's own files are kept, and the manifest by which it is installed is one of them.
  const kept = await page.evaluate(async () => {
    const [name = ''] = await caches.keys();
    return (await (await caches.open(name)).keys()).map(({ url }) => url);
  });
  expect(kept.filter((url) => url.includes('?') || url.startsWith('blob:'))).toEqual([]);
  expect(kept.some((url) => url.endsWith('.wasm'))).toBe(true);
  expect(kept.some((url) => url.endsWith('manifest.webmanifest'))).toBe(true);
  const asked = await (await context.newCDPSession(page)).send('Page.getAppManifest');
  expect(asked.errors).toEqual([]);
  const { icons } = JSON.parse(asked.data ?? '{}') as { icons: { src: string; purpose: string }[] };
  expect(icons.map(({ purpose }) => purpose)).toEqual(['any', 'maskable']);
  for (const { src } of icons) expect(kept).toContain(new URL(src, asked.url).href);
  // A browser asks for the icon past the worker, and says so of itself.
  expect(errors.filter((text) => !text.includes('ERR_INTERNET_DISCONNECTED'))).toEqual([]);
  errors.length = 0;
});
