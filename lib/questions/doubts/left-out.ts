import type { Doubt } from '../../../shared/finding.ts';
import { sentenceCase } from '../words/share-words.ts';
import { counted } from '../words/wording.ts';
import type { LeftOut } from '../scope.ts';
import { doubt } from './doubt.ts';

/**
 * What a comparison leaves out by rule, said so that none goes silently.
 * @param notDrawn groups that are in the table but not in the figure
 */
export function leftOut({ notReplacement, notApplicable, estimated, beyond }: LeftOut, notDrawn = 0): Doubt | null {
  const lives = (count: number) => counted(count, 'life', 'lives');
  const parts = [
    ...(estimated > 0 ? [`${lives(estimated)} whose miles are estimated are left out, as chosen`] : []),
    ...(notApplicable > 0 ? [`${lives(notApplicable)} where the deviation cannot exist are not compared`] : []),
    ...(notReplacement > 0
      ? [`${lives(notReplacement)} that no job in these records began are not compared, as no shop or step can be told`]
      : []),
    ...(beyond.groups > 0
      ? [`${counted(beyond.groups, 'smallest group')} with ${lives(beyond.lives)} are not in the table`]
      : []),
    ...(notDrawn > 0 ? [`${counted(notDrawn, 'group')} in the table are not drawn`] : []),
  ];
  if (parts.length === 0) return null;
  return doubt('Left out', 'holds', `${sentenceCase(parts.join('; '))}.`, 'a filter that asks for them alone');
}
