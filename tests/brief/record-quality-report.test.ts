import { describe, expect, test } from 'vitest';
import { recordQualityReport } from '../../lib/brief/record-quality-report.ts';
import type { RecordQuality } from '../../shared/record-quality.ts';

const quality: RecordQuality = {
  observedFrom: '2020-01-01',
  observedTo: null,
  tables: [{ table: 'services', read: 1200, kept: 1190, setAside: 10, reasons: [{ reason: 'no <date>', rows: 10 }] }],
  shops: ['A & B'],
  fields: [{ table: 'services', column: 'lubricant', shops: [{ rows: 0, filled: 0 }], rows: 4, filled: 3 }],
  coverage: [{ table: 'services', first: '2020-01-01', last: '2020-02-01', months: [{ month: '2020-01', rows: 7 }] }],
  silent: [],
  links: [{ name: 'failures that met no life', rows: 1, of: 3, examples: ['f3'] }],
  intensity: [{ by: 'shop', value: 'A & B', checks: 3, miles: 200_000 }],
  effects: [{ weakness: 'some', effect: 'much', questions: ['seal-life'] }],
  narrowing: [{ field: 'lubricant', answer: 'by it', known: 16, unknown: 48, now: 7.1, then: 2.66, narrower: 0.5 }],
};
const records = { name: 'Fleet <1>', invented: false, fingerprint: 'abc', files: [] };

describe('the data-quality report', () => {
  const report = recordQualityReport(quality, records);

  test('says every number it was given', () => {
    for (const said of [
      '1,190',
      '10 × no &lt;date&gt;',
      '75\u00a0%',
      '50\u00a0%',
      '1.5',
      '2.66',
      'f3',
      'an unknown day',
    ])
      expect(report).toContain(said);
  });

  test('turns no text into markup', () => {
    expect(report).toContain('Fleet &lt;1&gt;');
    expect(report).toContain('A &amp; B');
    expect(report).not.toContain('<date>');
  });

  test('fetches nothing: it opens offline', () => expect(report).not.toMatch(/(src|href)=|url\(/));

  test('says invented only of invented records', () => {
    expect(report).not.toContain('Invented');
    expect(recordQualityReport(quality, { ...records, invented: true })).toContain('Invented records');
  });
});
