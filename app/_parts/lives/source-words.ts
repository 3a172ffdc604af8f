import { mileageRules, type MileageRule } from '../../../shared/choices.ts';
import type { SourcePart, SourceRow } from '../../../lib/lives/index.ts';

const partWords: Readonly<Record<SourcePart, string>> = {
  vehicle: 'the vehicle',
  fitted: 'fitted the part',
  renewed: 'renewed it',
  failed: 'failed it',
  report: 'further report of the same episode',
  other: 'another part failed; not an end',
  'other-repaired': 'another part failed; repaired by the renewal',
  fastener: 'wheel lost through its fasteners; listed, not counted',
  touched: 'worked here, renewed nothing of it',
  seen: 'looked here, says nothing of a leak',
  dry: 'checked: dry',
  damp: 'checked: damp',
  leaking: 'checked: leaking',
  'mate-failed': 'failed across the axle',
  'mate-ordered': 'renewed across the axle',
  miles: 'known miles nearest to a day without',
};

/** What a row did for the life. */
export const partSays = ({ part }: SourceRow): string => partWords[part];

/** How its miles are known, where they do not stand as the row itself has them. */
export function qualitySays({ quality, rule }: SourceRow): string {
  if (rule !== null && rule in mileageRules) return mileageRules[rule as MileageRule];
  return quality === 'measured' ? '' : quality;
}
