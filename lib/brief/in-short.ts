import type { Brief } from '../../shared/brief.ts';
import { approvalsSay } from './approvals-markup.ts';
import { emphasised } from './finding-markup.ts';
import { html, type Markup } from './markup.ts';

const orNot = (text: string | undefined): Markup =>
  (text ?? '').trim() === ''
    ? html`<span class="unwritten">Not written yet.</span>`
    : html`<span class="written">${(text ?? '').trim()}</span>`;

/** What whoever has to decide reads first: the problem, what is proposed, what was found and how firmly, and where it stands. */
export const inShort = ({ words, entries, approvals }: Brief): Markup =>
  html`<section class="short">
    <h2>In short</h2>
    <dl>
      <dt>Problem</dt>
      <dd>${orNot(words['problem'])}</dd>
      <dt>Proposed</dt>
      <dd>${orNot(words['newStep'])}</dd>
      <dt>Found</dt>
      <dd>
        ${
          entries.length === 0
            ? html`<span class="unwritten">No finding was put in.</span>`
            : html`<ul>
                ${entries.map(
                  ({ finding }, at) =>
                    html`<li>
                      ${emphasised(finding.answer, finding.emphasis)}
                      <b>Firmness: ${finding.firmness}.</b> (6.${at + 1})
                    </li>`,
                )}
              </ul>`
        }
      </dd>
      <dt>Decision</dt>
      <dd>${approvalsSay(approvals)}</dd>
    </dl>
  </section>`;
