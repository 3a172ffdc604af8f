import type { DemoUnit } from './draw-unit.ts';
import type { FailureRow, InspectionRow, LifeTruth, ReadingRow, ServiceRow, UnitRow } from './rows.ts';

/** Everything one unit leaves behind: the rows of its records and the truth beside them. */
export interface UnitHistory {
  readonly unit: UnitRow;
  readonly readings: ReadingRow[];
  readonly services: ServiceRow[];
  readonly inspections: InspectionRow[];
  readonly failures: FailureRow[];
  readonly lives: LifeTruth[];
}

/** Collects a unit's rows and numbers its papers. */
export class UnitPapers implements UnitHistory {
  readonly unit: UnitRow;
  readonly readings: ReadingRow[] = [];
  readonly services: ServiceRow[] = [];
  readonly inspections: InspectionRow[] = [];
  readonly failures: FailureRow[] = [];
  readonly lives: LifeTruth[] = [];
  private orders = 0;
  private serviceNumber = 0;
  private failureNumber = 0;
  private driverSheets = 0;
  private readonly serial: string;

  constructor({ row, serial }: DemoUnit) {
    this.unit = row;
    this.serial = serial;
  }

  nextOrderId(): string {
    return `O${this.serial}-${++this.orders}`;
  }

  nextServiceId(): string {
    return `W${this.serial}-${++this.serviceNumber}`;
  }

  nextDriverSheet(): string {
    return `D${this.serial}-${++this.driverSheets}`;
  }

  nextFailureId(): string {
    return `F${this.serial}-${++this.failureNumber}`;
  }
}
