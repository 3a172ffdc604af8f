import { afterAll, afterEach, beforeAll, beforeEach, expect, inject } from 'vitest';
import type { Browser, BrowserContext, Page } from 'playwright-core';
import { launchChromium, tourPutAway } from './chromium.ts';

/** A fresh page for every test, with a watch on where it talks to and what goes wrong in it. */
export interface Opened {
  readonly page: Page;
  readonly context: BrowserContext;
  /** Addresses asked for at any origin but the app's own. */
  readonly strangers: string[];
  /** Errors thrown or written by the page, its workers, or the content policy. */
  readonly errors: string[];
  go(path: string): Promise<void>;
}

export const patience = 90_000;

/** @param newcomer meets the tour; everyone else has put it away */
export function usePages(options: Parameters<Browser['newContext']>[0] = {}, newcomer = false): () => Opened {
  let browser: Browser;
  let opened: Opened | undefined;
  beforeAll(async () => {
    browser = await launchChromium();
  });
  afterAll(() => browser.close());
  beforeEach(async () => {
    const context = await browser.newContext({
      viewport: { width: 1440, height: 900 },
      acceptDownloads: true,
      // Keeping the whole app beside every test would slow them all; tests/browser/offline.test.ts lets it.
      serviceWorkers: 'block',
      ...options,
    });
    if (!newcomer) await context.addInitScript(tourPutAway);
    opened = await watched(context);
  });
  afterEach(async () => {
    const done = opened;
    await done?.context.close();
    expect(done?.strangers).toEqual([]);
    expect(done?.errors).toEqual([]);
  });
  return () => {
    if (!opened) throw new Error('no page is open outside a test');
    return opened;
  };
}

async function watched(context: BrowserContext): Promise<Opened> {
  const base = inject('url');
  const strangers: string[] = [];
  const errors: string[] = [];
  context.on('request', (request) => {
    const url = request.url();
    if (!url.startsWith(base) && !/^(data|blob):/.test(url)) strangers.push(url);
  });
  context.on('weberror', (error) => errors.push(String(error.error())));
  context.on('console', (message) => {
    // Cut off from the page's icon, the browser itself asks for one at the root of the server.
    if (message.type() === 'error' && !message.location().url.endsWith('/favicon.ico')) errors.push(message.text());
  });
  const page = await context.newPage();
  page.setDefaultTimeout(patience);
  const go = async (path: string) => {
    await page.goto(new URL(path, base).href);
  };
  return { page, context, strangers, errors, go };
}

/** Waits until every question on the page has settled on an answer and its figure is drawn. */
export async function answered(page: Page): Promise<void> {
  await page.waitForFunction(() => {
    const parts = [...document.querySelectorAll('[data-question]')];
    return parts.length > 0 && parts.every((part) => part.getAttribute('data-ready') === 'true');
  });
  for (const part of await page.locator('[data-question]').all()) {
    // To its head, where the figure is: a long page may be in view by its foot alone, and draws only what is near.
    await part.evaluate((element) => element.scrollIntoView({ block: 'start' }));
    await part.locator('svg').first().waitFor();
  }
}

export const answerOf = (page: Page): Promise<string> => page.locator('[data-question] .answer').innerText();

/** A file of records as a picker hands it over. */
export const recordFile = (name: string, content: string | Uint8Array) => ({
  name,
  mimeType: name.endsWith('.csv') ? 'text/csv' : '',
  buffer: Buffer.from(content as string),
});

/** Chooses files in the page's file picker. */
export const openFiles = (page: Page, files: readonly ReturnType<typeof recordFile>[]): Promise<void> =>
  page
    .locator('input[data-open=files]')
    .first()
    .setInputFiles([...files]);
