'use client';

import { useState } from 'react';
import { distanceSays } from '../../../../lib/charts/index.ts';
import { mileageRules } from '../../../../shared/choices.ts';
import type { UnitSystem } from '../../../../shared/units.ts';
import type { MileageRepair, RebuildAccount } from '../../../_state/lives-desk.ts';
import { nextJob } from '../../../_state/next-job.ts';
import { messageOf, type OpenRecordSet } from '../../../_state/record-sets.ts';
import { useDeskAnswer } from '../../../_state/use-desk-answer.ts';
import { saveFile } from '../../finding/save-file.ts';
import { PageTurner } from '../../frame/page-turner.tsx';
import { QualityTable } from '../quality-table.tsx';

const pageRows = 25;
const heads = ['row', 'vehicle', 'date', 'rule', 'written', 'used', 'accepted there'];

interface Props {
  readonly open: OpenRecordSet;
  readonly repairs: RebuildAccount['repairs'];
  readonly units: UnitSystem;
}

/** Every row whose miles are not used as written, a page at a time, opened only by who wants it. */
export function Repairs({ open, repairs, units }: Props) {
  const total = repairs.reduce((sum, { rows }) => sum + rows, 0);
  const [shown, setShown] = useState(false);
  const [offset, setOffset] = useState(0);
  const [failed, setFailed] = useState<string | null>(null);
  const { value, trouble } = useDeskAnswer(shown && total > 0 ? `repairs ${offset}` : null, (set, job) =>
    set.desk.repairs(job, offset, pageRows),
  );
  const save = () => {
    open.desk.repairsFile(nextJob()).then(
      (file) => saveFile(file, `miles-not-as-written${open.report.invented ? '-invented' : ''}.csv`),
      (error: unknown) => setFailed(messageOf(error)),
    );
  };
  if (total === 0) return <p data-repairs={0}>All miles are used as written.</p>;
  const rows = (value ?? []).map((repair) => cells(repair, open, units));
  return (
    <details data-repairs={total} onToggle={({ currentTarget }) => setShown(currentTarget.open)}>
      <summary>
        {total.toLocaleString('en-US')} {total === 1 ? 'row is' : 'rows are'} not used as written: every one of them
      </summary>
      <QualityTable
        caption="Miles used are those run, whatever the meter said: after a new meter they go on from the old one"
        {...{ heads, rows, words: 4 }}
      />
      {(trouble ?? failed) && <p role="alert">They could not be fetched: {trouble ?? failed}</p>}
      <div className="acts">
        <button type="button" className="word" onClick={save}>
          All of them (CSV)
        </button>
        <PageTurner
          label="Pages of miles not used as written"
          {...{ offset, total, rows: pageRows }}
          words={['Earlier rows', 'Further rows']}
          onTurn={setOffset}
        />
      </div>
    </details>
  );
}

function cells(repair: MileageRepair, open: OpenRecordSet, units: UnitSystem): readonly string[] {
  const { fileId, line, unitId, day, rule, written, used, acceptedFrom, acceptedTo } = repair;
  const miles = (value: number | null) => (value === null ? '—' : distanceSays(value, units));
  const accepted =
    acceptedFrom === null && acceptedTo === null ? '—' : `${miles(acceptedFrom)} to ${miles(acceptedTo)}`;
  return [
    `${open.report.files[fileId]?.name ?? repair.table}, row ${line.toLocaleString('en-US')}`,
    ...[unitId, day, mileageRules[rule]],
    ...[written === null ? 'blank' : miles(written), miles(used), accepted],
  ];
}
