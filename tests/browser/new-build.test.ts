import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { serveExport } from '../../app/_export/serve-export.ts';
import { writeServiceWorker } from '../../app/_export/write-service-worker.ts';
import { launchChromium } from './chromium.ts';

let browser: Browser;
const folder = mkdtempSync(join(tmpdir(), 'hubcause-builds-'));
beforeAll(async () => {
  browser = await launchChromium();
});
afterAll(async () => {
  await browser.close();
  rmSync(folder, { recursive: true, force: true });
});

/** A small export: a page that says by which build it was made, a page below it, and a script for both. */
function build(name: string): void {
  mkdirSync(join(folder, 'below'), { recursive: true });
  writeFileSync(join(folder, 'index.html'), `<head></head><h1>${name}</h1><script src="part.js"></script>`);
  writeFileSync(join(folder, 'below/index.html'), `<head></head><h1>${name} below</h1>`);
  writeFileSync(join(folder, 'part.js'), `document.title = '${name}';`);
  writeFileSync(join(folder, 'always.svg'), '<svg xmlns="http://www.w3.org/2000/svg"/>');
  writeServiceWorker(folder);
}

const seen = (page: Page) => page.evaluate(() => [document.querySelector('h1')?.textContent, document.title]);
const states = (page: Page) =>
  page.evaluate(async () => {
    const found = await navigator.serviceWorker.getRegistration();
    return [found?.waiting?.state ?? null, found?.active?.state ?? null];
  });

it('takes a new build on whole at the next load, drops the old one, and never mixes the two', async () => {
  build('first');
  let served = await serveExport(folder, '/fleet');
  const page = await (await browser.newContext()).newPage();
  await page.goto(served.url);
  await page.evaluate(() => navigator.serviceWorker.register('service-worker.js'));
  await expect.poll(() => states(page), { timeout: 15_000 }).toEqual([null, 'activated']);
  const [before] = await page.evaluate(() => caches.keys());

  // The server has the new build; what is kept is still served whole, while the new one is got ready beside it.
  await served.close();
  build('second');
  served = await serveExport(folder, '/fleet', Number(new URL(served.url).port));
  await page.reload();
  expect(await seen(page)).toEqual(['first', 'first']);
  await expect.poll(() => states(page), { timeout: 15_000 }).toEqual(['installed', 'activated']);

  await page.reload();
  await expect.poll(() => seen(page), { timeout: 15_000 }).toEqual(['second', 'second']);
  await expect.poll(() => page.evaluate(() => caches.keys()), { timeout: 15_000 }).not.toContain(before);
  expect(await page.evaluate(() => caches.keys())).toHaveLength(1);

  // Without the server: with and without a view in the address, and the page below.
  await served.close();
  await page.goto(`${served.url}?by=role`);
  expect(await seen(page)).toEqual(['second', 'second']);
  await page.goto(`${served.url}below/`);
  expect((await seen(page))[0]).toBe('second below');
});

it('does not keep a build whose files the server has only in part', async () => {
  build('third');
  // What a copy that is still under way looks like.
  writeFileSync(join(folder, 'part.js'), "document.title = 'half';");
  const served = await serveExport(folder, '/fleet');
  const page = await (await browser.newContext()).newPage();
  await page.goto(served.url);
  await page.evaluate(() => navigator.serviceWorker.register('service-worker.js'));
  await expect
    .poll(() => page.evaluate(async () => (await navigator.serviceWorker.getRegistration())?.installing ?? null))
    .toBeNull();
  expect(await states(page)).toEqual([null, null]);
  await served.close();
});
