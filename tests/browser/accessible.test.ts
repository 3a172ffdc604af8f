import { describe, expect, it } from 'vitest';
import { axeFindings, overrun } from './axe-findings.ts';
import { answered, usePages } from './page.ts';

const paths = [
  '.',
  'seal-life/?by=role',
  'mean-miles/?by=role+lubricant',
  'contamination/?by=lubricant',
  'causes/?by=dev_nut_backed_off+dev_gasket_reused&deviation=nut-backed-off',
  'shops/',
  'records/',
  'lives/?ended=failed',
  'lives/?life=0007+1+left+seal+2&vehicle=0007',
  'procedure/',
];
/** Pages that answer no question say themselves when they are there. */
const unasked = /^(records|lives|procedure)/;

describe.each([
  ['light', 1440],
  ['dark', 1440],
  ['light', 390],
  ['dark', 390],
] as const)('%s at %i px', (colorScheme, width) => {
  const opened = usePages({ colorScheme, viewport: { width, height: 900 }, bypassCSP: true });

  it.each(paths)('axe finds nothing on %s, and nothing runs out of the page', async (path) => {
    const { page, go } = opened();
    await go(path);
    if (unasked.test(path)) await page.locator('[data-ready=true]').waitFor();
    if (path.includes('life=')) await page.locator('[data-life] .life-strip svg').first().waitFor();
    else await answered(page);
    expect(await axeFindings(page)).toEqual([]);
    expect(await overrun(page)).toBeLessThanOrEqual(0);
  });
});
