import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { Page } from 'playwright-core';
import { buildExport } from '../../app/_export/build-export.ts';
import { serveExport } from '../../app/_export/serve-export.ts';
import { launchChromium, tourPutAway } from './chromium.ts';

const folder = new URL('../../app/_pictures/', import.meta.url).pathname;

/** Pictures of the README: a page, its width, its colours. */
const pictures = [
  { name: 'front-page', path: '.', width: 1440, height: 900, colorScheme: 'light' },
  { name: 'question-page', path: 'seal-life/?by=dev_nut_backed_off', width: 1440, height: 900, colorScheme: 'dark' },
] as const;

async function drawn(page: Page): Promise<void> {
  // One expression: what runs in the page must not lean on names of this file.
  await page.waitForFunction(() =>
    [...document.querySelectorAll('[data-question]')].every(
      (part) => part.getAttribute('data-ready') === 'true' && part.querySelector('svg') !== null,
    ),
  );
  await page.evaluate(() => document.fonts.ready);
}

const built = process.env['HUBCAUSE_EXPORT'];
const exported = built ?? mkdtempSync(join(tmpdir(), 'hubcause-pictures-'));
if (built === undefined) buildExport(exported, '/fleet/hubcause');
const served = await serveExport(exported, '/fleet/hubcause');
const browser = await launchChromium();
for (const { name, path, width, height, colorScheme } of pictures) {
  const context = await browser.newContext({ viewport: { width, height }, colorScheme, serviceWorkers: 'block' });
  await context.addInitScript(tourPutAway);
  const page = await context.newPage();
  page.setDefaultTimeout(120_000);
  await page.goto(new URL(path, served.url).href);
  await drawn(page);
  await page.screenshot({ path: join(folder, `${name}.png`) });
  await context.close();
}
await browser.close();
await served.close();
if (built === undefined) rmSync(exported, { recursive: true, force: true });
