import type { FailureRow, InspectionRow, ServiceRow } from '../rows.ts';
import { combinationSpelling, hasTwoDrives, isDrive } from './place-spellings.ts';
import type { RowMess } from './row-messes.ts';
import { grouped, kilometres, monthFirst } from './spelled.ts';

type Any = ServiceRow | FailureRow;
const sideless = (header: string, text: (row: Any, roles: readonly string[]) => string): RowMess<Any> => ({
  code: 'side-missing',
  column: 'position',
  share: 0.01,
  written: (row, roles) => ({ [header]: text(row, roles) }),
});
const blankPosition = (header: string, share = 0.006): RowMess<Any> => ({
  code: 'position-blank',
  column: 'position',
  share,
  written: () => ({ [header]: '' }),
});
/** `RR` and `LR` do not say which of two drive axles. */
const whichDrive = (header: string): RowMess<Any> => ({
  code: 'axle-unclear',
  column: 'position',
  share: 0.008,
  fits: (row, roles) => hasTwoDrives(row, roles) && isDrive(row, roles),
  written: ({ side }) => ({ [header]: side === 'left' ? 'LR' : 'RR' }),
});
const removeAndReplace = (header: string): RowMess<Any> => ({
  code: 'remove-and-replace',
  column: 'position',
  share: 0.004,
  written: () => ({ [header]: 'R&R' }),
});
const noSuchDay = (header: string, text: string): RowMess<Any> => ({
  code: 'no-such-day',
  column: 'date',
  share: 0.003,
  written: () => ({ [header]: text }),
});
const blankDay = (header: string): RowMess<Any> => ({
  code: 'date-blank',
  column: 'date',
  share: 0.003,
  written: () => ({ [header]: '' }),
});
const remark = (header: string, text: string): RowMess<Any> => ({
  code: 'remark-with-traps',
  column: 'comment',
  share: 0.01,
  fits: ({ comment }) => comment === null,
  written: () => ({ [header]: text }),
});
const wordNotKnown = (header: string, column: string, text: string): RowMess<Any> => ({
  code: 'word-not-known',
  column,
  share: 0.004,
  written: () => ({ [header]: text }),
});
const milesUnreadable = (header: string, text: string): RowMess<Any> => ({
  code: 'miles-unreadable',
  column: 'miles',
  share: 0.004,
  written: () => ({ [header]: text }),
});

const throughCombination = (row: Any, roles: readonly string[]) => combinationSpelling(3)(row, roles).slice(0, -3);

const trap = 'customer: "RR R&R, see LF" - 2nd call,\nboth ends looked at; paid';

export interface ShopMesses {
  readonly services: readonly RowMess<ServiceRow>[];
  readonly failures: readonly RowMess<FailureRow>[];
}

/** What each shop does to its rows, by the headers of its own lists. */
export const shopMesses: Readonly<
  Record<'Ambleford' | 'Brackwell' | 'Coldmere' | 'Dunhollow' | 'Eastfen' | 'Outside', ShopMesses>
