import { describe, expect, it } from 'vitest';
import { answerIn, withAnswer } from '../../app/_state/columns/answering.ts';
import {
  answered,
  answerOf,
  asksOf,
  firstDraft,
  missingColumns,
  openOf,
  placedOtherwise,
} from '../../app/_state/columns/draft.ts';
import { usesOf, withoutUse, withSource, withUse, withWord } from '../../app/_state/columns/edit-columns.ts';
import type { AskedSource } from '../../app/_state/columns-desk.ts';
import { keptMapsText, readKeptMaps, withMaps } from '../../app/_state/keeping/kept-maps.ts';
import { proposeMap, UnitRoles } from '../../lib/records/index.ts';
import { columnMapSchema, type ColumnMap } from '../../shared/column-map.ts';

const headers = ['WO', 'Unit', 'Pos', 'Day', 'Odo', 'Fluid'];
/** No day tells its month, no meter its unit, and `RR` may be three wheel ends of such a unit. */
const rows = [
  ['1', '7', 'LF', '03/02/2021', '40000', 'oil'],
  ['2', '7', 'RR', '04/02/2021', '41000', '00'],
];
const roles = new UnitRoles();
roles.add('7', 'steer drive drive');

function asked(map: ColumnMap | null = null): AskedSource {
  const proposal = proposeMap('services north.csv', headers, rows, roles);
  return {
    ...{ number: 0, files: ['services north.csv'], why: null, likely: true, headers, values: [], rows: 2, whole: true },
    ...{ map, proposal },
  };
}
const askOf = (draft: ReturnType<typeof firstDraft>, id: RegExp) => {
  const ask = asksOf(draft).find((ask) => id.test(ask.id));
  if (!ask) throw new Error(`nothing is asked like ${String(id)}`);
  return ask;
};
const optionOf = (ask: { options: readonly { label: string }[] }, label: RegExp) =>
  ask.options.findIndex((option) => label.test(option.label));

describe('an answer', () => {
  const draft = firstDraft(asked());

  it('stands in the map, and takes the place of the one before', () => {
    const ask = askOf(draft, /date order/);
    const march = answered(draft, ask, optionOf(ask, /^2 March: month, day, year/));
    const february = answered(march, ask, optionOf(ask, /^3 February: day, month, year/));
    expect([march.map.dates.order, february.map.dates.order]).toEqual(['mdy', 'dmy']);
  });

  it('finds its column by name where the draft has moved on', () => {
    const ask = askOf(draft, /^unit Odo/);
    const without = { ...draft, map: withoutUse(draft.map, 'WO', usesOf(draft.map, 'WO')[0]!) };
    const done = answered(without, ask, optionOf(ask, /^km$/));
    expect(done.map.tables.services?.find(({ ours }) => ours === 'miles')?.unit).toBe('km');
    expect(done.map.tables.services?.filter(({ unit }) => unit !== undefined)).toHaveLength(1);
  });

  it('of a rule for a spelling is taken back by another', () => {
    const ask = askOf(draft, /^place RR/);
    const ruled = answered(draft, ask, optionOf(ask, /2nd drive right/));
    expect(ruled.map.positions?.rules).toEqual([
      { spelling: 'RR', roles: 'steer drive drive', axle: 3, side: 'right' },
    ]);
    const back = answered(ruled, ask, optionOf(ask, /set these rows aside/));
    expect(back.map.positions?.rules).toBeUndefined();
    const proposed = draft.proposed.map;
    expect(answerIn(withAnswer(draft.map, proposed, ask, 1), proposed, ask)).toBe(1);
  });

  it('is wanted for everything asked before a draft can be confirmed', () => {
    expect(openOf(draft)).toMatch(/questions are open/);
    const done = asksOf(draft).reduce((now, ask) => answered(now, ask, 0), draft);
    expect(openOf(done)).toBeNull();
    expect(columnMapSchema.safeParse(done.map).success).toBe(true);
    // A map that was confirmed once is not asked about again.
    const again = firstDraft(asked(done.map));
    expect(openOf(again)).toBeNull();
    expect(asksOf(again).every((ask) => answerOf(again, ask) !== undefined)).toBe(true);
  });
});

