import type { Doubt } from '../../../shared/finding.ts';
import { doubt } from '../doubts/doubt.ts';
import { unknownExposure } from '../doubts/unknown-exposure.ts';
import { attributeName } from '../words/group-words.ts';
import { listed, percent } from '../words/share-words.ts';
import { count, ratioText } from '../words/wording.ts';
import { otherSideVerdict } from './other-side-verdict.ts';
import type { RankedGroup } from './ranked-group.ts';
import type { Beside } from './rest-of-ranking.ts';
import { changesOverTime, mostChange } from './timing.ts';
import { percentSign } from '../../../shared/percent-sign.ts';

/** Lines of the ranking with what stands beside each, in order. */
export interface Lines {
  readonly groups: readonly RankedGroup[];
  readonly beside: ReadonlyMap<RankedGroup, Beside>;
}

export const lineName = ({ compared, label }: RankedGroup): string =>
  compared.exposure.deviation === null
    ? `${attributeName(compared.exposure.column)} ${label}`
    : attributeName(compared.exposure.column);

/** At most six by name, the rest counted. */
function names(groups: readonly RankedGroup[]): string {
  const shown = groups.slice(0, 6).map(lineName);
  return groups.length > 6 ? `${shown.join(', ')} and ${groups.length - 6} more` : listed(shown);
}

const withRatio = ({ groups }: Lines): RankedGroup[] => groups.filter(({ ratio }) => ratio.estimate.value !== null);

/** A doubt about some lines fails the finding where it is about the first, of which the answer speaks. */
function stateOf({ groups }: Lines, doubted: readonly RankedGroup[]): Doubt['state'] {
  return groups[0] !== undefined && doubted.includes(groups[0]) ? 'fails' : 'holds';
}

export function otherSideDoubt(lines: Lines): Doubt | null {
  const told = withRatio(lines).map((group) => {
    const beside = lines.beside.get(group);
    return { group, verdict: beside ? otherSideVerdict(group.ratio, beside.vehicle.ratio) : 'cannot-tell' };
  });
  if (told.length === 0) return null;
  const of = (wanted: string) => told.filter(({ verdict }) => verdict === wanted).map(({ group }) => group);
  const [apart, unsaid] = [of('disagrees'), of('cannot-tell')];
  apart.forEach((group) => group.failing.add('Other side'));
  const [first] = lines.groups;
  const state = apart.length > 0 ? stateOf(lines, apart) : first && unsaid.includes(first) ? 'cannot-tell' : 'holds';
  const said = [
    ...(apart.length > 0 ? [`Within vehicles the ratio disagrees for ${names(apart)}`] : []),
    ...(of('agrees').length > 0 ? [`it agrees for ${names(of('agrees'))}`] : []),
    ...(unsaid.length > 0 ? [`too few unlike lives share a vehicle to tell for ${names(unsaid)}`] : []),
  ].join('; ');
  return doubt(
    'Other side',
    state,
    `${said}.`.replace(/^./, (letter) => letter.toUpperCase()),
    'more axles whose two sides are unlike',
  );
}

/** Not known is neither yes nor no: a line that either reading would halve is not firm. */
export function unknownDoubt(lines: Lines): Doubt | null {
  const known = lines.groups.filter(({ compared }) => compared.exposure.deviation !== null);
  const silent = known.filter(({ compared: { exposure, counts }, ratio, estimates }) => {
    const found = unknownExposure({
      unknown: counts.lives[exposure.levels.indexOf('unknown')] as number,
      all: counts.lives.reduce((sum, some) => sum + some, 0),
      ratio: ratio.estimate.value,
      ifAllYes: estimates['hazardRatioIfUnknownYes']?.value ?? null,
      ifAllNo: estimates['hazardRatioIfUnknownNo']?.value ?? null,
    });
    return found?.state === 'fails' && ratio.estimate.value !== null;
  });
  if (known.length === 0) return null;
  silent.forEach((group) => group.failing.add('Not known'));
  const [first] = lines.groups;
  const about =
    first && first.compared.exposure.deviation !== null ? ` For ${lineName(first)}: ${boundsWords(first)}.` : '';
  const detail =
    silent.length === 0
      ? `What is not known would take no ratio shown past half way to 1, read either way.${about}`
      : `Read as all with or all without, what is not known would change the ratio of ${names(silent)}, or most of their record is silent.${about}`;
  return doubt('Not known', stateOf(lines, silent), detail, 'the missing columns on the installation records');
}

function boundsWords({ compared: { counts, exposure }, estimates }: RankedGroup): string {
  const unknown = counts.lives[exposure.levels.indexOf('unknown')] as number;
  const all = counts.lives.reduce((sum, some) => sum + some, 0);
  if (unknown === 0) return 'known of every life';
  const [yes, no] = [estimates['hazardRatioIfUnknownYes']?.value, estimates['hazardRatioIfUnknownNo']?.value];
  const about = `not known of ${percent(unknown / all)} (${count(unknown)} lives)`;
  if (yes == null || no == null) return about;
  return `${about}; ${ratioText(yes)} had all of them had it, ${ratioText(no)} had none`;
}

export function commonGroundDoubt(lines: Lines): Doubt {
  const refused = lines.groups.filter(
    ({ compared: { refused, exposure, counts }, ranked }) =>
      (counts.lives[ranked.level] as number) > 0 && refused[exposure.ranked.indexOf(ranked)] != null,
  );
  const [first] = lines.groups;
  const share = first
    ? (first.counts['livesWithCommonGround'] ?? 0) / (first.compared.counts.lives[first.ranked.level] || 1)
    : 0;
  const about = first
    ? ` Of the lives with ${lineName(first)}, ${percent(share)} have lives without it alike in all that is taken into account.`
    : '';
  const detail =
    refused.length === 0
      ? `Every comparison shown has lives with and without in the same shops and kinds.${about}`
      : `Not compared for want of common ground: ${names(refused)}.${about}`;
  return doubt(
    'Common ground',
    stateOf(lines, refused),
    detail,
    'jobs with and without it in the same shop, on like wheel ends',
  );
}

/** Proportional hazards judged by size, not by a p-value: whether one ratio says it all. */
export function timeDoubt(lines: Lines, said: string): Doubt | null {
  const told = withRatio(lines).filter((group) => lines.beside.has(group));
  if (told.length === 0) return null;
  const changing = told.filter((group) => changesOverTime((lines.beside.get(group) as Beside).split));
  changing.forEach((group) => group.failing.add('Early and later'));
  const percentApart = Math.round((mostChange - 1) * 100);
  const detail =
    changing.length === 0
      ? `No ratio up to ${said} is over ${percentApart}${percentSign} from the one after.`
      : `Early and later ratios are over ${percentApart}${percentSign} apart for ${names(changing)}: read both, the single ratio is their mean. A later ratio below 1 may be depletion of the weak, not a benefit.`;
  return doubt('Early and later', stateOf(lines, changing), detail, 'the early and the later ratio, shown for each');
}
