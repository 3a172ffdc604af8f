import type { BriefGrounds } from '../../shared/brief-grounds.ts';
import { columnSays } from '../../shared/column-says.ts';
import { mileageRules, type MileageRule } from '../../shared/choices.ts';
import { percentSign } from '../../shared/percent-sign.ts';
import { stateWords, valueSays } from '../charts/index.ts';
import type { LifeState } from '../../shared/vocabulary.ts';
import { displayUnit, type UnitSystem } from '../../shared/units.ts';
import { html, nothing, tableMarkup, type Markup } from './markup.ts';

const count = (value: number): string => value.toLocaleString('en-US');
const share = (part: number, whole: number): string =>
  whole === 0 ? '—' : `${((100 * part) / whole).toLocaleString('en-US', { maximumFractionDigits: 1 })}${percentSign}`;
const ofAll = (part: number, whole: number): string => `${count(part)} of ${count(whole)} (${share(part, whole)})`;

function millionsSay(miles: number, units: UnitSystem): string {
  const { symbol, factor } = displayUnit('miles', units);
  return `${((miles * factor) / 1e6).toLocaleString('en-US', { maximumFractionDigits: 1 })} million ${symbol}`;
}

const scopeHeads: Readonly<Record<string, string>> = {
  role: 'Axle roles',
  hub_build: 'Hub builds',
  lubricant: 'Lubricants',
  shop: 'Installing shops',
  duty: 'Duties',
};

/** Section 2: what the records hold, commonest first. */
export function scopeMarkup(grounds: BriefGrounds, units: UnitSystem): Markup {
  const { vehicles, lives, failures, miles, observedFrom, observedTo, firstInstalled, lastInstalled } = grounds;
  const watched =
    observedFrom === null && observedTo === null
      ? 'not said: a lives table was opened'
      : `${observedFrom ?? 'an unknown day'} to ${observedTo ?? 'an unknown day'}`;
  return html`<dl>
    <dt>Records</dt>
    <dd>${grounds.name}</dd>
    <dt>Watched</dt>
    <dd>${watched}</dd>
    <dt>Installed</dt>
    <dd>${firstInstalled ?? 'an unknown day'} to ${lastInstalled ?? 'an unknown day'}</dd>
    <dt>Seal lives</dt>
    <dd>
      ${count(lives)} on ${count(vehicles)} vehicles over ${millionsSay(miles, units)} of wheel-end distance;
      ${count(failures)} ended in a seal failure
    </dd>
    ${Object.entries(grounds.scope).map(
      ([column, values]) =>
        html`<dt>${scopeHeads[column] ?? column}</dt>
          <dd>${values.map(({ value, lives: of }) => `${valueSays(column, value)} ${count(of)}`).join(', ')}</dd>`,
    )}
  </dl>`;
}

/** Section 3: rows in, kept, why dropped; completeness; what was cut off, found late or assumed. */
export function dataMarkup(grounds: BriefGrounds): Markup {
  return html`${rowsMarkup(grounds)} ${livesMarkup(grounds)} ${completenessMarkup(grounds)}
  ${
    grounds.weaknesses.length === 0
      ? nothing
      : html`<h4>What weaknesses of the records do</h4>
          <ul class="small">
            ${byEffect(grounds).map(([effect, weaknesses]) => html`<li>${weaknesses.join('; ')}: ${effect}.</li>`)}
          </ul>`
  }`;
}

/** Weaknesses that do the same, in one line. */
function byEffect({ weaknesses }: BriefGrounds): [effect: string, weaknesses: string[]][] {
  const told = new Map<string, string[]>();
  for (const { weakness, effect } of weaknesses) told.set(effect, [...(told.get(effect) ?? []), weakness]);
  return [...told];
}

const rowsMarkup = ({ tables }: BriefGrounds): Markup =>
  tables === null
    ? html`<p>A table of lives was opened: the records behind it, and what was set aside of them, are not at hand.</p>`
    : tableMarkup(
        'Rows: read = kept + set aside',
        ['table', 'read', 'kept', 'set aside', 'why'],
        tables.map(({ table, read, kept, setAside, reasons }) => [
          ...[table, read, kept, setAside],
          reasons.map(({ reason, rows }) => `${count(rows)} × ${reason}`).join('; '),
        ]),
      );

function livesMarkup({ lives, failures, states, mileage, repairs, ...grounds }: BriefGrounds): Markup {
  const cut = states.filter(({ value }) => value !== 'failed');
  const assumed = mileage.filter(({ value }) => value !== 'measured' && value !== 'unknown');
  const rules = (repairs ?? []).filter(({ rows }) => rows > 0);
  return html`<dl>
    <dt>Cut off before a failure</dt>
    <dd>
      ${ofAll(lives - failures, lives)}:
      ${cut.map(({ value, lives: of }) => `${stateWords[value as LifeState]} ${count(of)}`).join(', ')}
    </dd>
    <dt>Entered late</dt>
    <dd>
      ${ofAll(grounds.lateEntries, lives)} lives were running when watching began; the start of
      ${count(grounds.unknownStarts)} is not known
    </dd>
    <dt>Found late</dt>
    <dd>
      ${ofAll(grounds.failuresUnchecked, failures)} failed lives had no clean check between their start and the failure:
      when the failure began is not known of them
    </dd>
    <dt>Assumed mileages</dt>
    <dd>
      ${
        assumed.length === 0
          ? 'no life stands on estimated miles'
          : assumed.map(({ value, lives: of }) => `${ofAll(of, lives)} lives ${value}`).join(', ')
      }${
        rules.length === 0
          ? ''
          : `; rows: ${rules.map(({ rule, rows }) => `${count(rows)} × ${mileageRules[rule as MileageRule]}`).join('; ')}`
      }
    </dd>
  </dl>`;
}

function completenessMarkup({ fields }: BriefGrounds): Markup {
  const gaps = (fields ?? [])
    .filter(({ rows, filled }) => rows > 0 && filled < rows)
    .sort((a, b) => a.filled / a.rows - b.filled / b.rows);
  if (gaps.length === 0) return nothing;
  return html`<h4>Completeness</h4>
    <p class="small">Filled, of the rows where the field can exist; every other field is always filled.</p>
    ${[...new Set(gaps.map(({ table }) => table))].map(
      (own) =>
        html`<h5>${own}</h5>
          <ul class="gaps">
            ${gaps
              .filter(({ table }) => table === own)
              .map(
                ({ column, filled, rows }) =>
                  html`<li><span>${columnSays(column)}</span> <span>${share(filled, rows)}</span></li>`,
              )}
          </ul>`,
    )}`;
}
