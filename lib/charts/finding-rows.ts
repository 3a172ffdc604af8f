import { shownLimits, type Finding } from '../../shared/finding.ts';

export type Cell = string | number | null;

/** A finding as rows of cells under one header. */
export interface FindingRows {
  readonly header: readonly string[];
  readonly rows: readonly (readonly Cell[])[];
}

/**
 * A finding as a table for files: one row for each estimate of each group, in stored units (miles,
 * shares 0 to 1), undisplayed digits kept. What the numbers stand on and may be used for is repeated
 * in the last columns of every row, so that no row can be parted from it.
 */
export function findingRows(finding: Finding): FindingRows {
  const counts = [...new Set(finding.groups.flatMap((group) => Object.keys(group.counts)))];
  const about = aboutColumns(finding);
  const header = [
    ...['question', ...finding.settings.by, 'group', 'lives', 'failures', 'miles'],
    ...[...counts, 'firmness', 'estimate', 'value', 'lower', 'upper', 'level', 'unit', 'method', 'reason'],
    ...['method_lower', 'method_upper', 'vehicle_lower', 'vehicle_upper'],
    ...about.map(([name]) => name),
  ];
  const rows = finding.groups.flatMap((group) => {
    const start: Cell[] = [
      ...[finding.question, ...finding.settings.by.map((column) => group.by[column] ?? null)],
      ...[group.label, group.lives, group.failures, group.miles],
      ...[...counts.map((name) => group.counts[name] ?? null), group.firmness],
    ];
    const estimates = Object.entries(group.estimates);
    const cells = estimates.map(([name, estimate]): Cell[] => {
      const { lower, upper } = shownLimits(estimate);
      const { vehicleLower = null, vehicleUpper = null } = estimate;
      return [
        ...[name, estimate.value, lower, upper, estimate.level, estimate.unit, estimate.method],
        ...[estimate.reason ?? null, estimate.lower, estimate.upper, vehicleLower, vehicleUpper],
      ];
    });
    const blank: Cell[] = Array.from({ length: 12 }, () => null);
    return (cells.length === 0 ? [blank] : cells).map((row) => [...start, ...row, ...about.map(([, value]) => value)]);
  });
  return { header, rows };
}

function aboutColumns({ data, settings, ...finding }: Finding): [string, Cell][] {
  return [
    ['answer', [finding.answer, ...(finding.further === undefined ? [] : [finding.further])].join(' ')],
    ['answer_firmness', `${finding.firmness}: ${finding.firmnessReason}`],
    [
      'failing_doubts',
      finding.doubts
        .filter(({ state }) => state === 'fails')
        .map(({ name }) => name)
        .join('; '),
    ],
    ['records', data.invented ? 'INVENTED: made-up records, no real fleet' : 'as opened'],
    ['observed_from', data.observedFrom],
    ['observed_to', data.observedTo],
    ['rows_set_aside', data.setAside],
    ['data_fingerprint', data.fingerprint],
    [
      'procedure',
      data.procedures?.map(({ name, version, validFrom }) => `${name} ${version} from ${validFrom}`).join('; ') ?? null,
    ],
    ['settings', JSON.stringify(settings)],
    ['cautions', finding.cautions.join(' ')],
  ];
}
