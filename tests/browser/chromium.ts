import { existsSync } from 'node:fs';
import { chromium, type Browser } from 'playwright-core';

const installed = [
  '/usr/bin/chromium',
  '/usr/bin/chromium-browser',
  '/usr/bin/google-chrome',
  '/usr/bin/google-chrome-stable',
  '/Applications/Google Chrome.app/Contents/MacOS/Google Chrome',
  '/Applications/Chromium.app/Contents/MacOS/Chromium',
];

const quiet = [
  '--no-sandbox',
  '--disable-gpu',
  '--disable-quic',
  '--no-first-run',
  '--disable-background-networking',
  '--disable-component-update',
  '--disable-sync',
];

/** An installed Chromium or Chrome, else the one that an npm package carries. */
export async function launchChromium(): Promise<Browser> {
  const found = [process.env['HUBCAUSE_CHROMIUM'], ...installed].find((path) => path !== undefined && existsSync(path));
  if (found !== undefined) return chromium.launch({ executablePath: found, args: quiet });
  const { default: carried } = await import('@sparticuz/chromium');
  return chromium.launch({ executablePath: await carried.executablePath(), args: [...carried.args, ...quiet] });
}

/** Run in a page before anything of its own: as if the tour had been put away earlier in the visit. */
export const tourPutAway =
  "try { sessionStorage.setItem('hubcause-preferences', JSON.stringify({ tourDone: true })); } catch {}";
