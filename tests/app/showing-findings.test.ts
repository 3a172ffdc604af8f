import { describe, expect, test } from 'vitest';
import fc from 'fast-check';
import { glanceView } from '../../app/_parts/finding/glance-view.ts';
import { inOrder } from '../../lib/charts/in-order.ts';
import { orderedRows } from '../../app/_parts/finding/ordered-rows.ts';
import { figureCaption } from '../../lib/charts/figure-caption.ts';
import { questionPage } from '../../app/_parts/contents.ts';
import { openedSays, shareOf } from '../../app/_parts/records/opened-words.ts';
import { asOneImage } from '../../lib/charts/draw-svg.ts';
import { findingTable } from '../../lib/charts/index.ts';
import { viewSchema } from '../../shared/view.ts';
import { defaultChoices } from '../../shared/choices.ts';
import type { ReadReport } from '../../shared/record-set.ts';
import { threeRoles } from '../charts/invented-findings.ts';

describe('emphasis', () => {
  test('marks each stretch where it stands, and none twice', () => {
    const text = 'One in ten by 74,000 miles; one in ten of all.';
    expect(inOrder(text, ['74,000 miles', 'One in ten'])).toEqual([
      { start: 0, end: 10 },
      { start: 14, end: 26 },
    ]);
  });
  test('never overlaps nor leaves the text, whatever is asked for', () => {
    fc.assert(
      fc.property(fc.string(), fc.array(fc.string()), (text, stretches) => {
        let last = 0;
        for (const { start, end } of inOrder(text, stretches)) {
          expect(start).toBeGreaterThanOrEqual(last);
          expect(end).toBeLessThanOrEqual(text.length);
          last = end;
        }
      }),
    );
  });
});

describe('the numbers table in order', () => {
  const { rows, columns } = findingTable(threeRoles(), 'us');
  const b10 = columns.findIndex(({ key }) => key === 'b10Life');
  const names = (order: Parameters<typeof orderedRows>[1]) => orderedRows(rows, order).map(({ group }) => group);
  test('stands as the finding has it until a head is pressed', () =>
    expect(names(null)).toEqual(['steer', 'drive', 'trailer']));
  test('sorts numbers as numbers, both ways', () => {
    expect(names({ column: b10, down: true })).toEqual(['steer', 'drive', 'trailer']);
    expect(names({ column: b10, down: false })).toEqual(['trailer', 'drive', 'steer']);
  });
  test('puts what has no value last either way', () => {
    const gap = rows.map((row, index) =>
      index === 0 ? { ...row, cells: row.cells.map((cell) => ({ ...cell, sort: null })) } : row,
    );
    for (const down of [true, false]) expect(orderedRows(gap, { column: b10, down }).at(-1)?.group).toBe('steer');
  });
});

describe('the front page', () => {
  const page = questionPage('seal-life');
  const view = (part: object) => viewSchema.parse(part);
  test('tells apart as suits the question until the reader says otherwise', () => {
    expect(glanceView(view({}), page).by).toEqual(['role']);
    expect(glanceView(view({ by: ['shop'] }), page).by).toEqual(['shop']);
  });
  test('tells apart by what is not narrowed to one value yet', () => {
    expect(glanceView(view({ where: { role: ['trailer'] } }), page).by).toEqual(['lubricant']);
    expect(glanceView(view({ where: { role: ['trailer', 'drive'] } }), page).by).toEqual(['role']);
  });
});

describe('captions', () => {
  test('say of whom a curve tells that starts late', () => {
    const finding = threeRoles();
    const late = {
      ...finding,
      groups: finding.groups.map((group) => ({ ...group, counts: { curveFromMiles: 12_000 } })),
    };
    expect(figureCaption(late, 'us')).toContain('steer of those that reached 12,000 mi');
    // 12,000 mi × 1.609344 = 19,312 km.
    expect(figureCaption(late, 'metric')).toContain('19,312 km');
    expect(figureCaption(finding, 'us')).not.toContain('those that reached');
  });
});

describe('what is open, in a line', () => {
  const report: ReadReport = {
    ...{
      name: 'Demo fleet',
      invented: true,
      observedFrom: null,
      observedTo: null,
      fingerprint: 'f',
      messages: [],
      procedures: [],
      choices: defaultChoices,
    },
    files: [
      {
        name: 'a.csv',
        table: 'services',
        read: 2000,
        kept: 1999,
        setAside: 1,
        unusedColumns: [],
        refused: null,
        fingerprint: 'a',
      },
    ],
  };
  test('says that the records are invented, and never rounds up to all rows', () => {
    expect(openedSays({ report, vehicles: 1, lives: 6857, miles: 941e6 }, 'us')).toBe(
      'Demo fleet (invented) · 1 vehicle · 6,857 seal lives · 941 M wheel-end mi · 99.9\u00a0% of rows used',
    );
    expect(shareOf(999_999, 1_000_000)).toBe('99.9\u00a0%');
    expect(shareOf(10, 10)).toBe('100\u00a0%');
    expect(shareOf(0, 0)).toBe('0\u00a0%');
  });
});

describe('a drawing as one image', () => {
  test('keeps of what marks are called the group only', () => {
    const svg =
      '<g role="graphics-object" aria-roledescription="x" aria-hidden="true"><path aria-label="trailer" d="M0"/></g>';
    expect(asOneImage(svg)).toBe('<g><path data-group="trailer" d="M0"/></g>');
  });
});
