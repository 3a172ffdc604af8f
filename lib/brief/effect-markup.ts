import { estimateHead, estimateSays, groupSays } from '../charts/index.ts';
import type { BriefEntry } from '../../shared/brief.ts';
import { html, nothing, tableMarkup, type Markup } from './markup.ts';

const sizes = ['hazardRatio', 'excessShareAtHorizon', 'excessFailuresPerThousand'];
const mostGroups = 6;

/** Section 10: how large what goes with the deviations is, each with its interval; no forecast of a change. */
export function sizesMarkup(entries: readonly BriefEntry[]): Markup {
  const told = entries.flatMap(({ finding, units }) =>
    finding.question === 'causes'
      ? finding.groups
          .filter(({ firmness, estimates }) => firmness !== 'too few' && estimates['hazardRatio']?.value != null)
          .slice(0, mostGroups)
          .map((group) => ({ finding, units, group }))
      : [],
  );
  const [first] = told;
  if (first === undefined) return nothing;
  return html`<p class="small">
      From the records, what goes with each deviation, with its interval. A change of the procedure takes away at most
      the part that the deviation itself makes up, and only where it is followed; the lower limit is the figure to plan
      by.
    </p>
    ${tableMarkup(
      'What goes with each deviation, with its limits',
      ['with', ...sizes.map((name) => estimateHead(name, first.finding, first.units)), 'firmness'],
      told.map(({ units, group }) => [
        groupSays(group.by),
        ...sizes.map((name) => {
          const estimate = group.estimates[name];
          return estimate === undefined ? '—' : estimateSays(estimate, units);
        }),
        group.firmness,
      ]),
    )}`;
}

/** Section 13: doubts that stand, once each, with what would settle them. */
export function openDoubtsMarkup(entries: readonly BriefEntry[]): Markup {
  const open = entries.flatMap(({ finding }) =>
    finding.doubts
      .filter(({ state }) => state !== 'holds')
      .map(({ name, settledBy }) => ({ name, settledBy, title: finding.title })),
  );
  if (open.length === 0) return nothing;
  const names = [...new Set(open.map(({ name, settledBy }) => `${name}\n${settledBy}`))];
  return html`<p class="small">Doubts that stand or could not be told, and what would settle them:</p>
    <ul class="small">
      ${names.map((key) => {
        const [name = '', settledBy = ''] = key.split('\n');
        const titles = open.filter((doubt) => `${doubt.name}\n${doubt.settledBy}` === key).map(({ title }) => title);
        return html`<li>
          <b>${name}</b> (${[...new Set(titles)].join(' ')})${settledBy === '' ? '' : ` Settled by: ${settledBy}.`}
        </li>`;
      })}
    </ul>`;
}