describe('a column', () => {
  const { map } = firstDraft(asked());
  const sourceOf = (map: ColumnMap, ours: string) => map.tables.services?.find((source) => source.ours === ours);

  it('left out is missed where rows cannot do without it', () => {
    const draft = firstDraft(asked());
    const [use] = usesOf(map, 'Unit');
    expect(use).toEqual({ ours: 'unit_id', as: 'cells', tables: ['services'] });
    const without = { ...draft, map: withoutUse(map, 'Unit', use!) };
    expect(missingColumns(without)).toEqual([{ table: 'services', ours: 'unit_id' }]);
    const filled = withUse(without.map, 'WO', use!);
    expect(sourceOf(filled, 'unit_id')).toEqual({ ours: 'unit_id', from: [{ header: 'WO' }] });
  });

  it('joins a place or a list, and takes the place of anything else', () => {
    const side = { ours: 'position', as: 'side', tables: ['services'] } as const;
    const placed = withUse(map, 'Fluid', side);
    expect(sourceOf(placed, 'position')).toMatchObject({
      from: [{ header: 'Pos' }, { header: 'Fluid', only: 'side' }],
      joined: 'space',
    });
    const one = withoutUse(placed, 'Fluid', side);
    expect(sourceOf(one, 'position')).toEqual({ ours: 'position', from: [{ header: 'Pos' }] });
    const shop = { ours: 'shop', as: 'cells', tables: ['services'] } as const;
    expect(sourceOf(withUse(withUse(map, 'WO', shop), 'Fluid', shop), 'shop')?.from).toEqual([{ header: 'Fluid' }]);
  });

  it('has words that mean others, whatever their capitals, until they are taken back', () => {
    const fluid = withSource(map, ['services'], 'lubricant', () => ({
      ours: 'lubricant',
      from: [{ header: 'Fluid' }],
    }));
    const said = withWord(fluid, ['services'], 'lubricant', 'Fluid', 'Moly  X', 'packed');
    expect(sourceOf(said, 'lubricant')?.from).toEqual([{ header: 'Fluid', words: { 'moly x': 'packed' } }]);
    const back = withWord(said, ['services'], 'lubricant', 'Fluid', 'MOLY X', undefined);
    expect(sourceOf(back, 'lubricant')?.from).toEqual([{ header: 'Fluid' }]);
  });
});

describe('rows that stand elsewhere in their file', () => {
  const where = { sheet: 'South', headerRow: 3 };
  const at = (source: AskedSource, place?: typeof where): AskedSource => {
    const { where: _, ...map } = source.proposal.map;
    return { ...source, proposal: { ...source.proposal, map: place ? { ...map, where: place } : map } };
  };
  const edited = () => {
    const draft = firstDraft(asked());
    const ask = askOf(draft, /date order/);
    const said = answered(draft, ask, optionOf(ask, /month, day, year/));
    return { ...said, map: { ...said.map, source: 'yard', recognised: { ...said.map.recognised, fileName: 'n*' } } };
  };

  it('below the same headers keep all that was said, and where they stand goes into the map and out again', () => {
    const moved = placedOtherwise(edited(), at(asked(), where));
    expect(moved.map).toEqual({ ...edited().map, where });
    expect(placedOtherwise(moved, at(asked())).map).toEqual(edited().map);
  });

  it('below others are proposed anew, but for what the source is called', () => {
    const others = at({ ...asked(), headers: ['A', 'B'], likely: false }, where);
    const moved = placedOtherwise(edited(), others);
    expect(moved.map).toMatchObject({ source: 'yard', where, recognised: { fileName: 'n*' }, dates: {} });
    expect([moved.answers, moved.left]).toEqual([{}, false]);
  });
});

describe('maps that are kept', () => {
  const kept = (source: string, savedOn = '2026-11-01T00:00:00.000Z') => ({
    map: { ...firstDraft(asked()).map, source, dates: { order: 'dmy' as const } },
    savedOn,
  });

  it('come back as they were, a newer one in the place of the same source', () => {
    const maps = withMaps([kept('south'), kept('north')], [kept('north', '2026-11-30T00:00:00.000Z')]);
    expect(maps.map(({ map, savedOn }) => [map.source, savedOn.slice(0, 10)])).toEqual([
      ['north', '2026-11-30'],
      ['south', '2026-11-01'],
    ]);
    expect(readKeptMaps(keptMapsText(maps))).toEqual(maps);
  });

  it.each([
    ['{', /damaged/],
    ['{"version":1,"maps":[{"map":{}}]}', /damaged/],
    ['{"version":9,"maps":[]}', /version 9 of this store/],
  ])('that are %s are refused with the reason', (text, why) => {
    expect(readKeptMaps(text)).toMatch(why);
  });
});
