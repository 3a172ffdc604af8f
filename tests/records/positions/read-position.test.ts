import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { roles as roleWords } from '../../../shared/vocabulary.ts';
import { positionText } from '../../../lib/records/positions/position-text.ts';
import { readPosition } from '../../../lib/records/positions/read-position.ts';
import { positionWords } from '../../../lib/records/positions/spellings.ts';

const tractor = ['steer', 'drive', 'drive'];
const tractor4x2 = ['steer', 'drive'];
const tandem = ['trailer', 'trailer'];
const triAxle = ['trailer', 'trailer', 'trailer'];
const twinSteer = ['steer', 'steer', 'drive', 'drive'];
const tagged = ['steer', 'drive', 'tag'];
const pusher = ['steer', 'pusher', 'drive', 'drive'];
const us = { driverSits: 'left' } as const;

const read = (text: string, roles: readonly string[] | null, settings = {}) => {
  const found = readPosition(text, null, roles, settings);
  return typeof found === 'string' ? found : `${found.axle} ${found.side}`;
};

// The trade's spellings as the record contract and its trade page name them (positions, synonyms of axle roles and sides).
describe('a spelling of the trade', () => {
  it.each([
    ['LF', tractor, '1 left'],
    ['RF', tandem, '1 right'],
    ['L/F steer', tractor, '1 left'],
    ['RR2', tractor, '3 right'],
    ['LR1', tractor, '2 left'],
    ['Axle 3 LH', tractor, '3 left'],
    ['axle #2 - R.H.', tractor, '2 right'],
    ['T1R', tandem, '1 right'],
    ['T2L', tandem, '2 left'],
    ['FR drive left', tractor, '2 left'],
    ['RR drive left', tractor, '3 left'],
    ['1L', tractor, '1 left'],
    ['L1', tandem, '1 left'],
    ['3R', tractor, '3 right'],
    ['2 left', tandem, '2 left'],
    ['A2-L', tandem, '2 left'],
    ['LR', tractor4x2, '2 left'],
    ['RR', tractor4x2, '2 right'],
    ['RR', tandem, '2 right'],
    ['R/R', tandem, '2 right'],
    ['LM', triAxle, '2 left'],
    ['LR', triAxle, '3 left'],
    ['RRI', tandem, '2 right'],
    ['RRO', tractor4x2, '2 right'],
    ['LFI', tandem, '1 left'],
    ['2LO', tractor, '2 left'],
    ['RIR', tandem, '2 right'],
    ['LFD', tractor, '2 left'],
    ['RRD', tractor, '3 right'],
    ['D1L', tractor, '2 left'],
    ['drive 2 right', tractor, '3 right'],
    ['right rear drive', tractor, '3 right'],
    ['1st drive LH', tractor, '2 left'],
    ['SL', tractor, '1 left'],
    ['steer axle right', tractor, '1 right'],
    ['2nd steer left', twinSteer, '2 left'],
    ['tag RH', tagged, '3 right'],
    ['pusher left', pusher, '2 left'],
    ['rear tandem left', tractor, '3 left'],
    ['lead axle left', tandem, '1 left'],
    ['trail axle right', tandem, '2 right'],
    ['trailer axle 2 left', tandem, '2 left'],
    ['drive axle 3 left', tractor, '3 left'],
    ['Achse 2 links', tractor, '2 left'],
    ['essieu 1 droite', tandem, '1 right'],
    ['eje 2 izquierdo', tandem, '2 left'],
  ])('%s on %j is %s', (text, roles, position) => expect(read(text, roles)).toBe(position));

  it.each([
    ['2nd drive curb side', '3 right', '3 left'],
    ['drive 1 driver side', '2 left', '2 right'],
    ['steer P/S', '1 right', '1 left'],
    ['steer near side', '1 right', '1 left'],
    ['1 offside', '1 left', '1 right'],
    ['axle 2 street side', '2 left', '2 right'],
    ['D2 C/S', '3 right', '3 left'],
  ])('%s goes by where the driver sits', (text, sitsLeft, sitsRight) => {
    expect(read(text, tractor, us)).toBe(sitsLeft);
    expect(read(text, tractor, { driverSits: 'right' })).toBe(sitsRight);
    expect(read(text, tractor)).toMatch(/does not say where the driver sits/);
  });
});

