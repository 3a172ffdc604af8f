import { kilometresPerMile } from '../../../shared/units.ts';
import type { Mess, MessCode } from './mess.ts';
import { datedPapers, type DatedPaper, type MeterReading, type UnitMess, type UnitRecords } from './unit-records.ts';

const milesMess = (code: MessCode, written: number | null, meant: number | null, column = 'miles'): Mess => ({
  code,
  column,
  written: written === null ? '' : String(written),
  meant: meant === null ? '' : String(meant),
});

function rewrite(paper: DatedPaper, code: MessCode, miles: number | null): void {
  paper.messes.push(milesMess(code, miles, paper.row.miles));
  paper.row = { ...paper.row, miles };
}

/** A reading in the middle of the others, on a day on which nothing else happened. */
function loneReading(unit: UnitRecords, fewest: number): DatedPaper | undefined {
  const { readings } = unit;
  const others = new Set(datedPapers(unit).flatMap(({ table, row }) => (table === 'readings' ? [] : [row.date])));
  return (readings.slice(fewest, -fewest) as DatedPaper[]).find(({ row }) => !others.has(row.date));
}

/** From a day on every number is that of another meter, which then showed `begins`. */
function changeMeter(unit: UnitRecords, at: DatedPaper, begins: number, code: MessCode): void {
  const fell = (at.row.miles as number) - begins;
  for (const paper of datedPapers(unit))
    if (paper.row.date >= at.row.date && paper.row.miles !== null) rewrite(paper, code, paper.row.miles - fell);
  for (const paper of unit.units) {
    const { out_date: out, out_miles: miles } = paper.row;
    if (out === null || miles === null || out < at.row.date) continue;
    paper.messes.push(milesMess(code, miles - fell, miles, 'out_miles'));
    paper.row = { ...paper.row, out_miles: miles - fell };
  }
}

export const meterReset: UnitMess = (unit) => {
  const at = loneReading(unit, 3);
  if (!at || (at.row.miles as number) < 50_000) return false;
  const before = at.row.miles;
  changeMeter(unit, at, 0, 'meter-reset');
  at.row = { ...at.row, event: 'replaced', miles_before: before } as MeterReading;
  return true;
};

export const meterChanged: UnitMess = (unit, random) => {
  const at = loneReading(unit, 6);
  if (!at || (at.row.miles as number) < 80_000) return false;
  changeMeter(unit, at, 5 + random.below(40), 'meter-changed');
  return true;
};

/** A trailer whose miles nobody ever read. */
export const noOdometer: UnitMess = (unit) => {
  const [listed] = unit.units;
  // Where nobody said new or used, that is told by the miles at the start, which are gone here.
  if (!listed || listed.row.unit_kind !== 'trailer' || listed.row.acquired === null) return false;
  unit.readings.length = 0;
  listed.messes.push(milesMess('no-odometer', null, listed.row.in_service_miles, 'in_service_miles'));
  listed.row = { ...listed.row, in_service_miles: null as never, out_miles: null };
  for (const paper of datedPapers(unit)) rewrite(paper, 'no-odometer', null);
  return true;
};

/** Days of work with miles written, well between two readings, by the shops that a mess is for. */
function daysOfWork(unit: UnitRecords, fits: (miles: number, shop: string) => boolean): string[] {
  const [first, last] = [unit.readings[1], unit.readings.at(-2)];
  if (!first || !last) return [];
  const days = unit.services.flatMap(({ row }) =>
    row.miles !== null && row.date > first.row.date && row.date < last.row.date && fits(row.miles, row.shop)
      ? [row.date]
      : [],
  );
  return [...new Set(days)];
}

/** All lines of the work of one day bear the same wrong miles, since the order does. */
const wrongMiles =
  (code: MessCode, fits: (miles: number, shop: string) => boolean, wrong: (miles: number) => number): UnitMess =>
  (unit, random) => {
    const days = daysOfWork(unit, fits);
    if (days.length === 0) return false;
    const day = random.pick(days);
    for (const paper of unit.services as DatedPaper[])
      if (paper.row.date === day && paper.row.miles !== null) rewrite(paper, code, wrong(paper.row.miles));
    return true;
  };

/** More than ten million miles could not be meant, and the row would be set aside for that. */
export const digitTooMany = wrongMiles(
  'digit-too-many',
  (miles) => miles > 20_000 && miles < 990_000,
  (miles) => miles * 10,
);

/** Below these miles the number could be one of the days after. Brackwell writes kilometres, and is not wrong there. */
export const kilometresAsMiles = wrongMiles(
  'kilometres-as-miles',
  (miles, shop) => miles > 120_000 && shop !== 'Brackwell',
  (miles) => Math.round(miles * kilometresPerMile),
);

export const rolledBack: UnitMess = (unit, random) => {
  const at = loneReading(unit, 3);
  const before = at && (unit.readings[unit.readings.indexOf(at as never) - 1]?.row.miles ?? 0);
  if (!at || before === undefined || before < 30_000) return false;
  rewrite(at, 'rolled-back', before - 2_000 - random.below(8_000));
  return true;
};
