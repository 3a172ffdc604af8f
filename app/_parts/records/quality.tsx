'use client';

import { recordQualityReport } from '../../../lib/brief/record-quality-report.ts';
import type { RecordQuality } from '../../../shared/record-quality.ts';
import type { OpenRecordSet } from '../../_state/record-sets.ts';
import type { QualityInUse } from '../../_state/use-record-quality.ts';
import { saveFile } from '../finding/save-file.ts';
import { QuestionLinks } from './question-links.tsx';
import { QualityTable } from './quality-table.tsx';
import { TimeCoverage } from './time-coverage.tsx';
import { percentSign } from '../../../shared/percent-sign.ts';

const whole = (value: number) => value.toLocaleString('en-US');
const percent = (part: number, all: number) => (all === 0 ? '—' : `${Math.round((100 * part) / all)}${percentSign}`);

/** What the records cannot say: their weaknesses, what each does to the answers, and which blank costs most. */
export function Quality({ open, judged }: { open: OpenRecordSet; judged: QualityInUse }) {
  const { quality, trouble } = judged;
  if (trouble !== null)
    return (
      <p className="notice" role="alert">
        The records could not be judged: {trouble}
      </p>
    );
  if (quality === null) return <div className="waiting-quality" aria-busy="true" data-quality="waiting" />;
  const save = () =>
    saveFile(
      recordQualityReport(quality, open.report),
      `data-quality${open.report.invented ? '-invented' : ''}.html`,
      'text/html',
    );
  return (
    <div data-quality="ready">
      <Effects quality={quality} />
      <Narrowing quality={quality} />
      <Fields quality={quality} />
      <Links quality={quality} />
      <TimeCoverage quality={quality} />
      <Intensity quality={quality} />
      <div className="acts">
        <button type="button" className="word" onClick={save}>
          Data-quality report (HTML)
        </button>
      </div>
    </div>
  );
}

const Effects = ({ quality: { effects } }: { quality: RecordQuality }) => (
  <section>
    <h2 id="weak">What weakens the answers</h2>
    {effects.length === 0 ? (
      <p>No weakness was found that is looked for here.</p>
    ) : (
      <ul className="effects">
        {effects.map(({ weakness, effect, questions }) => (
          <li key={weakness}>
            <b>{weakness}.</b> {effect.charAt(0).toUpperCase() + effect.slice(1)}.{' '}
            <QuestionLinks questions={questions} />
          </li>
        ))}
      </ul>
    )}
  </section>
);

/** So many are shown; the report has all. */
const shown = 8;

const Narrowing = ({ quality: { narrowing } }: { quality: RecordQuality }) => (
  <section>
    <h2 id="blank">Which blank costs most</h2>
    {narrowing.length === 0 ? (
      <p>No blank field was found whose filling would narrow an answer.</p>
    ) : (
      <QualityTable
        caption="Estimated: were the field always filled, and did the blanks split as the filled cells do. Limits are upper over lower of a 95 % interval; narrower is on the log scale."
        heads={['field', 'answer', 'failures known', 'not known', 'limits now', 'limits then', 'narrower by']}
        words={2}
        rows={narrowing
          .slice(0, shown)
          .map(({ field, answer, known, unknown, now, then, narrower }) => [
            ...[field, answer, whole(known), whole(unknown)],
            ...[`${now.toPrecision(3)}×`, `${then.toPrecision(3)}×`, percent(narrower, 1)],
          ])}
      />
    )}
  </section>
);

const Fields = ({ quality: { shops, fields } }: { quality: RecordQuality }) => (
  <section>
    <h2 id="full">How full the fields are</h2>
    {[...new Set(fields.map(({ table }) => table))].map((table) => (
      <details key={table} open={table === 'services'}>
        <summary>{table}</summary>
        <QualityTable
          caption={`${table}: share filled, of the rows where the field can exist; by shop (home shop where a row names none)`}
          heads={['field', 'all', ...shops]}
          words={1}
          rows={fields
            .filter((field) => field.table === table)
            .map(({ column, rows, filled, shops: byShop }) => [
              column,
              percent(filled, rows),
              ...byShop.map((shop) => percent(shop.filled, shop.rows)),
            ])}
        />
      </details>
    ))}
  </section>
);

const Links = ({ quality: { links } }: { quality: RecordQuality }) => (
  <section>
    <h2>Rows that meet nothing</h2>
    <QualityTable
      caption="Links that records should have"
      heads={['link', 'such as', 'lacking', 'of']}
      words={2}
      rows={links.map(({ name, rows, of, examples }) => [name, examples.join(', '), whole(rows), whole(of)])}
    />
  </section>
);

const Intensity = ({ quality: { intensity } }: { quality: RecordQuality }) => (
  <section>
    <h2>How hard anybody looked</h2>
    <QualityTable
      caption="Checked inspections within seal lives, by the shop that installed and the lubricant filled"
      heads={['by', 'value', 'checks', 'wheel-end miles', 'checks per 100,000 miles']}
      words={2}
      rows={intensity.map(({ by, value, checks, miles }) => [
        ...[by, value, whole(checks), whole(Math.round(miles))],
        miles > 0 ? ((100_000 * checks) / miles).toFixed(1) : '—',
      ])}
    />
  </section>
);
