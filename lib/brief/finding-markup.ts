import {
  estimateHead,
  figureCaption,
  figureDescription,
  groupSays,
  inOrder,
  methodsOf,
  scopeSentence,
} from '../charts/index.ts';
import type { BriefEntry } from '../../shared/brief.ts';
import type { Doubt, Finding } from '../../shared/finding.ts';
import type { UnitSystem } from '../../shared/units.ts';
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
    <p class="firmness"><b>Firmness: ${finding.firmness}.</b> ${finding.firmnessReason}</p>
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
    ${numbersMarkup(finding, units)} ${notesMarkup(entry)} ${doubtsMarkup(finding.doubts)}
    <h4>Methods, and what was taken into account</h4>
    <ul class="small">
      ${ofMethods(finding, units).map(([method, names]) => html`<li>${names.join(', ')}: ${method}</li>`)}
    </ul>
  </section>`;
}

function emphasised(text: string, emphasis: readonly string[]): Markup {
  const parts: Markup[] = [];
  let from = 0;
  for (const { start, end } of inOrder(text, emphasis)) {
    parts.push(html`${text.slice(from, start)}<b>${text.slice(start, end)}</b>`);
    from = end;
  }
  return html`${parts}${text.slice(from)}`;
}

const ofMethods = (finding: Finding, units: UnitSystem): [method: string, names: string[]][] => {
  const byMethod = new Map<string, string[]>();
  for (const { name, method } of methodsOf(finding))
    byMethod.set(method, [...(byMethod.get(method) ?? []), estimateHead(name, finding, units)]);
  return [...byMethod];
};

/** What is said of single groups that can carry it; the file of the finding has all. */
function notesMarkup({ finding }: BriefEntry): Markup {
  const told = finding.groups.filter(
    ({ firmness, notes = [] }) => (firmness === 'firm' || firmness === 'fair') && notes.length > 0,
  );
  if (told.length === 0) return nothing;
  return html`<h4>Each by itself</h4>
    <ul class="small">
      ${told.map(({ by, notes = [] }) => html`<li><b>${groupSays(by)}</b>: ${notes.join(' ')}</li>`)}
    </ul>`;
}

const says = { fails: 'Stands against the answer', 'cannot-tell': 'Cannot be told', holds: 'Checked, holds' } as const;

/** Sensitivity: what could make the answer wrong, what fails first. */
function doubtsMarkup(doubts: readonly Doubt[]): Markup {
  if (doubts.length === 0) return nothing;
  const inTurn = (['fails', 'cannot-tell', 'holds'] as const).flatMap((state) =>
    doubts.filter((doubt) => doubt.state === state),
  );
  return html`<h4>What could make it wrong</h4>
    <ul class="doubts">
      ${inTurn.map(
        ({ name, state, detail, settledBy }) =>
          html`<li>
            <b>${says[state]}: ${name}${/[.?!]$/.test(name) ? '' : '.'}</b> ${detail}
            ${state === 'holds' || settledBy === '' ? nothing : html`<span class="quiet">Settled by: ${settledBy}.</span>`}
          </li>`,
      )}
    </ul>`;
}
