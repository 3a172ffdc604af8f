import type { ServiceRow, WrittenStep } from '../rows.ts';
import { column, worded, type Column } from './listing.ts';

type Words = Readonly<Record<string, string>>;

/** Steps of an installation in the words of a sheet. */
export const plainSteps: Readonly<Record<WrittenStep, string>> = {
  step_cavity_cleaned: 'cavity cleaned',
  step_seal_tool_used: 'seal tool used',
  step_seal_seated: 'seal seated',
  step_spacer_fitted: 'spacer fitted',
  step_spacer_oriented: 'spacer orientation ok',
  step_hub_supported: 'hub supported',
  step_lock_engaged: 'lock engaged',
  step_outer_nut_torqued: 'outer nut torqued',
  step_gasket_new: 'new gasket',
  step_lubricant_matched: 'lubricant matched',
  step_fill_checked: 'fill checked',
  step_spindle_dressed: 'spindle dressed',
  step_mark_fitted: 'mark fitted',
};

export const stepColumns = (
  labels: Readonly<Record<WrittenStep, string>>,
  label: (text: string) => string,
  words: Words,
): Column<ServiceRow>[] =>
  Object.entries(labels).map(([step, text]) =>
    worded(label(text), step, words, (row: ServiceRow) => row[step as WrittenStep]),
  );

interface TorqueForm {
  readonly seating: string;
  readonly inner: string;
  readonly outer: string;
  readonly cell: (ftlb: number | null) => string | number | null;
  readonly unit: 'lbf·ft' | 'N·m';
}

export const torqueColumns = ({ seating, inner, outer, cell, unit }: TorqueForm): Column<ServiceRow>[] => [
  column(seating, 'seating_torque_ftlb', (row) => cell(row.seating_torque_ftlb), { unit }),
  column(inner, 'inner_torque_ftlb', (row) => cell(row.inner_torque_ftlb), { unit }),
  column(outer, 'outer_torque_ftlb', (row) => cell(row.outer_torque_ftlb), { unit }),
];
