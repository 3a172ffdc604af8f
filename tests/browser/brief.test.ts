import { mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import { expect, it } from 'vitest';
import { axeFindings, overrun } from './axe-findings.ts';
import { answered, usePages } from './page.ts';

const opened = usePages({ bypassCSP: true, permissions: ['clipboard-read', 'clipboard-write'] });
const patience = 240_000;

/** One red point on white: a picture as small as one can be. */
const picture = Buffer.from(
  'iVBORw0KGgoAAAANSUhEUgAAAAEAAAABCAIAAACQd1PeAAAADElEQVR4nGP4z8AAAAMBAQDJ/pLvAAAAAElFTkSuQmCC',
  'base64',
);

/** What a PDF says of its pages: their number and the size of the first, in points. */
function sheetsOf(pdf: Buffer): { pages: number; width: number; height: number } {
  const text = pdf.toString('latin1');
  const [, width, height] = /\/MediaBox \[0 0 ([\d.]+) ([\d.]+)\]/.exec(text) ?? [];
  const pages = text.match(/\/Type \/Page\b(?!s)/g)?.length ?? 0;
  return { pages, width: Math.round(Number(width)), height: Math.round(Number(height)) };
}

it(
  'takes two findings, their order and words, and becomes a page that opens offline and prints to A4 and Letter',
  { timeout: patience },
  async () => {
    const { page, context, go } = opened();
    page.setDefaultTimeout(30_000);
    await go('mean-miles/?by=role');
    await answered(page);
    await page.getByRole('button', { name: 'Put in the brief' }).click();
    await page.getByRole('button', { name: 'In the brief' }).waitFor();
    await page.getByRole('button', { name: 'Copy a link to this view' }).click();
    await page.getByText(/The link is copied/).waitFor();
    const link = await page.evaluate(() => navigator.clipboard.readText());
    expect(new URL(link).search).toMatch(/^\?by=role&records=[0-9a-f]{12}$/);
    await page.getByRole('button', { name: 'How parts last' }).click();
    await page
      .locator('.contents-list')
      .getByRole('link', { name: /How long do seals last/ })
      .click();
    await page.waitForURL(/seal-life/);
    await answered(page);
    await page.getByRole('button', { name: 'Put in the brief' }).click();
    await page.getByRole('link', { name: 'The brief, 2 findings' }).click();
    const order = () =>
      page
        .locator('.brief-entries > li')
        .evaluateAll((entries) => entries.map((entry) => entry.getAttribute('data-question')));
    await page.locator('[data-findings="2"]').waitFor();
    expect(await order()).toEqual(['mean-miles', 'seal-life']);

    // By keyboard, the button keeping the focus while its finding moves.
    await page.getByRole('button', { name: /^Up\s*: How long/ }).focus();
    await page.keyboard.press('Enter');
    expect(await order()).toEqual(['seal-life', 'mean-miles']);
    expect(await page.evaluate(() => document.activeElement?.textContent)).toMatch(/^Down: How long/);

    await page.getByLabel('The problem in one sentence').fill('The root cause of leaks is a dry spindle <b>');
    await page.locator('.wordings li', { hasText: 'root cause' }).waitFor();
    expect(await page.locator('[data-warnings="1"]').count()).toBe(1);
    await page.locator('[data-open=photos]').setInputFiles({ name: 'hub.png', mimeType: 'image/png', buffer: picture });
    await page.getByLabel('Photo 1').fill('Teardown of unit 7');
    await page.getByRole('button', { name: 'Add who is asked' }).click();
    await page.getByLabel('Role').fill('Safety');
    await page.getByLabel('Name', { exact: true }).fill('A. Writer');
    expect(await page.getByLabel('Decided on').isDisabled()).toBe(true);
    await page.getByRole('combobox', { name: /^Decision/ }).selectOption('approved with conditions');
    await page.getByLabel('Decided on').fill('2025-03-01');
    await page.getByRole('textbox', { name: 'Conditions' }).fill('Two shops first');
    expect(await axeFindings(page)).toEqual([]);
    expect(await overrun(page)).toBeLessThanOrEqual(0);

    await page.getByLabel(/Keep this brief/).check();
    const kept = () =>
      page.evaluate(async () => {
        const root = await navigator.storage.getDirectory();
        const folder = await (await root.getDirectoryHandle('hubcause')).getDirectoryHandle('brief');
        return (await (await folder.getFileHandle('kept.json')).getFile()).text();
      });
    await expect.poll(kept).toContain('Teardown of unit 7');
    await page.reload();
    await page.locator('[data-findings="2"]').waitFor();
    expect(await page.getByLabel('The problem in one sentence').inputValue()).toContain('dry spindle <b>');

    await page.getByText('demo fleet').first().waitFor();
    const [download] = await Promise.all([
      page.waitForEvent('download'),
      page.getByRole('button', { name: 'Brief (HTML)' }).click(),
    ]);
    const folder = mkdtempSync(join(tmpdir(), 'hubcause-brief-'));
    try {
      const path = join(folder, download.suggestedFilename());
      await download.saveAs(path);
      expect(readFileSync(path, 'utf8')).toContain('dry spindle &lt;b&gt;');
      expect(readFileSync(path, 'utf8')).toMatch(/Safety[^]*A\. Writer[^]*approved with conditions: Two shops first/);
      const elsewhere = await context.browser()?.newContext({ offline: true });
      if (elsewhere === undefined) throw new Error('no browser to open the brief in');
      const paper = await elsewhere.newPage();
      const asked: string[] = [];
      paper.on('request', (request) => asked.push(request.url()));
      await paper.goto(pathToFileURL(path).href);
      // Fourteen sections, what stands in short before them, the cautions after.
      expect(await paper.locator('h2').count()).toBe(16);
      expect(await paper.locator('figure svg').count()).toBe(2);
      for (const [format, width, height] of [
        ['A4', 596, 842],
        ['Letter', 612, 792],
      ] as const) {
        const sheets = sheetsOf(await paper.pdf({ format }));
        expect(Math.abs(sheets.width - width) + Math.abs(sheets.height - height)).toBeLessThanOrEqual(3);
        expect(sheets.pages).toBeGreaterThan(3);
        expect(sheets.pages).toBeLessThan(20);
      }
      // The page itself and its own pictures, and nothing else.
      expect(asked.filter((url) => !/^(file|data):/.test(url))).toEqual([]);
      await elsewhere.close();
    } finally {
      rmSync(folder, { recursive: true, force: true });
    }
  },
);

it(
  'restores the brief that a settings file plans, and never in the place of one begun here without a word',
  { timeout: patience },
  async () => {
    const { page, go } = opened();
    page.setDefaultTimeout(60_000);
    await go('mean-miles/');
    await answered(page);
    const [download] = await Promise.all([
      page.waitForEvent('download'),
      page.getByRole('button', { name: 'Settings (JSON)' }).click(),
    ]);
    const settings = JSON.parse(readFileSync(await download.path(), 'utf8')) as object;
    const view = { by: ['lubricant'] };
    const brief = {
      ...{ title: 'Seat the seal', words: { problem: 'Seals leak early' }, approvals: [{ role: 'Safety' }] },
      asks: [{ question: 'mean-miles', view, note: 'Oil first' }],
    };
    const file = (name: string, content: object) => ({
      ...{ name, mimeType: 'application/json', buffer: Buffer.from(JSON.stringify(content)) },
    });
    const bringIn = (title: string) =>
      page
        .locator('[data-open=settings]')
        .setInputFiles(file('plan.json', { ...settings, brief: { ...brief, title } }));
    await bringIn('Seat the seal');
    await page.getByText('Its brief is being asked').waitFor();
    await page.getByRole('link', { name: 'Brief', exact: true }).click();
    await page
      .locator('[data-brought=taken]')
      .getByText(/plan\.json is here: 1 finding, words in 1 place, no photos, 1 approval/)
      .waitFor();
    expect(await page.locator('.entry-scope').first().innerText()).toMatch(/told apart by lubricant/);
    expect(await page.getByLabel('Your note to it').inputValue()).toBe('Oil first');
    expect(await page.getByLabel('Title').inputValue()).toBe('Seat the seal');

    // A second one waits: what is begun here stands until its writer says otherwise.
    await page.getByLabel('The problem in one sentence').fill('Mine');
    await page
      .locator('[data-open=brief]')
      .setInputFiles(file('other.json', { brief: 1, title: 'Other', entries: [] }));
    await page.locator('[data-brought=waiting]').waitFor();
    expect(await axeFindings(page)).toEqual([]);
    expect(await page.getByLabel('The problem in one sentence').inputValue()).toBe('Mine');
    await page.getByRole('button', { name: 'Leave it' }).click();
    expect(await page.getByLabel('Title').inputValue()).toBe('Seat the seal');
    await page
      .locator('[data-open=brief]')
      .setInputFiles(file('other.json', { brief: 1, title: 'Other', entries: [] }));
    await page.getByRole('button', { name: 'Put the one from the file in its place' }).click();
    await page.locator('[data-findings="0"]').waitFor();
    expect(await page.getByLabel('Title').inputValue()).toBe('Other');
  },
);

it('says which records a link was made from where others are open, and shows the view all the same', async () => {
  const { page, go } = opened();
  await go('mean-miles/?by=role&records=0123456789ab');
  await page
    .locator('[data-made-from="other records"]')
    .getByText(/0123456789ab.*Open here:/)
    .waitFor();
  await answered(page);
  expect(new URL(page.url()).search).toContain('by=role');
  await page.getByRole('button', { name: 'Understood' }).click();
  expect(await page.locator('[data-made-from]').count()).toBe(0);

  const [download] = await Promise.all([
    page.waitForEvent('download'),
    page.getByRole('button', { name: 'Settings (JSON)' }).click(),
  ]);
  const settings = readFileSync(await download.path(), 'utf8');
  const others = settings.replaceAll(/("fingerprint"|"records"): "[0-9a-f]+"/g, `$1: "${'f'.repeat(64)}"`);
  await page.getByRole('link', { name: 'At a glance' }).click();
  await page.waitForURL((url) => !url.pathname.includes('mean-miles'));
  await page
    .locator('[data-open=settings]')
    .setInputFiles({ name: 'settings.json', mimeType: 'application/json', buffer: Buffer.from(others) });
  await page.waitForURL(/mean-miles\/\?by=role$/);
  await page
    .locator('[data-made-from="other records"]')
    .getByText(/settings file was made from .*ffffffffffff/)
    .waitFor();
  await page
    .locator('[data-open=settings]')
    .setInputFiles({ name: 'settings.json', mimeType: 'application/json', buffer: Buffer.from(settings) });
  await page.locator('[data-made-from]').waitFor({ state: 'detached' });
});
