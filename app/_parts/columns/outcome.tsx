import type { MapPreview } from '../../_state/columns-desk.ts';
import type { Draft } from '../../_state/columns/draft.ts';
import { counted, oursSays } from './column-words.ts';

const whole = (value: number): string => value.toLocaleString('en-US');

/** What would become of the rows: kept by table, set aside by reason, each with an example. */
export function Outcome({ draft }: { draft: Draft }) {
  const { tried, trouble } = draft;
  const settled = draft.triedMap === draft.map;
  return (
    <section className="outcome" aria-labelledby="outcome" data-settled={settled}>
      <h3 id="outcome">What would become of the rows</h3>
      {trouble !== null && <p role="alert">This could not be tried: {trouble}</p>}
      {tried === null && <p className="quiet">Being tried …</p>}
      {tried !== null &&
        (typeof tried.preview === 'string' ? <p>Not a map yet: {tried.preview}.</p> : <Counts draft={draft} />)}
    </section>
  );
}

type Reason = MapPreview['undecided'][number] & { readonly column: string };

function Counts({ draft: { tried, source } }: { draft: Draft }) {
  if (tried === null || typeof tried.preview === 'string') return null;
  const { rows, setAside, tables, columns, passedOver, undecided } = tried.preview;
  const reasons: Reason[] = [
    ...columns.flatMap(({ reasons, ours, headers }) =>
      reasons.map((reason) => ({ ...reason, column: headers.join(' + ') || oursSays(ours) })),
    ),
    ...undecided.map((reason) => ({ ...reason, column: '' })),
  ].sort((a, b) => b.rows - a.rows);
  return (
    <>
      <p role="status">
        {tried.whole ? `All ${counted(rows, 'row')}` : `The first ${counted(rows, 'row')}`} of{' '}
        {counted(source.files.length, 'file')} tried: <b>{whole(rows - setAside)} would be kept</b>
        {tables.length > 1 && ` (${tables.map(({ table, kept }) => `${whole(kept)} ${table}`).join(', ')})`},{' '}
        {whole(setAside)} set aside
        {passedOver > 0 && `, ${whole(passedOver)} of them passed over as no business of wheel ends`}.
        {!tried.whole && ' All rows are read once you confirm.'}
      </p>
      {reasons.length > 0 && (
        <div className="wide" role="region" aria-label="Rows that would be set aside, scrolls sideways" tabIndex={0}>
          <table className="reasons">
            <caption>Rows that would be set aside, by reason</caption>
            <thead>
              <tr>
                <th scope="col">rows</th>
                {['their column', 'what is wrong', 'for example', 'where'].map((head) => (
                  <th key={head} scope="col" className="text-cell">
                    {head}
                  </th>
                ))}
              </tr>
            </thead>
            <tbody>
              {reasons.map(({ column, reason, value, rows, line }) => (
                <tr key={`${column} ${reason}`}>
                  <td>{whole(rows)}</td>
                  <td className="text-cell">{column}</td>
                  <td className="text-cell">{reason}</td>
                  <td className="text-cell value-cell">{value.trim() === '' ? '(blank)' : value}</td>
                  <td className="text-cell">
                    row {whole(tried.examples[line]?.line ?? 0)}
                    {source.files.length > 1 && ` of ${tried.examples[line]?.file ?? ''}`}
                  </td>
                </tr>
              ))}
            </tbody>
          </table>
        </div>
      )}
    </>
  );
}
