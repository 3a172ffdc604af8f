import type { Doubt } from '../../../shared/finding.ts';
import { counted } from '../words/wording.ts';
import type { LeftOut } from '../scope.ts';
import { doubt } from './doubt.ts';

/** Lives that a comparison leaves out by rule, said so that none goes silently. */
export function leftOut({ notReplacement, notApplicable, beyond }: LeftOut): Doubt | null {
  const parts = [
    ...(notApplicable > 0 ? [`${counted(notApplicable, 'life', 'lives')} where the deviation cannot exist`] : []),
    ...(notReplacement > 0
      ? [
          `${counted(notReplacement, 'life', 'lives')} that no job in these records began, so that no shop or step can be told`,
        ]
      : []),
    ...(beyond.groups > 0
      ? [
          `the ${counted(beyond.groups, 'smallest group', 'smallest groups')} with ${counted(beyond.lives, 'life', 'lives')}`,
        ]
      : []),
  ];
  if (parts.length === 0) return null;
  return doubt('Left out', 'holds', `Not in this comparison: ${parts.join('; ')}.`, 'nothing: they cannot be compared');
}
