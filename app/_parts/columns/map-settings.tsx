'use client';

import {
  dateOrders,
  fedTables,
  positionedTables,
  type ColumnMap,
  type PositionSettings,
} from '../../../shared/column-map.ts';
import type { Draft } from '../../_state/columns/draft.ts';
import { withOnly, type EditMap } from '../../_state/columns/edit-columns.ts';
import { dateOrderSays } from './column-words.ts';
import { FeedsChoice } from './feeds-choice.tsx';
import { PlaceRules } from './place-rules.tsx';

/** What holds for the whole file: what its rows are, the order of days, the decimal mark, how places are told. */
export function MapSettings({ draft, edit }: { draft: Draft; edit: EditMap }) {
  const { map } = draft;
  const placed = fedTables(map.feeds).some((table) => positionedTables.includes(table));
  return (
    <section className="map-settings" aria-labelledby="whole-file">
      <h3 id="whole-file">For the whole file</h3>
      <FeedsChoice draft={draft} edit={edit} />
      <div className="settings">
        <DateSettings {...{ map, edit }} />
        <label>
          Decimal mark
          <select
            value={map.numbers.decimal}
            onChange={({ target }) =>
              edit((now) => ({ ...now, numbers: { decimal: target.value as ColumnMap['numbers']['decimal'] } }))
            }
          >
            <option value="point">point: 1,234.5</option>
            <option value="comma">comma: 1.234,5</option>
          </select>
        </label>
        {placed && <PlaceSettings {...{ map, edit }} />}
        <Blanks {...{ map, edit }} />
      </div>
      {placed && <PlaceRules {...{ map, edit }} />}
    </section>
  );
}

interface Props {
  readonly map: ColumnMap;
  readonly edit: EditMap;
}

function DateSettings({ map: { dates }, edit }: Props) {
  const change = (part: Partial<Record<keyof ColumnMap['dates'], string | undefined>>) =>
    edit((now) => ({ ...now, dates: withOnly(now.dates, part as ColumnMap['dates']) }));
  return (
    <>
      <label>
        Dates are written
        <select value={dates.order ?? ''} onChange={({ target }) => change({ order: target.value || undefined })}>
          <option value="">year first, or months by name</option>
          {dateOrders.map((order) => (
            <option key={order} value={order}>
              {dateOrderSays[order]}
            </option>
          ))}
        </select>
      </label>
      {dates.serials !== undefined && (
        <label>
          Days as plain numbers count from
          <select value={dates.serials} onChange={({ target }) => change({ serials: target.value })}>
            <option value="1900">1900, as most spreadsheets</option>
            <option value="1904">1904</option>
          </select>
        </label>
      )}
    </>
  );
}

function PlaceSettings({ map, edit }: Props) {
  const { driverSits, axlesAhead } = map.positions ?? {};
  const change = (part: { [Key in keyof PositionSettings]?: PositionSettings[Key] | undefined }) =>
    edit((now) => ({ ...now, positions: withOnly(now.positions ?? {}, part) }));
  return (
    <>
      <label>
        The driver sits
        <select
          value={driverSits ?? ''}
          onChange={({ target }) =>
            change({ driverSits: (target.value || undefined) as PositionSettings['driverSits'] })
          }
        >
          <option value="">not said: sides by the driver are set aside</option>
          <option value="left">on the left: traffic keeps right</option>
          <option value="right">on the right: traffic keeps left</option>
        </select>
      </label>
      <label>
        Trailer axles are counted
        <select
          value={axlesAhead ?? ''}
          onChange={({ target }) => change({ axlesAhead: target.value === '' ? undefined : Number(target.value) })}
        >
          <option value="">from the front of the trailer</option>
          {[2, 3, 4, 5].map((ahead) => (
            <option key={ahead} value={ahead}>
              through the combination, behind {ahead} axles
            </option>
          ))}
        </select>
      </label>
    </>
  );
}

function Blanks({ map: { blanks = [] }, edit }: Props) {
  return (
    <label>
      Cells that mean not known
      <input
        defaultValue={blanks.join(', ')}
        placeholder="none but blank ones"
        autoComplete="off"
        onChange={({ target }) => {
          const words = target.value
            .split(',')
            .map((word) => word.trim())
            .filter(Boolean);
          edit((now) => withOnly(now, { blanks: words.length > 0 ? words : undefined }));
        }}
      />
    </label>
  );
}
