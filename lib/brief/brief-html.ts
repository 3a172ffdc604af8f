import { briefSections, type BriefField } from '../../shared/brief-sections.ts';
import type { BriefGrounds } from '../../shared/brief-grounds.ts';
import type { Brief } from '../../shared/brief.ts';
import { findingCautions, wheelEndCautions } from '../../shared/cautions.ts';
import { briefStyle } from './brief-style.ts';
import { definitionsMarkup } from './definitions.ts';
import { openDoubtsMarkup, sizesMarkup } from './effect-markup.ts';
import { findingMarkup, type DrawnFigures } from './finding-markup.ts';
import { dataMarkup, scopeMarkup } from './grounds-sections.ts';
import { inShort } from './in-short.ts';
import { html, nothing, type Markup } from './markup.ts';
import { photosMarkup } from './photos-markup.ts';
import { recordMarkup } from './record-markup.ts';

export interface BriefDocument {
  readonly brief: Brief;
  /** Of the records the brief is about; null where none are open. */
  readonly grounds: BriefGrounds | null;
  readonly figures: DrawnFigures;
}

/** Nothing runs in it and nothing is fetched by it: styles and pictures are its own. */
const policy = "default-src 'none'; style-src 'unsafe-inline'; img-src data:; base-uri 'none'; form-action 'none'";

export const briefTitle = ({ title }: Pick<Brief, 'title'>): string =>
  title.trim() === '' ? 'Procedure change: evidence from the records' : title.trim();

/** The brief: one HTML file that opens offline, runs no script and prints to numbered pages of any size. */
export function briefHtml(document: BriefDocument): string {
  const { brief } = document;
  const title = briefTitle(brief);
  const invented = isInvented(document);
  const { markup } = html`<!doctype html>
    <html lang="en">
      <head>
        <meta charset="utf-8" />
        <meta http-equiv="Content-Security-Policy" content="${policy}" />
        <meta name="viewport" content="width=device-width, initial-scale=1" />
        <meta name="referrer" content="no-referrer" />
        <title>${title}</title>
        <style>
          ${{ markup: briefStyle(title, invented) }}
        </style>
      </head>
      <body>
        <h1>${title}</h1>
        <p class="small quiet">Revision ${brief.revision}${recordsSay(document)}</p>
        ${invented ? html`<p class="invented">Invented records: no number here is about a real fleet.</p>` : nothing}
        ${inShort(brief)}
        ${briefSections.map(
          ({ number, title: head, fields }) =>
            html`<section>
              <h2>${number} ${head}</h2>
              ${number === 9 ? changeMarkup(brief, fields) : fieldsMarkup(brief, fields)}
              ${parts[number]?.(document) ?? nothing}
            </section>`,
        )}
        <section>
          <h2>Cautions</h2>
          <h4>At the wheel end</h4>
          <ul class="small">
            ${wheelEndCautions.map(({ long }) => html`<li>${long}</li>`)}
          </ul>
          <h4>What no finding says</h4>
          <ul class="small">
            ${findingCautions.map(({ long }) => html`<li>${long}</li>`)}
          </ul>
        </section>
      </body>
    </html>`;
  return `${markup}\n`;
}

const isInvented = ({ brief, grounds }: BriefDocument): boolean =>
  grounds?.invented === true || brief.entries.some(({ finding }) => finding.data.invented);

const recordsSay = ({ grounds }: BriefDocument): string =>
  grounds === null ? '' : ` · records ${grounds.name}, ${grounds.fingerprint.slice(0, 12)}`;

const unitsOf = ({ entries }: Brief) => entries[0]?.units ?? 'us';

/** What is filled in beneath the engineer's words, by the section's number. */
const parts: Readonly<Record<number, (document: BriefDocument) => Markup>> = {
  1: ({ brief }) => ratesMarkup(brief),
  2: ({ brief, grounds }) => (grounds === null ? noRecords : scopeMarkup(grounds, unitsOf(brief))),
  3: ({ grounds }) => (grounds === null ? noRecords : dataMarkup(grounds)),
  4: ({ brief }) =>
    definitionsMarkup(
      brief.entries.map(({ finding }) => finding),
      unitsOf(brief),
    ),
  6: ({ brief, grounds, figures }) =>
    brief.entries.length === 0
      ? html`<p class="unwritten">No finding was put in.</p>`
      : html`${brief.entries.map((entry, at) =>
          findingMarkup(entry, figures, { place: at + 1, fingerprint: grounds?.fingerprint ?? null }),
        )}`,
  8: ({ brief }) => photosMarkup(brief.photos),
  10: ({ brief }) => sizesMarkup(brief.entries),
  13: ({ brief }) => openDoubtsMarkup(brief.entries),
  14: ({ brief, grounds }) => recordMarkup(brief, grounds),
};

const noRecords = html`<p class="unwritten">No records were open when this was written.</p>`;

const unwritten = 'Not written yet.';

/** A field that nobody filled in says so: a brief with gaps must not look whole. */
function fieldMarkup({ words }: Brief, { name, label }: BriefField): Markup {
  const text = (words[name] ?? '').trim();
  const said = text === '' ? html`<p class="unwritten">${unwritten}</p>` : html`<p class="written">${text}</p>`;
  return html`<div class="keep">
    <h4>${label}</h4>
    ${said}
  </div>`;
}

function changeMarkup(brief: Brief, fields: readonly BriefField[]): Markup {
  const [oldStep, newStep] = fields.map((field) => fieldMarkup(brief, field));
  return html`<div class="steps">${oldStep ?? nothing} ${newStep ?? nothing}</div>
    ${fieldsMarkup(brief, fields.slice(2))}`;
}

/** What is held in one line stands in one list, a line each. */
function fieldsMarkup(brief: Brief, fields: readonly BriefField[]): Markup {
  const short = fields.filter((field) => field.short);
  const list =
    short.length === 0
      ? nothing
      : html`<dl>
          ${short.map(({ name, label }) => {
            const text = (brief.words[name] ?? '').trim();
            return html`<dt>${label}</dt>
              <dd class="${text === '' ? 'unwritten' : ''}">${text === '' ? unwritten : text}</dd>`;
          })}
        </dl>`;
  return html`${list} ${fields.filter((field) => !field.short).map((field) => fieldMarkup(brief, field))}`;
}

/** The rate and its period, where a finding of the brief tells them. */
function ratesMarkup({ entries }: Brief): Markup {
  const told = entries.find(({ finding }) => finding.question === 'mean-miles');
  if (told === undefined) return nothing;
  const { answer, data } = told.finding;
  return html`<p class="small">
    From the records, ${data.observedFrom ?? 'an unknown day'} to ${data.observedTo ?? 'an unknown day'}: ${answer}
  </p>`;
}
