import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { harmlessText } from '../../lib/cli/harmless-text.ts';
import { call, useFolder } from './folder-and-call.ts';

const { folder, put } = useFolder();

/** Records whose every text is markup. */
function putMarkup(): void {
  const planted = (text: string) =>
    `"<img data-planted src=x onerror=ran=1>${text}<script data-planted>ran=1</script>"`;
  const services = Array.from({ length: 6 }, (_, at) =>
    [
      planted(`s${at}`),
      planted('T1'),
      1,
      'left',
      `202${at}-03-01`,
      (at + 1) * 50_000,
      'seal',
      planted('North'),
      planted('c'),
    ].join(),
  );
  put('services.csv', `service_id,unit_id,axle,side,date,miles,replaced,shop,comment\n${services.join('\n')}\n`);
  put(
    'failures.csv',
    `failure_id,unit_id,axle,side,date,miles,mode\n${planted('f')},${planted('T1')},1,left,2021-09-01,70000,seal-inner\nx,${planted('T2')},1,left,${planted('day')},1,vent\n`,
  );
  put('record-set.json', JSON.stringify({ name: '<script data-planted>ran=1</script>' }));
}

describe('what the command line writes', () => {
  it('is a report in which no text of a record is markup', async () => {
    putMarkup();
    const path = join(folder(), 'quality.html');
    expect((await call('read', folder(), '--report', path)).code).toBe(0);
    const report = readFileSync(path, 'utf8');
    expect(report).not.toMatch(/<[^>]*data-planted/);
    expect(report).toContain('&lt;script data-planted');
  });

  it('are rows set aside with the text that stood there', async () => {
    putMarkup();
    const path = join(folder(), 'aside.csv');
    expect((await call('read', folder(), '--set-aside', path)).code).toBe(0);
    expect(readFileSync(path, 'utf8')).toContain('<img data-planted src=x onerror=ran=1>day<script');
  });

  it('moves no cursor and sets no colour, whatever stands in a header', () => {
    expect(harmlessText('a\u001b[31mb\u009b2Jc\u0007\rd\te\r\nf')).toBe('a·[31mb·2Jc··d\te\r\nf');
  });
});
