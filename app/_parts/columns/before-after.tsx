import { positionColumn } from '../../../shared/column-map.ts';
import type { MapPreview } from '../../_state/columns-desk.ts';
import type { Draft } from '../../_state/columns/draft.ts';
import type { ColumnUse } from '../../_state/columns/edit-columns.ts';

interface Sample {
  readonly theirs: string;
  readonly ours: string | null;
  readonly why: string | null;
}

const most = 3;

/** Some cells as they stand and as they become. */
export function BeforeAfter({ draft, header, use }: { draft: Draft; header: string; use: ColumnUse }) {
  const preview = draft.tried?.preview;
  if (!preview || typeof preview === 'string') return null;
  const samples = use.ours === positionColumn ? places(preview, use) : cells(preview, header, use);
  if (samples.length === 0) return null;
  const settled = draft.triedMap === draft.map;
  if (samples.every(({ theirs, ours }) => theirs === ours))
    return (
      <span className="quiet" data-settled={settled}>
        as it stands
      </span>
    );
  return (
    <ul className="before-after" data-settled={settled}>
      {samples.slice(0, most).map(({ theirs, ours, why }) => (
        <li key={theirs}>
          <span className="theirs">{theirs === '' ? '(blank)' : theirs}</span> <span className="unseen">becomes</span>
          <span aria-hidden="true">→</span> {ours === null ? <span className="fault">{why}</span> : <b>{ours}</b>}
        </li>
      ))}
    </ul>
  );
}

const own = (preview: MapPreview, { tables }: ColumnUse, ours: string) =>
  preview.columns.filter((column) => column.ours === ours && tables.includes(column.table));

/** Those that come to nothing first. */
function cells(preview: MapPreview, header: string, use: ColumnUse): Sample[] {
  const found = own(preview, use, use.ours).filter(({ headers }) => headers.includes(header));
  const samples = new Map(found.flatMap(({ samples }) => samples.map((sample) => [sample.theirs, sample] as const)));
  return [...samples.values()].sort((a, b) => Number(a.ours !== null) - Number(b.ours !== null));
}

/** An axle and a side are read from the same cells. */
function places(preview: MapPreview, use: ColumnUse): Sample[] {
  const [axles = [], sides = []] = ['axle', 'side'].map((name) =>
    own(preview, use, name).flatMap(({ samples }) => samples),
  );
  const found = axles.map(({ theirs, ours, why }) => {
    const side = sides.find((sample) => sample.theirs === theirs);
    const place = ours === null || !side?.ours ? null : `axle ${ours} ${side.ours}`;
    return { theirs, ours: place, why: why ?? side?.why ?? null };
  });
  return [...new Map(found.map((sample) => [sample.theirs, sample])).values()];
}
