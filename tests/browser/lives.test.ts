import { readFileSync } from 'node:fs';
import { tableFromIPC } from 'apache-arrow';
import type { Page } from 'playwright-core';
import { describe, expect, it } from 'vitest';
import { answered, patience, usePages } from './page.ts';

const opened = usePages();
const within = { timeout: patience };

async function listed(page: Page): Promise<number> {
  await page.locator('.lives[data-ready=true]').waitFor();
  await page.locator('.lives-rows a').first().waitFor();
  return Number(await page.locator('.lives').getAttribute('data-lives'));
}

const cells = (page: Page, column: number) =>
  page.locator(`.lives-rows [role=row] > span:nth-child(${column})`).allInnerTexts();

describe('the list of lives', () => {
  it('says how many there are and how they ended, and narrows to one way by a press', async () => {
    const { page, go } = opened();
    await go('lives/');
    const all = await listed(page);
    const answer = await page.locator('.lives .answer').innerText();
    expect(answer).toContain(all.toLocaleString('en-US'));
    const failed = /([\d,]+) failed/.exec(answer)?.[1] ?? '';
    await page.locator('.answer .scope-word', { hasText: 'failed' }).first().click();
    await page.waitForURL(/ended=failed/);
    await page.locator(`.lives[data-lives="${failed.replaceAll(',', '')}"]`).waitFor();
    expect((await cells(page, 8)).every((text) => text.startsWith('failed') || text === '')).toBe(true);
    await page.goBack();
    await page.locator(`.lives[data-lives="${all}"]`).waitFor();
  });

  it('is narrowed by the wheel-end plan with the keyboard alone', async () => {
    const { page, go } = opened();
    await go('lives/');
    const all = await listed(page);
    await page.locator('.plan .plan-name').first().focus();
    await page.keyboard.press('Enter');
    await page.waitForURL(/role=/);
    await page.locator('.lives[data-ready=true]').waitFor();
    await expect.poll(() => page.locator('.lives').getAttribute('data-lives'), within).not.toBe(String(all));
    const some = await listed(page);
    expect(some).toBeLessThan(all);
  });

  it('orders by a column head, either way, by the whole list', async () => {
    const { page, go } = opened();
    await go('lives/?role=steer');
    await listed(page);
    const ran = page.getByRole('columnheader', { name: /^ran/ });
    await ran.getByRole('button').click();
    await ran.getByRole('button').click();
    await page.waitForURL(/order=-exit_miles/);
    await page.locator('.lives-rows a').first().waitFor();
    await expect.poll(async () => (await cells(page, 6)).slice(0, 2).join(), within).toMatch(/\d{3},\d{3}/);
    const miles = (await cells(page, 6)).map((text) => Number(text.replaceAll(',', '')));
    expect(miles).toEqual([...miles].sort((a, b) => b - a));
    expect(await ran.getAttribute('aria-sort')).toBe('descending');
  });

  it('scrolls to its end with a handful of lines on the page', async () => {
    const { page, go } = opened();
    await go('lives/');
    const all = await listed(page);
    const region = page.locator('.lives-scroller');
    await region.focus();
    await page.keyboard.press('End');
    await expect
      .poll(() => page.locator('.lives-rows [role=row]').last().getAttribute('aria-rowindex'), within)
      .toBe(String(all + 1));
    expect(await page.locator('.lives-rows [role=row]').count()).toBeLessThan(25);
    await page.keyboard.press('Home');
    await expect
      .poll(() => page.locator('.lives-rows [role=row]').first().getAttribute('aria-rowindex'), within)
      .toBe('2');
  });

  it('searches a vehicle, and shows its wheel ends as strips', async () => {
    const { page, go } = opened();
    await go('lives/');
    await listed(page);
    const unit = (await cells(page, 1))[3]?.split(':')[0]?.trim() ?? '';
    await page.getByRole('searchbox').fill(unit);
    await page.locator(`[data-vehicle="${unit}"]`).waitFor();
    const strips = page.locator('.life-strip svg');
    await strips.first().waitFor();
    expect(await strips.count()).toBeGreaterThanOrEqual(4);
    expect(await strips.first().getAttribute('aria-label')).toMatch(/life 1: .* to .* mi, /);
    expect(await page.locator('.strip-caution').innerText()).toMatch(/clears a wheel end for service/);
  });

  it('opens a life down to its rows as they stand in their files', async () => {
    const { page, go } = opened();
    await go('lives/?ended=failed');
    await listed(page);
    await page.locator('.lives-rows a').nth(2).click();
    const life = page.locator('[data-life]');
    await life.waitFor();
    const why = await life.locator('[data-rule]').innerText();
    const id = /^(?:Failure|Service) (\S+)/.exec(why)?.[1] ?? '';
    const row = life.locator('tr', { hasText: `failures ${id}` });
    await expect.poll(() => row.locator('.written-cell').innerText(), within).toContain(`${id},`);
    const [, file = '', line = ''] = /(failures-\w+\.csv), line ([\d,]+)/.exec(await row.innerText()) ?? [];
    const written = readFileSync(new URL(`../../data/demo-fleet/${file}`, import.meta.url), 'utf8').split(/\r?\n/);
    expect(await row.locator('.written-cell').innerText()).toBe(written[Number(line.replaceAll(',', '')) - 1]);
    expect(await life.innerText()).toMatch(/What would have altered its end/);
    expect(page.url()).toMatch(/life=/);
    await page.reload();
    await page.locator('[data-life]').waitFor();
    expect(await page.locator('[data-rule]').innerText()).toBe(why);
  });

  it('leaves as CSV and as Arrow, every life once', async () => {
    const { page, go } = opened();
    await go('lives/?role=tag');
    const count = await listed(page);
    const take = async (name: RegExp) => {
      const [download] = await Promise.all([page.waitForEvent('download'), page.getByRole('button', { name }).click()]);
      return { name: download.suggestedFilename(), bytes: readFileSync(await download.path()) };
    };
    const csv = await take(/These lives \(CSV\)/);
    expect(csv.name).toBe('lives-seal-invented.csv');
    const lines = csv.bytes.toString('utf8').trim().split('\r\n');
    expect(lines).toHaveLength(count + 1);
    expect(lines[0]).toMatch(/^\uFEFF?life_id,unit_id,/);
    const arrow = tableFromIPC((await take(/These lives \(Arrow\)/)).bytes);
    expect(arrow.numRows).toBe(count);
    expect(arrow.getChild('role')?.get(0)).toBe('tag');
  });

  it('says what of its link it could not use, and what no life is called', async () => {
    const { page, go } = opened();
    await go('lives/?ended=melted&life=nobody');
    await page.getByText(/“ended” is not used/).waitFor();
    await page.getByText(/No seal life of these records is called so/).waitFor();
  });
});

describe('counts elsewhere', () => {
  it('lead to as many lives', async () => {
    const { page, go } = opened();
    await go('seal-life/?by=role');
    await answered(page);
    const row = page.locator('.numbers tbody tr').first();
    for (const place of [0, 1]) {
      const link = row.locator('a.count-link').nth(place);
      const count = (await link.innerText()).replaceAll(',', '');
      await link.click();
      await page.waitForURL(/lives\//);
      await page.locator(`.lives[data-lives="${count}"]`).waitFor();
      await page.goBack();
      await answered(page);
    }
    const inAnswer = page.locator('.answer a.count-link').first();
    const count = (await inAnswer.innerText()).replaceAll(',', '');
    await inAnswer.click();
    await page.locator(`.lives[data-lives="${count}"]`).waitFor();
  });
});
