import type { Random } from '../random.ts';
import { digitTooMany, kilometresAsMiles, meterChanged, meterReset, noOdometer, rolledBack } from './meter-messes.ts';
import { datedPapers, type UnitMess, type UnitRecords } from './unit-records.ts';

const middle = <T>(list: readonly T[], random: Random): T | undefined =>
  list[Math.floor(list.length * (0.3 + 0.4 * random.uniform()))];

/** A new number from some day on; what was written before bears the old one. */
const renumbered: UnitMess = (unit, random) => {
  const day = middle(unit.readings, random)?.row.date;
  const papers = datedPapers(unit).filter(({ row }) => day !== undefined && row.date < day);
  const [listed] = unit.units;
  if (!listed || papers.every(({ table }) => table !== 'services')) return false;
  const old = `X${unit.unitId}`;
  listed.row = { ...listed.row, former_ids: old };
  for (const paper of papers) {
    paper.row = { ...paper.row, unit_id: old };
    paper.messes.push({ code: 'former-number', column: 'unit_id', written: old, meant: unit.unitId });
  }
  return true;
};

/** Two rows of the fleet list for one vehicle, the first saying that it was transferred. */
const handedOn: UnitMess = (unit, random) => {
  const reading = middle(unit.readings.slice(1, -1), random)?.row;
  const [listed] = unit.units;
  if (!listed || !reading) return false;
  const { row } = listed;
  const home = row.home_shop === 'Ambleford' ? 'Dunhollow' : 'Ambleford';
  const out = { out_date: reading.date, out_miles: reading.miles, out_reason: 'transferred' };
  const mess = { code: 'handed-on', column: 'unit_id', written: unit.unitId, meant: unit.unitId } as const;
  const earlier = { ...row, ...out, home_shop: home };
  unit.units.unshift({ table: 'units', tidy: earlier, row: earlier, messes: [mess], written: {} });
  const later = { ...row, in_service_date: reading.date, in_service_miles: reading.miles };
  unit.units[1] = { table: 'units', tidy: later, row: later, messes: [mess], written: {} };
  return true;
};

/** Each with the share of vehicles it is made of; none gets two, so that what must come of each is plain. */
const messes: readonly (readonly [share: number, make: UnitMess])[] = [
  [0.025, renumbered],
  [0.02, handedOn],
  [0.02, meterReset],
  [0.012, meterChanged],
  [0.02, noOdometer],
  [0.03, digitTooMany],
  [0.025, kilometresAsMiles],
  [0.02, rolledBack],
];

/** Makes the messes that are about vehicles: their numbers, who had them, their meters. */
export function makeUnitMesses(records: readonly UnitRecords[], random: Random): void {
  const left = [...records];
  for (let at = left.length - 1; at > 0; at--) {
    const other = random.below(at + 1);
    [left[at], left[other]] = [left[other] as UnitRecords, left[at] as UnitRecords];
  }
  for (const [share, make] of messes) {
    let wanted = Math.max(1, Math.round(share * records.length));
    for (let at = 0; at < left.length && wanted > 0; at++) {
      const unit = left[at];
      if (!unit || !make(unit, random)) continue;
      left.splice(at--, 1);
      wanted--;
    }
  }
  for (const { services, inspections, failures } of records)
    for (const { row, messes } of [...services, ...inspections, ...failures])
      if (row.miles === null && messes.every(({ code }) => code !== 'no-odometer'))
        messes.push({ code: 'miles-blank', column: 'miles', written: '', meant: '' });
}
