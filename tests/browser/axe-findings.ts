import { createRequire } from 'node:module';
import type { Page } from 'playwright-core';

const axe = createRequire(import.meta.url).resolve('axe-core/axe.min.js');

interface AxeWindow {
  axe: {
    run(options: object): Promise<{ violations: { id: string; nodes: { html: string; failureSummary: string }[] }[] }>;
  };
}

/** What axe finds on the page as it stands; the page's policy has to be passed by. */
export async function axeFindings(page: Page): Promise<{ id: string; nodes: string[] }[]> {
  await page.addScriptTag({ path: axe });
  return page.evaluate(async () => {
    const { violations } = await (window as unknown as AxeWindow).axe.run({
      runOnly: ['wcag2a', 'wcag2aa', 'wcag21a', 'wcag21aa', 'wcag22aa', 'best-practice'],
    });
    return violations.map(({ id, nodes }) => ({
      id,
      nodes: nodes.map(({ html, failureSummary }) => `${html} ${failureSummary}`),
    }));
  });
}

/** How far anything runs out of the page sideways. */
export const overrun = (page: Page): Promise<number> =>
  page.evaluate(() => document.documentElement.scrollWidth - window.innerWidth);
