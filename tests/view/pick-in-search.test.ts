import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { searchToPick, searchToView, searchWithPick, viewToSearch } from '../../lib/view/index.ts';
import { foundWords, listColumns, livesPickSchema, wholePick } from '../../shared/lives-pick.ts';
import { viewSchema } from '../../shared/view.ts';
import { lifeStates } from '../../shared/vocabulary.ts';

const anyPick = fc
  .record({
    ended: fc.subarray([...lifeStates]),
    found: fc.option(fc.constantFrom(...foundWords)),
    past: fc.option(fc.double({ min: 0, max: 1e7, noNaN: true }).map((miles) => (miles === 0 ? 0 : miles))),
    at: fc.option(fc.integer({ min: 0, max: 1e7 })),
    vehicle: fc.string({ unit: 'grapheme' }),
    order: fc.option(fc.constantFrom(...listColumns)),
    life: fc.option(fc.string({ unit: 'grapheme', minLength: 1 })),
  })
  .chain((pick) => fc.boolean().map((down) => ({ ...pick, down: pick.order !== null && down })))
  .map((pick) => livesPickSchema.parse(pick));

describe('the lives picked and their link', () => {
  test('lead to each other exactly, beside any view', () => {
    fc.assert(
      fc.property(anyPick, (pick) => {
        const view = viewSchema.parse({ by: ['role'], where: { shop: ['North & Co'] } });
        const search = searchWithPick(viewToSearch(view, 'metric'), pick);
        expect(searchToPick(search)).toEqual({ pick, notices: [] });
        expect(searchToView(search)).toEqual({ view, units: 'metric', notices: [] });
      }),
      { numRuns: 300 },
    );
  });

  test('all lives need no words', () => {
    expect(searchWithPick('', wholePick)).toBe('');
    expect(searchToPick('?by=role')).toEqual({ pick: wholePick, notices: [] });
  });

  test('what cannot be read is said, and the rest is used', () => {
    const { pick, notices } = searchToPick('?ended=melted&past=far&order=-exit_miles&found=failure');
    expect(pick).toEqual({ ...wholePick, order: 'exit_miles', down: true, found: 'failure' });
    expect(notices).toHaveLength(2);
    expect(notices[0]).toMatch(/“ended” is not used. It must be one of failed, planned.*“melted”/);
    expect(notices[1]).toMatch(/“past”.*“far”/);
  });
});
