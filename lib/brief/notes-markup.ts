import { groupSays, lineWords } from '../charts/index.ts';
import { shownLimits, type Doubt, type Finding, type Group } from '../../shared/finding.ts';
import { html, nothing, type Markup } from './markup.ts';

/** Of a long ranking only what is beyond chance, and can carry it, is told of by itself. */
function stands({ firmness, estimates }: Group): boolean {
  const ratio = estimates['hazardRatio'];
  if ((firmness !== 'firm' && firmness !== 'fair') || ratio === undefined) return false;
  const { lower, upper } = shownLimits(ratio);
  return (lower !== null && lower > 1) || (upper !== null && upper < 1);
}

/** What is said of single groups; the file of the finding has all. */
export function notesMarkup({ groups, question }: Finding, place: number): Markup {
  const noted = groups.filter(({ notes = [] }) => notes.length > 0);
  if (noted.length === 0) return nothing;
  const told = question === 'causes' ? noted.filter(stands) : noted;
  const more = noted.length - told.length;
  return html`${
    told.length === 0
      ? nothing
      : html`<h4>Each by itself</h4>
          <ul class="small">
            ${told.map((group) => html`<li><b>${groupSays(group.by)}</b>: ${ownNotes(group)}</li>`)}
          </ul>`
  }
  ${
    more === 0
      ? nothing
      : html`<p class="small quiet">
          Of ${more} more, too few to tell of or not beyond chance, findings/${place}-${question}.json beside this brief
          tells.
        </p>`
  }
  ${criticalMarkup(noted)}`;
}

const ownNotes = (group: Group): string => {
  const { mechanism, others } = lineWords(group);
  return [...(mechanism === null ? [] : [mechanism]), ...others].join(' ');
};

/** Lock, torque and missing parts: however few the cases, and whatever their numbers; told one by one where they are few. */
function criticalMarkup(groups: readonly Group[]): Markup {
  const told = groups.flatMap((group) => {
    const { critical } = lineWords(group);
    return critical === null ? [] : [{ group, critical }];
  });
  if (told.length === 0) return nothing;
  return html`<h4>Safety-critical, case by case</h4>
    <p class="small">
      Changed on mechanism, not on statistics, however few the cases. Where there are more than can be told here, the
      lives beside this brief hold them.
    </p>
    <ul class="small">
      ${told.map(
        ({ group, critical: { said, cases } }) =>
          html`<li>
            <b>${groupSays(group.by)}</b>:
            ${group.firmness === 'thin' || group.firmness === 'too few' ? [said, cases.join('; ')].filter(Boolean).join(': ') : said.replace(/;.*$/, '')}
          </li>`,
      )}
    </ul>`;
}

const says = { fails: 'Stands against the answer', 'cannot-tell': 'Cannot be told', holds: 'Checked, holds' } as const;

/** Sensitivity: what could make the answer wrong, what fails first. */
export function doubtsMarkup(doubts: readonly Doubt[]): Markup {
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
