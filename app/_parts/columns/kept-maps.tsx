'use client';

import { fedTables } from '../../../shared/column-map.ts';
import { mapsBroughtIn } from '../../_state/columns/brought-in.ts';
import { columnMaps } from '../../_state/keeping/column-map-store.ts';
import { recordSets } from '../../_state/record-sets.ts';
import { useColumnMaps } from '../../_state/use-column-maps.ts';
import { useRecordSet } from '../../_state/use-record-set.ts';
import { saveFile } from '../finding/save-file.ts';
import { JsonFileButton } from '../frame/json-file-button.tsx';
import { mapsFile, mapsFileName } from './maps-file.ts';

/** The column maps that this browser keeps: as a file, looked at again, forgotten; and maps brought in. */
export function KeptMaps({ waiting }: { waiting: boolean }) {
  const { kept, trouble } = useColumnMaps();
  const { open } = useRecordSet();
  const used = new Set(open?.report.files.flatMap(({ columnMap }) => columnMap ?? []));
  const maps = (kept ?? []).map(({ map }) => map);
  return (
    <section className="kept-maps" aria-labelledby="kept-maps" data-kept={kept?.length ?? ''}>
      <h2 id="kept-maps">Column maps kept in this browser</h2>
      {trouble !== null && <p role="alert">{trouble}</p>}
      {maps.length === 0 ? (
        <p>
          None yet. A map that is confirmed is kept here, unless you say otherwise, and reads the next file by itself.
        </p>
      ) : (
        <div className="wide" role="region" aria-label="Column maps, scrolls sideways" tabIndex={0}>
          <table>
            <thead>
              <tr>
                {['source', 'feeds', 'saved', ''].map((head) => (
                  <th key={head} scope="col" className="text-cell">
                    {head === '' ? <span className="unseen">acts</span> : head}
                  </th>
                ))}
              </tr>
            </thead>
            <tbody>
              {(kept ?? []).map(({ map, savedOn }) => (
                <tr key={map.source} data-map={map.source}>
                  <th scope="row" className="text-cell">
                    {map.source}
                  </th>
                  <td className="text-cell">{fedTables(map.feeds).join(', ')}</td>
                  <td className="text-cell">{savedOn.slice(0, 10)}</td>
                  <td className="text-cell map-acts">
                    <button
                      type="button"
                      className="word"
                      onClick={() => saveFile(mapsFile([map]), mapsFileName([map]), 'application/json')}
                    >
                      JSON<span className="unseen"> of {map.source}</span>
                    </button>
                    {!waiting && used.has(map.source) && (
                      <button type="button" className="word" onClick={() => void recordSets.askAgain(map.source)}>
                        Change<span className="unseen"> {map.source}</span>
                      </button>
                    )}
                    <button type="button" className="word" onClick={() => void columnMaps.forget(map.source)}>
                      Forget<span className="unseen"> {map.source}</span>
                    </button>
                  </td>
                </tr>
              ))}
            </tbody>
          </table>
        </div>
      )}
      <div className="acts">
        {maps.length > 1 && (
          <button
            type="button"
            className="word"
            onClick={() => saveFile(mapsFile(maps), mapsFileName(maps), 'application/json')}
          >
            All maps (JSON)
          </button>
        )}
        <JsonFileButton
          {...{ act: 'Bring in a map…', label: 'Column map file', kind: 'column-map' }}
          onFile={(file) => void mapsBroughtIn.take([file])}
        />
      </div>
    </section>
  );
}
