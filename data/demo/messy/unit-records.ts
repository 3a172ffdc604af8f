import type { DemoFleet } from '../generate-demo-fleet.ts';
import type { Random } from '../random.ts';
import type { FailureRow, InspectionRow, ReadingRow, ServiceRow, UnitRow } from '../rows.ts';
import { paperOf, type Paper } from './mess.ts';

export interface ListedUnit extends UnitRow {
  former_ids: string | null;
}

export interface MeterReading extends ReadingRow {
  event: string | null;
  miles_before: number | null;
}

/** All that the fleet has on paper. */
export interface FleetPapers {
  readonly units: Paper<ListedUnit>[];
  readonly readings: Paper<MeterReading>[];
  readonly services: Paper<ServiceRow>[];
  readonly inspections: Paper<InspectionRow>[];
  readonly failures: Paper<FailureRow>[];
}

/** A row of any table that has a unit, a day and maybe miles. */
export type DatedPaper = Paper<{ unit_id: string; date: string; miles: number | null }>;

/** The same of one vehicle. */
export interface UnitRecords extends FleetPapers {
  /** Its number in the tidy fleet. */
  readonly unitId: string;
}

/** Makes one mess of one vehicle's records, if they allow it. */
export type UnitMess = (unit: UnitRecords, random: Random) => boolean;

/** The rows of a tidy fleet, by vehicle. */
export function unitRecordsOf(fleet: DemoFleet): UnitRecords[] {
  const byUnit = new Map(
    fleet.units.map((unit): [string, UnitRecords] => [
      unit.unit_id,
      {
        unitId: unit.unit_id,
        units: [paperOf('units', { ...unit, former_ids: null })],
        readings: [],
        services: [],
        inspections: [],
        failures: [],
      },
    ]),
  );
  const of = ({ unit_id }: { unit_id: string }): UnitRecords => byUnit.get(unit_id) as UnitRecords;
  for (const row of fleet.readings)
    of(row).readings.push(paperOf('readings', { ...row, event: null, miles_before: null }));
  for (const row of fleet.services) of(row).services.push(paperOf('services', row));
  for (const row of fleet.inspections) of(row).inspections.push(paperOf('inspections', row));
  for (const row of fleet.failures) of(row).failures.push(paperOf('failures', row));
  return [...byUnit.values()];
}

/** Papers of a vehicle that bear a day. */
export const datedPapers = ({ readings, services, inspections, failures }: UnitRecords): DatedPaper[] => [
  ...(readings as DatedPaper[]),
  ...(services as DatedPaper[]),
  ...(inspections as DatedPaper[]),
  ...(failures as DatedPaper[]),
];

export function allPapers(records: readonly UnitRecords[]): FleetPapers {
  return {
    units: records.flatMap(({ units }) => units),
    readings: records.flatMap(({ readings }) => readings),
    services: records.flatMap(({ services }) => services),
    inspections: records.flatMap(({ inspections }) => inspections),
    failures: records.flatMap(({ failures }) => failures),
  };
}
