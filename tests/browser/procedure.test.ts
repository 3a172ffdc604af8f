import { readFileSync } from 'node:fs';
import type { Page } from 'playwright-core';
import { describe, expect, it } from 'vitest';
import { answered, answerOf, patience, usePages } from './page.ts';

const opened = usePages();
const within = { timeout: patience };

async function ready(page: Page): Promise<void> {
  await page.locator('.procedure[data-ready=true]').waitFor();
  await page.locator('.judged').waitFor();
}

const deviating = async (page: Page, code: string): Promise<number> => {
  const text = await page.locator(`tr[data-code="${code}"] [data-word=yes]`).innerText();
  return Number((/^[\d,]+/.exec(text)?.[0] ?? '').replaceAll(',', ''));
};

const outer = (page: Page, end: 0 | 1) => page.locator('[data-limit=outerTorqueFtLb] input').nth(end);

describe('the procedure', () => {
  it('judges the lives by an edited limit, says what changed, and goes back', async () => {
    const { page, go } = opened();
    await go('procedure/');
    await ready(page);
    expect(await page.locator('.governs').innerText()).toMatch(/maker’s instruction governs/);
    const before = await deviating(page, 'outer-torque-out');
    const others = await deviating(page, 'gasket-reused');
    await outer(page, 1).fill('300');
    await page.getByRole('button', { name: 'Judge the lives by this' }).click();
    await page.locator('[data-changed]').waitFor();
    const after = await deviating(page, 'outer-torque-out');
    expect(after).toBeGreaterThan(before);
    expect(await deviating(page, 'gasket-reused')).toBe(others);
    const says = await page.locator('.change').innerText();
    expect(says).toContain(`${before.toLocaleString('en-US')} → ${after.toLocaleString('en-US')}`);
    expect(await page.locator('.versions tbody').innerText()).toMatch(/1, edited/);
    await page.getByRole('button', { name: /by what was there before/ }).click();
    await expect.poll(() => deviating(page, 'outer-torque-out'), within).toBe(before);
  });

  it('is part of what answers stand on', async () => {
    const { page, go } = opened();
    await go('seal-life/?by=dev_outer_torque_out');
    await answered(page);
    const first = await answerOf(page);
    await page.getByRole('navigation').getByRole('link', { name: 'Procedure' }).click();
    await ready(page);
    await outer(page, 1).fill('300');
    await page.getByRole('button', { name: 'Judge the lives by this' }).click();
    await page.locator('[data-changed]').waitFor();
    await page.getByRole('button', { name: 'How parts last' }).click();
    await page
      .getByRole('navigation', { name: 'Questions' })
      .getByRole('link', { name: /How long/ })
      .click();
    await answered(page);
    expect(await answerOf(page)).not.toBe(first);
    const [download] = await Promise.all([
      page.waitForEvent('download'),
      page.getByRole('button', { name: /Finding \(JSON\)/ }).click(),
    ]);
    const finding = JSON.parse(readFileSync(await download.path(), 'utf8')) as {
      data: { procedures: { version: string }[] };
    };
    expect(finding.data.procedures.map(({ version }) => version)).toEqual(['1, edited']);
  });

  it('takes a second version from a day on, and splits the lives between them', async () => {
    const { page, go } = opened();
    await go('procedure/');
    await ready(page);
    await page.getByRole('button', { name: /^Copy as a new version/ }).click();
    await page.locator('.version-form input[type=date]').fill('2022-01-01');
    await outer(page, 0).fill('200');
    await page.getByRole('button', { name: 'Judge the lives by this' }).click();
    await page.locator('[data-changed]').waitFor();
    await expect.poll(() => page.locator('.versions tbody tr').allInnerTexts(), within).toHaveLength(2);
    const lives = await page.locator('.versions tbody tr td:nth-child(3)').allInnerTexts();
    const counts = lives.map((text) => Number(text.replaceAll(',', '')));
    expect(counts.every((count) => count > 0)).toBe(true);
    const judged = Number(await page.locator('.judged').getAttribute('data-judged'));
    expect(counts.reduce((sum, count) => sum + count, 0)).toBe(judged);
    await page.locator('.versions tbody tr').nth(1).locator('a').click();
    await page.locator(`.lives[data-lives="${counts[1]}"]`).waitFor();
  });

  it('leaves as JSON and comes back as it was; what is wrong in a file is said by field', async () => {
    const { page, go } = opened();
    await go('procedure/');
    await ready(page);
    await outer(page, 1).fill('333');
    const [download] = await Promise.all([
      page.waitForEvent('download'),
      page.getByRole('button', { name: 'Procedure (JSON)' }).click(),
    ]);
    const text = readFileSync(await download.path(), 'utf8');
    await page.getByRole('button', { name: /Give up these changes/ }).click();
    expect(await outer(page, 1).inputValue()).toBe('350');
    const bring = (content: string) =>
      page
        .locator('input[data-open=procedure]')
        .setInputFiles({ name: 'ours.json', mimeType: 'application/json', buffer: Buffer.from(content) });
    await bring(text.replace('"maximum": 333', '"maximum": "333"'));
    await page.locator('[data-refused]').waitFor();
    expect(await page.locator('[data-refused]').innerText()).toMatch(
      /version 1, part 1, outer nut torque, maximum.*has to be a number; found "333"/s,
    );
    expect(await outer(page, 1).inputValue()).toBe('350');
    await bring(text);
    await expect.poll(() => outer(page, 1).inputValue(), within).toBe('333');
  });

  it('follows the units, and stops what is no number in its field', async () => {
    const { page, go } = opened();
    await go('procedure/?units=metric');
    await ready(page);
    expect(await outer(page, 0).inputValue()).toBe('338.954');
    await outer(page, 0).fill('plenty');
    expect(await outer(page, 0).getAttribute('aria-invalid')).toBe('true');
    expect(await page.getByRole('button', { name: 'Judge the lives by this' }).isDisabled()).toBe(true);
    await page
      .getByText(/has to be a number/)
      .first()
      .waitFor();
    await outer(page, 0).fill('340');
    expect(await page.getByRole('button', { name: 'Judge the lives by this' }).isEnabled()).toBe(true);
  });

  it('lists contradictions with both sides, each leading to its life', async () => {
    const { page, go } = opened();
    const services = [
      'service_id,unit_id,axle,side,date,miles,replaced,reason,shop,hub_build,nut_system,outer_torque_ftlb,deviations',
      's1,007,1,left,2021-03-01,50000,seal,planned,North,spacer,double,300,outer-torque-out',
      's2,007,1,right,2021-03-01,50000,seal,planned,North,spacer,double,300,',
    ].join('\n');
    const failures = 'failure_id,unit_id,axle,side,date,miles,mode\nf1,007,1,left,2021-09-01,70000,seal-inner\n';
    await go('records/');
    await page.locator('[data-ready=true]').waitFor();
    const file = (name: string, text: string) => ({ name, mimeType: 'text/csv', buffer: Buffer.from(text) });
    await page
      .locator('input[data-open=files]')
      .first()
      .setInputFiles([file('services.csv', services), file('failures.csv', failures)]);
    await page
      .getByText(/1 vehicle/)
      .first()
      .waitFor();
    await page.getByRole('navigation').getByRole('link', { name: 'Procedure' }).click();
    await page.locator('[data-conflicts="1"]').waitFor();
    const row = page.locator('.conflicts tbody tr');
    await row.waitFor();
    expect(await row.innerText()).toMatch(
      /007.*s1.*written down as a deviation.*outer nut torque 300, limits 250–350 lbf·ft/s,
    );
    await row.getByRole('link').click();
    await page.locator('[data-life="007 1 left seal 2"]').waitFor();
  });
});
