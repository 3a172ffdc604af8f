import { readdirSync, readFileSync, mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { Page } from 'playwright-core';
import { buildExport } from '../../app/_export/build-export.ts';
import { serveExport } from '../../app/_export/serve-export.ts';
import { launchChromium } from '../browser/chromium.ts';
import { writeFleet } from './scale/write-fleet.ts';

/** A fleet whose tables hold five million rows, a million of them services: one check in three is written. */
const wholeUnits = 90_000;
const everyCheck = 3;
const tabMegabytes = 4096;
/** An import, a rebuild and the questions of the front page on a busy machine. */
const patience = 3_600_000;

/** The most that the largest renderer process of Chromium held of late, in megabytes; null where the system does not tell. */
function rendererPeak(): number | null {
  const peaks = readdirSync('/proc')
    .filter((name) => /^\d+$/.test(name))
    .flatMap((process) => {
      try {
        if (!readFileSync(`/proc/${process}/cmdline`, 'utf8').includes('--type=renderer')) return [];
        const peak = /VmHWM:\s+(\d+) kB/.exec(readFileSync(`/proc/${process}/status`, 'utf8'))?.[1];
        return peak === undefined ? [] : [Number(peak) / 1024];
      } catch {
        // It ended while it was looked at.
        return [];
      }
    });
  return peaks.length === 0 ? null : Math.max(...peaks);
}

/** Chromium itself starts the system's account of its peak afresh now and then: it is read twice a second. */
function watchPeak(): () => number | null {
  let most: number | null = null;
  const timer = setInterval(() => (most = larger(most, rendererPeak())), 500);
  return () => {
    clearInterval(timer);
    return larger(most, rendererPeak());
  };
}

const larger = (one: number | null, other: number | null): number | null =>
  one === null || other === null ? (one ?? other) : Math.max(one, other);

async function opened(
  page: Page,
  files: readonly string[],
  units: number,
): Promise<{ reading: number; asking: number }> {
  const start = performance.now();
  await page
    .locator('input[data-open=files]')
    .first()
    .setInputFiles([...files]);
  const head = page.locator('header', { hasText: `${units.toLocaleString('en-US')} vehicles` }).first();
  const trouble = page.locator('[data-trouble]').first();
  await head.or(trouble).first().waitFor();
  if (await trouble.isVisible()) throw new Error(await trouble.innerText());
  const reading = performance.now() - start;
  await page.waitForFunction(() => {
    const parts = [...document.querySelectorAll('[data-question]')];
    return parts.length > 0 && parts.every((part) => part.getAttribute('data-ready') === 'true');
  });
  return { reading, asking: performance.now() - start - reading };
}

/** A large fleet opened in a real tab: how long until its lives stand and all of the front page is answered, and the most memory held. */
export async function benchTab(units = wholeUnits): Promise<boolean> {
  const folder = mkdtempSync(join(tmpdir(), 'hubcause-tab-'));
  const built = process.env['HUBCAUSE_EXPORT'];
  const site = built ?? join(folder, 'site');
  if (built === undefined) buildExport(site, '/fleet/hubcause');
  const served = await serveExport(site, '/fleet/hubcause', 0);
  const browser = await launchChromium();
  try {
    const records = join(folder, 'records');
    writeFleet(records, units, everyCheck);
    const page = await browser.newPage({ viewport: { width: 1440, height: 900 } });
    page.setDefaultTimeout(patience);
    await page.goto(served.url);
    await page.locator('[data-question]').first().waitFor();
    const files = readdirSync(records).map((name) => join(records, name));
    const peakSoFar = watchPeak();
    const { reading, asking } = await opened(page, files, units);
    const said = await page.locator('header').first().innerText();
    const peak = peakSoFar();
    process.stdout.write(
      `${units} vehicles in a tab: ${said.replace(/\s+/g, ' ')}\nopened in ${(reading / 1000).toFixed(0)} s, the front page answered ${(asking / 1000).toFixed(0)} s later, at most ${peak?.toFixed(0) ?? '—'} MB\n`,
    );
    return peak === null || peak < tabMegabytes;
  } finally {
    await browser.close();
    await served.close();
    rmSync(folder, { recursive: true });
  }
}
