import { figureCaption, figureDescription, inOrder, scopeSentence } from '../charts/index.ts';
import type { BriefEntry } from '../../shared/brief.ts';
import { methodsMarkup } from './methods-markup.ts';
import { doubtsMarkup, notesMarkup } from './notes-markup.ts';
import { numbersMarkup } from './numbers-markup.ts';
import { html, nothing, type Markup } from './markup.ts';

/** A figure as drawn, by the id of its finding; markup of our own drawing, the texts in it escaped by it. */
export type DrawnFigures = Readonly<Record<string, string>>;

export interface FindingPlace {
  readonly place: number;
  /** The fingerprint of the records that the brief is about. */
  readonly fingerprint: string | null;
}

/** One finding: what was looked at, the answer, the figure, the numbers, the doubts, the methods. */
export function findingMarkup(entry: BriefEntry, figures: DrawnFigures, { place, fingerprint }: FindingPlace): Markup {
  const { finding, units, note } = entry;
  const svg = figures[entry.id];
  const others = fingerprint !== null && finding.data.fingerprint !== fingerprint;
  return html`<section>
    <h3>6.${place} ${finding.title}</h3>
    <p class="small quiet">${scopeSentence(finding.settings, units)}</p>
    ${
      others
        ? html`<p class="other-records">
            Made from other records than section 3 describes: ${finding.data.fingerprint.slice(0, 12)}.
          </p>`
        : nothing
    }
    <p class="answer">${emphasised(finding.answer, finding.emphasis)}</p>
    <p class="firmness">${finding.asks ?? html`<b>Firmness: ${finding.firmness}.</b> ${finding.firmnessReason}`}</p>
    ${finding.further === undefined ? nothing : html`<p class="small">${finding.further}</p>`}
    ${note.trim() === '' ? nothing : html`<p class="written">${note}</p>`}
    ${
      svg === undefined
        ? nothing
        : html`<figure>
            <div role="img" aria-label="${figureDescription(finding)}">${{ markup: svg }}</div>
            <figcaption>${figureCaption(finding, units)}</figcaption>
          </figure>`
    }
    ${numbersMarkup(finding, units)} ${notesMarkup(finding, place)} ${doubtsMarkup(finding.doubts)}
    ${methodsMarkup(finding, units)}
  </section>`;
}

/** A sentence with the stretches that carry its weight in bold. */
export function emphasised(text: string, emphasis: readonly string[]): Markup {
  const parts: Markup[] = [];
  let from = 0;
  for (const { start, end } of inOrder(text, emphasis)) {
    parts.push(html`${text.slice(from, start)}<b>${text.slice(start, end)}</b>`);
    from = end;
  }
  return html`${parts}${text.slice(from)}`;
}