describe('what stays ambiguous is not guessed', () => {
  it.each([
    ['RR', tractor, 'is ambiguous: it could be axle 2 right or axle 3 left or axle 3 right'],
    ['LR', tractor, 'is ambiguous: it could be axle 2 left or axle 3 left'],
    ['left rear', tagged, 'is ambiguous: it could be axle 2 left or axle 3 left'],
    ['LF', twinSteer, 'is ambiguous: it could be axle 1 left or axle 2 left'],
    ['FR', tractor, 'is ambiguous: it could be axle 1 right or axle 2 left or axle 2 right'],
    ['drive left', tractor, 'is ambiguous: it could be axle 2 left or axle 3 left'],
    ['drive axle 2 left', tractor, 'is ambiguous: it could be axle 2 left or axle 3 left'],
    ['axle 2', tractor, 'is ambiguous: it does not say which side'],
    ['2nd drive', tractor, 'is ambiguous: it does not say which side'],
    ['LH', tractor, 'names no axle'],
    ['axle 2 L/R', tandem, 'names both sides'],
    ['axle 2 LH & RH', tandem, 'names both sides'],
    ['both steers', tractor, 'names both sides'],
    ['2nd drive D/S', tractor, 'or another part of the vehicle'],
    ['axle 4 left', tractor, 'does not have'],
    ['RR3', tractor, 'does not have'],
    ['RR1', tandem, 'does not have'],
    ['T1R', tractor, 'does not have'],
    ['middle left', tandem, 'does not have'],
    ['axle 2 position 3 left', tractor, 'has several numbers'],
    ['left whatsit', tractor, '"WHATSIT" is no word'],
    ['', tractor, 'says no place'],
  ])('%s on %j', (text, roles, reason) => expect(readPosition(text, null, roles, us)).toContain(reason));

  it.each(['R&R', 'R & R', 'r and r', 'R+R', 'R&I'])('%s is a job done, and no right rear', (text) => {
    for (const roles of [tractor, tractor4x2, tandem, triAxle])
      expect(readPosition(text, null, roles, us)).toBe('names no axle');
    expect(read(`axle 2 LH ${text} seal`, tandem)).toBe('2 left');
  });

  it('R/S is the right or the road side; where both are the same it is that side', () => {
    expect(read('axle 2 R/S', tractor, us)).toContain('does not say which side');
    expect(read('axle 2 R/S', tractor, { driverSits: 'right' })).toBe('2 right');
  });

  it('a unit that is not known has numbers only', () => {
    expect(read('axle 3 LH', null)).toBe('3 left');
    expect(read('LF', null)).toContain('the unit is not in the units table');
    // Of a unit that is known it is the first drive axle, never axle 1 on the driver's side.
    expect(read('D1L', tractor)).toBe('2 left');
    expect(read('D1L', null)).toContain('the unit is not in the units table');
    expect(read('axle 4 LH', null, { axlesAhead: 3 })).toContain('the unit is not in the units table');
  });
});

describe('a column for the side alone', () => {
  it.each([
    ['2', 'D', '2 left'],
    ['2', 'P', '2 right'],
    ['drive 2', 'DS', '3 left'],
    ['1', 'O/S', '1 left'],
    ['3', 'Curb', '3 right'],
    ['3', 'RH', '3 right'],
  ])('makes %s with %s one thing', (text, side, position) => {
    const found = readPosition(text, side, tractor, us);
    expect(typeof found === 'string' ? found : `${found.axle} ${found.side}`).toBe(position);
  });
});

describe('trailer axles counted through the combination', () => {
  const ahead = { axlesAhead: 3 };
  it.each([
    ['4L', tandem, '1 left'],
    ['axle 5 right', tandem, '2 right'],
    ['trailer axle 5 right', tandem, '2 right'],
    ['T2R', tandem, '2 right'],
    ['LF', tandem, '1 left'],
    ['2L', tractor, '2 left'],
  ])('%s on %j is %s', (text, roles, position) => expect(read(text, roles, ahead)).toBe(position));

  it.each(['1L', '2L', '6L'])('%s is then before or behind a tandem trailer', (text) =>
    expect(read(text, tandem, ahead)).toContain('does not have'),
  );
});

describe('a rule confirmed once', () => {
  const rules = [
    { spelling: 'R/R', roles: 'steer drive drive', axle: 3, side: 'right' as const },
    { spelling: 'pos 05', axle: 3, side: 'left' as const },
  ];
  it('settles its spelling, however it is spaced, on the units it is for', () => {
    expect(read('rr', tractor, { rules })).toBe('3 right');
    expect(read('RR', twinSteer, { rules })).toContain('is ambiguous');
    expect(read('Pos-05', tractor, { rules })).toBe('3 left');
  });
  it('never gives an axle that the unit does not have', () =>
    expect(read('pos 05', tractor4x2, { rules })).toContain('has none'));
});

const anyRoles = fc.array(fc.constantFrom(...roleWords), { minLength: 1, maxLength: 7 });
const anySpelling = fc
  .array(
    fc.oneof(fc.constantFrom(...positionWords.keys()), fc.nat({ max: 12 }).map(String), fc.string({ maxLength: 4 })),
    {
      maxLength: 5,
    },
  )
  .map((pieces) => pieces.join(' '));
const anySettings = fc.record(
  { driverSits: fc.constantFrom('left' as const, 'right' as const), axlesAhead: fc.integer({ min: 1, max: 5 }) },
  { requiredKeys: [] },
);

describe('whatever is written', () => {
  it('an axle is one that the unit has, a side one of two', () => {
    fc.assert(
      fc.property(anySpelling, fc.option(anySpelling), anyRoles, anySettings, (text, side, roles, settings) => {
        const found = readPosition(text, side, roles, settings);
        if (typeof found === 'string') return found.length > 0;
        return (
          Number.isInteger(found.axle) && found.axle >= 1 && found.axle <= roles.length && /left|right/.test(found.side)
        );
      }),
      { numRuns: 5_000, seed: 4 },
    );
  });

  it('a position printed in the words of the trade reads as itself', () => {
    fc.assert(
      fc.property(anyRoles, fc.nat(), fc.boolean(), anySettings, (roles, pick, left, settings) => {
        const position = { axle: (pick % roles.length) + 1, side: left ? ('left' as const) : ('right' as const) };
        expect(readPosition(positionText(position, roles), null, roles, settings)).toEqual(position);
        if (settings.axlesAhead === undefined)
          expect(readPosition(positionText(position, null), null, roles, settings)).toEqual(position);
      }),
      { numRuns: 2_000, seed: 4 },
    );
  });
});