> = {
  Ambleford: {
    services: [
      whichDrive('Wheel Pos'),
      {
        ...{ code: 'side-unclear', column: 'position', share: 0.004 },
        written: ({ axle }) => ({ 'Wheel Pos': `Axle ${axle} R/S` }),
      },
      blankPosition('Wheel Pos'),
      noSuchDay('Repair Date', '2/30/2022'),
      wordNotKnown('Parts Replaced', 'replaced', 'see invoice'),
      {
        ...{ code: 'unit-in-cell', column: 'miles', share: 0.01, fits: ({ miles }) => miles !== null },
        written: ({ miles }) => ({ 'Odometer (mi)': `${grouped(kilometres(miles)) ?? ''} km` }),
      },
      {
        ...{ code: 'kind-not-known', column: '', share: 0.003 },
        written: () => ({ 'Record Type': '??' }),
      },
      {
        ...{ code: 'cells-too-many', column: '', share: 0.003, fits: ({ comment }) => comment === null },
        ...{ written: () => ({ Remarks: 'waited' }), behind: ', parts' },
      },
      {
        ...{ code: 'quote-not-closed', column: '', share: 0, fits: ({ comment }) => comment === null },
        ...{ written: () => ({ Remarks: '' }), behind: '"waited for parts' },
      },
      remark('Remarks', trap),
    ],
    failures: [whichDrive('Wheel Pos'), wordNotKnown('Failure Mode', 'mode', 'see notes'), remark('Remarks', trap)],
  },
  Brackwell: {
    services: [
      sideless('Seite', () => ''),
      noSuchDay('Ausgeführt am', '31.04.2023'),
      blankDay('Ausgeführt am'),
      milesUnreadable('Kilometerstand', 'siehe Tacho'),
      {
        ...{ code: 'no-such-axle', column: 'position', share: 0.004 },
        written: () => ({ Achse: '7' }),
      },
      {
        ...{ code: 'cell-not-known', column: 'lubricant', share: 0.01, fits: ({ lubricant }) => lubricant === null },
        written: () => ({ Schmierstoff: 'wie vorher' }),
      },
      remark('Bemerkung', 'Kunde: "RR, LF"; Öl außen, Rechnung folgt'),
    ],
    failures: [sideless('Seite', () => ''), wordNotKnown('Schadensart', 'mode', 'unklar, siehe Bild')],
  },
  Coldmere: {
    services: [
      sideless('Location on unit', throughCombination),
      blankPosition('Location on unit'),
      {
        ...{ code: 'no-such-axle', column: 'position', share: 0.003 },
        written: ({ side }) => ({ 'Location on unit': `Ax 12 ${side === 'left' ? 'LH' : 'RH'}` }),
      },
      blankDay('Date done'),
      milesUnreadable('Meter', 'no meter'),
      wordNotKnown('Hub build', 'hub_build', 'the other kind'),
      remark('Notes', trap),
    ],
    failures: [
      sideless('Location on unit', throughCombination),
      wordNotKnown('What failed', 'mode', 'tbc'),
      { ...{ code: 'miles-below-zero', column: 'miles', share: 0.003 }, written: () => ({ Meter: '-1' }) },
    ],
  },
  Dunhollow: {
    services: [
      sideless('Wheel', ({ axle }) => `Axle ${axle}`),
      blankPosition('Wheel'),
      noSuchDay('Date Work Done', '31-Jun-2023'),
      wordNotKnown('Nut', 'nut_system', 'as found'),
      remark('Remarks', 'driver said "N/S rear";\tno trace'),
    ],
    failures: [blankDay('Date Found'), wordNotKnown('Defect', 'mode', 'refer to report')],
  },
  Eastfen: {
    services: [
      blankPosition('vehicle.wheel'),
      noSuchDay('at', '2023-02-29T07:45:00Z'),
      {
        ...{ code: 'unit-not-listed', column: 'position', share: 0.004 },
        written: () => ({ 'vehicle.no': 'HIRE-2', 'vehicle.wheel': 'D1L' }),
      },
      milesUnreadable('odometer.value', 'broken'),
      remark('job.text', trap),
    ],
    failures: [wordNotKnown('failure_mode', 'mode', 'undetermined'), whichDrive('vehicle.wheel')],
  },
  Outside: {
    services: [
      blankPosition('Wheel Position', 0.05),
      removeAndReplace('Wheel Position'),
      whichDrive('Wheel Position'),
      sideless('Wheel Position', ({ axle }) => `Axle ${axle}`),
      milesUnreadable('Mlg', 'see tag'),
      remark('Memo', 'R&R RR seal, LF ok'),
    ],
    failures: [],
  },
};

export const inspectionMesses: readonly RowMess<InspectionRow>[] = [
  { ...{ code: 'position-blank', column: 'position', share: 0.001 }, written: () => ({ Axle: '', Side: '' }) },
  { ...{ code: 'side-missing', column: 'position', share: 0.001 }, written: () => ({ Side: '' }) },
  { ...{ code: 'word-not-known', column: 'checked', share: 0.001 }, written: () => ({ 'Looked at': 'ask yard' }) },
  { ...{ code: 'no-such-day', column: 'date', share: 0.001 }, written: () => ({ 'Inspection Date': '2024/00/17' }) },
  {
    ...{ code: 'miles-unreadable', column: 'miles', share: 0.0005 },
    written: ({ date }) => ({ Miles: `see ${monthFirst(date)}` }),
  },
];
