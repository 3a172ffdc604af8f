import type { LivesPick } from '../../shared/lives-pick.ts';
import type { WheelEndHistory } from '../../shared/life-history.ts';
import type { Procedure } from '../../shared/procedure.ts';
import type { Choices } from '../../shared/choices.ts';
import type { UnitSystem } from '../../shared/units.ts';
import type { View } from '../../shared/view.ts';
import type { Component } from '../../shared/vocabulary.ts';
import type {
  Conflict,
  JudgedLives,
  JudgementsChanged,
  MileageRepair,
  OpenedLife,
  RebuildAccount,
} from '../../lib/lives/index.ts';
import type { ListedLife, LivesCounted } from '../../lib/questions/index.ts';
import type { RowWanted, RowWritten } from '../../lib/records/index.ts';
import type { OpenedRecords, ToldProgress } from './opened-records.ts';

/** The lives of a view that are picked, in what order. */
export interface LivesAsked {
  readonly view: View;
  readonly pick: LivesPick;
}

/** What lives are rebuilt by; what is left out stays as it is. */
export interface NewSettings {
  readonly procedures?: readonly Procedure[];
  readonly choices?: Choices;
}

/** The record set under other settings, and what they changed of its judgements. */
export interface Rebuilt {
  readonly opened: OpenedRecords;
  readonly changed: JudgementsChanged;
}

/** The part of the desk that shows lives and what they are judged by. */
export interface LivesDesk {
  countLives(job: number, asked: LivesAsked): Promise<LivesCounted>;
  /** Lines of the list from a place on. */
  listLives(job: number, asked: LivesAsked, from: number, count: number): Promise<readonly ListedLife[]>;
  /** A life down to its records; null where there is none of that id. */
  openLife(job: number, component: Component, lifeId: string, units: UnitSystem): Promise<OpenedLife | null>;
  vehicleHistory(job: number, component: Component, unitId: string): Promise<readonly WheelEndHistory[]>;
  rowsAsWritten(job: number, rows: readonly RowWanted[]): Promise<readonly RowWritten[]>;
  /** The lives asked for as a file for other systems. */
  livesFile(job: number, asked: LivesAsked, form: 'csv' | 'arrow', told: ToldProgress): Promise<Blob>;
  judged(job: number): Promise<JudgedLives>;
  conflicts(job: number, offset: number, limit: number): Promise<readonly Conflict[]>;
  /** What was taken for true in rebuilding the lives, and what they came to. */
  account(job: number): Promise<RebuildAccount>;
  repairs(job: number, offset: number, limit: number): Promise<readonly MileageRepair[]>;
  repairsFile(job: number): Promise<Blob>;
  /** Rebuilds all lives; what stood before stands again where that fails or is abandoned. */
  rebuild(job: number, settings: NewSettings, told: ToldProgress): Promise<Rebuilt>;
}

export type {
  Conflict,
  JudgedLives,
  JudgementsChanged,
  ListedLife,
  LivesCounted,
  MileageRepair,
  OpenedLife,
  RebuildAccount,
};
