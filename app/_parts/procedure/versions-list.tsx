'use client';

import { viewToSearch } from '../../../lib/view/index.ts';
import type { Procedure } from '../../../shared/procedure.ts';
import { defaultView } from '../../../shared/view.ts';
import type { JudgedLives } from '../../_state/lives-desk.ts';
import { useView } from '../../_state/use-view.ts';
import { PageLink } from '../frame/page-link.tsx';

interface Props {
  readonly procedures: readonly Procedure[];
  /** The versions the lives are judged by, to tell what each judged. */
  readonly applied: readonly Procedure[];
  readonly at: number;
  readonly judged: JudgedLives | null;
  readonly onShow: (at: number) => void;
  readonly onCopy: (at: number) => void;
  readonly onRemove: (at: number) => void;
}

const dayBefore = (day: string): string =>
  new Date(Date.parse(`${day}T00:00:00Z`) - 86_400_000).toISOString().slice(0, 10);

const usable = (day: string): boolean => /^\d{4}-\d{2}-\d{2}$/.test(day);

/** The day on which the next version takes over, less one; null for the last. */
function lastDay(procedures: readonly Procedure[], { validFrom }: Procedure): string | null {
  const later = procedures.map((other) => other.validFrom).filter((day) => usable(day) && day > validFrom);
  return later.length === 0 ? null : dayBefore([...later].sort()[0] ?? '');
}

/** The versions of the procedure in the order they begin, with how many lives each judges. */
export function VersionsList({ procedures, applied, at, judged, onShow, onCopy, onRemove }: Props) {
  const before = judged?.byVersion.find(({ version }) => version === null)?.lives ?? 0;
  return (
    <div className="wide" role="region" aria-label="Versions, scrolls sideways" tabIndex={0}>
      <table className="versions">
        <caption>A life is judged by the version valid on the day its part was fitted</caption>
        <thead>
          <tr>
            <th scope="col" className="text-cell">
              version
            </th>
            <th scope="col" className="text-cell">
              holds for parts fitted
            </th>
            <th scope="col">lives judged</th>
            <th scope="col" className="text-cell">
              <span className="unseen">what to do with it</span>
            </th>
          </tr>
        </thead>
        <tbody>
          {procedures.map((procedure, place) => (
            <tr key={place} className={place === at ? 'shown' : undefined}>
              <th scope="row" className="text-cell">
                <button type="button" className="word" aria-pressed={place === at} onClick={() => onShow(place)}>
                  {procedure.name} {procedure.version}
                </button>
              </th>
              <td className="text-cell">
                from {procedure.validFrom} {lastDay(procedures, procedure) && `to ${lastDay(procedures, procedure)}`}
              </td>
              <td>
                <Judged {...{ procedure, applied, judged }} />
              </td>
              <td className="text-cell version-acts">
                <button type="button" className="word" onClick={() => onCopy(place)}>
                  Copy as a new version
                  <span className="unseen">
                    {' '}
                    of {procedure.name} {procedure.version}
                  </span>
                </button>
                {procedures.length > 1 && (
                  <button type="button" className="word" onClick={() => onRemove(place)}>
                    Take out
                    <span className="unseen">
                      {' '}
                      {procedure.name} {procedure.version}
                    </span>
                  </button>
                )}
              </td>
            </tr>
          ))}
        </tbody>
      </table>
      {before > 0 && (
        <p className="version-gap">
          {before.toLocaleString('en-US')} {before === 1 ? 'life was' : 'lives were'} begun before the first version was
          valid: nothing measured of them is judged.
        </p>
      )}
    </div>
  );
}

function Judged({ procedure, applied, judged }: Pick<Props, 'applied' | 'judged'> & { procedure: Procedure }) {
  const { units } = useView();
  const version = applied.findIndex((other) => JSON.stringify(other) === JSON.stringify(procedure));
  if (judged === null) return '…';
  if (version < 0) return 'not yet';
  const lives = judged.byVersion.find((one) => one.version === version)?.lives ?? 0;
  if (lives === 0) return '0';
  const view = {
    ...defaultView,
    where: { install_kind: ['replacement'] },
    installedFrom: procedure.validFrom,
    installedTo: lastDay(applied, procedure),
  };
  return (
    <PageLink className="count-link" path="/lives/" search={viewToSearch(view, units)}>
      {lives.toLocaleString('en-US')}
    </PageLink>
  );
}
