import type { Page } from 'playwright-core';
import { expect, it } from 'vitest';
import { axeFindings, overrun } from './axe-findings.ts';
import { answered, usePages } from './page.ts';

const paths = [
  '.',
  'seal-life/?by=role',
  'mean-miles/?by=role+lubricant',
  'contamination/?by=lubricant',
  'causes/?by=dev_nut_backed_off+dev_gasket_reused&deviation=nut-backed-off',
  'shops/',
  'detection/',
  'repeats/',
  'dose/?deviation=end-play-high',
  'rules/?deviation=nut-backed-off',
  'records/',
  'lives/?ended=failed',
  'lives/?life=0007+1+left+seal+2&vehicle=0007',
  'procedure/',
  'methods/',
];
/** Pages that answer no question say themselves when they are there. */
const unasked = /^(records|lives|procedure|methods)/;

const sights = [
  ['light', 1440],
  ['dark', 1440],
  ['light', 390],
  ['dark', 390],
] as const;

const opened = usePages({ bypassCSP: true }, true);

async function settled(page: Page, path: string): Promise<void> {
  if (unasked.test(path)) await page.locator('[data-ready=true]').waitFor();
  if (path.includes('life=')) await page.locator('[data-life] .life-strip svg').first().waitFor();
  else if (!unasked.test(path)) await answered(page);
}

// One opening a page: figures are drawn anew when its colours or its width change.
it.each(paths)(
  'axe finds nothing on %s, light or dark, wide or narrow, and nothing runs out of the page',
  async (path) => {
    const { page, go } = opened();
    await go(path);
    for (const [colorScheme, width] of sights) {
      await page.emulateMedia({ colorScheme });
      await page.setViewportSize({ width, height: 900 });
      await settled(page, path);
      await expect.poll(() => axeFindings(page), { timeout: 20_000 }).toEqual([]);
      await expect.poll(() => overrun(page), { timeout: 20_000 }).toBeLessThanOrEqual(0);
    }
  },
);
