import type { DemoUnit } from './draw-unit.ts';
import type { LifeTruth } from './life-truth-row.ts';
import type { FailureRow, InspectionRow, ReadingRow, ServiceRow, UnitRow } from './rows.ts';

/** Rows by table with canonical headers, and the true lives behind them. */
export interface DemoRows {
  readonly units: UnitRow[];
  readonly readings: ReadingRow[];
  readonly services: ServiceRow[];
  readonly inspections: InspectionRow[];
  readonly failures: FailureRow[];
  readonly truthLives: LifeTruth[];
}

/** Collects what one unit leaves behind and numbers its papers. */
export class UnitPapers implements DemoRows {
  readonly units: UnitRow[];
  readonly readings: ReadingRow[] = [];
  readonly services: ServiceRow[] = [];
  readonly inspections: InspectionRow[] = [];
  readonly failures: FailureRow[] = [];
  readonly truthLives: LifeTruth[] = [];
  private orders = 0;
  private serviceNumber = 0;
  private failureNumber = 0;
  private driverSheets = 0;
  private readonly serial: string;

  constructor({ row, serial }: DemoUnit) {
    this.units = [row];
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
