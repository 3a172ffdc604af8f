import { columnSays } from '../../../lib/charts/index.ts';
import { deviationColumn } from '../../../shared/deviations.ts';
import type { Procedure } from '../../../shared/procedure.ts';
import type { JudgedLives, JudgementsChanged } from '../../_state/lives-desk.ts';
import { percentSign } from '../../../shared/percent-sign.ts';

const whole = (value: number): string => value.toLocaleString('en-US');
const counted = (value: number, one: string, many = `${one}s`): string => `${whole(value)} ${value === 1 ? one : many}`;

interface Said {
  readonly text: string;
  readonly emphasis: readonly string[];
}

/** By what lives are judged, what that finds, and how much it cannot tell. */
export function procedureAnswer(applied: readonly Procedure[], { lives, counts }: JudgedLives): Said {
  const [first] = applied;
  const by =
    applied.length === 1 && first
      ? `one version, ${first.name} ${first.version}`
      : `${applied.length} versions, each for the parts fitted while it was valid`;
  if (lives === 0) {
    const text = `Lives are judged by ${by}. No life in these records was begun by a job, so there is nothing to judge.`;
    return { text, emphasis: [by] };
  }
  const sum = (word: 'yes' | 'no' | 'unknown') =>
    Object.values(counts).reduce((total, count) => total + count[word], 0);
  const [yes, no, unknown] = [sum('yes'), sum('no'), sum('unknown')];
  const share = yes + no + unknown === 0 ? 0 : Math.round((unknown / (yes + no + unknown)) * 100);
  const found = counted(yes, 'deviation');
  const text = `Lives are judged by ${by}. It finds ${found} in ${counted(lives, 'job')}; of what could deviate, ${share}${percentSign} is not told by the records.`;
  return { text, emphasis: [by, found] };
}

/** What changed, in a sentence: lives judged otherwise, and in what. */
export function changeSays({ before, after, changed, lives }: JudgementsChanged): string {
  const codes = Object.entries(changed).filter(([, count]) => count > 0);
  const begun =
    before.lives === after.lives
      ? ''
      : ` Seal lives begun by a job: ${whole(after.lives)}, before it ${whole(before.lives)}, since what is renewed with the hub begins them.`;
  if (lives === 0) return `No life is judged otherwise than before.${begun}`;
  const say = codes.map(([code]) => {
    const [was, is] = [before.counts[code]?.yes ?? 0, after.counts[code]?.yes ?? 0];
    return `${columnSays(deviationColumn(code))} ${whole(was)} → ${whole(is)}`;
  });
  return `${counted(lives, 'life is', 'lives are')} judged otherwise than before. Lives that deviate: ${say.join('; ')}.${begun}`;
}
