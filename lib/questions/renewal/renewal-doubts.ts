import type { Doubt } from '../../../shared/finding.ts';
import { ageAxes } from '../age-axis.ts';
import type { Asking } from '../asking.ts';
import { curveRows, curveStarts } from '../curve-rows.ts';
import { doubt, failingFirst, failsIf } from '../doubts/doubt.ts';
import { fewFailures } from '../doubts/few-failures.ts';
import { lateEntries } from '../doubts/late-entries.ts';
import { leftOut } from '../doubts/left-out.ts';
import { setAsideRows } from '../doubts/set-aside-rows.ts';
import { estimatedMiles, unknownStarts } from '../doubts/shares.ts';
import { gather } from '../gather.ts';
import { ended } from '../life-rows.ts';
import { componentWords } from '../words/component-words.ts';
import { percent } from '../words/share-words.ts';
import { counted } from '../words/wording.ts';
import type { RenewalEvidence, RenewalLives } from './renewal-evidence.ts';
import type { RenewalGroup } from './renewal-group.ts';
import { mostBeyondWatched } from './renewal-plan.ts';

const fewVehicles = 10;

/** The doubts that need no further fit; of the group the answer leans on where they are of one. */
export function renewalDoubts(
  { source, view, words }: Asking,
  evidence: RenewalEvidence,
  told: readonly RenewalGroup[],
  main: RenewalGroup | null,
): Doubt[] {
  const thing = componentWords[view.component];
  const all = told.reduce((sum, { group }) => sum + group.lives, 0);
  const places = evidence.groups.flatMap((own) => [...own.places]);
  const estimated = places.reduce((sum, place) => sum + (evidence.lives.extrapolated[place] as number), 0);
  return failingFirst([
    fewFailures(
      told.map(({ group }) => ({ label: group.label, failures: group.failures })),
      thing.failure,
    ),
    ...(main ? [beyondWatched(main, words.miles), vehicles(main), onSight(evidence, main.lives, thing.many)] : []),
    main ? lateOf(evidence, main.lives, { view, words }) : null,
    unknownStarts({ some: evidence.unknownStart, all: all + evidence.unknownStart }, thing.many),
    estimatedMiles({ some: estimated, all }),
    setAsideRows(source.account),
    leftOut(evidence.leftOut),
  ]);
}

function beyondWatched({ plan: { plan, watchedTo } }: RenewalGroup, miles: (value: number) => string): Doubt | null {
  if (!plan) return null;
  const share = plan.meanBeyondObserved;
  return doubt(
    'Beyond what was watched',
    failsIf(share > mostBeyondWatched),
    `${percent(Math.max(0, share))} of the mean life taken for running to failure lies beyond the longest life seen; ten were watched to ${miles(watchedTo)}. What running to failure costs rests that far on the fitted shape alone.`,
    'lives left to run further',
  );
}

function vehicles({ group }: RenewalGroup): Doubt {
  const own = group.counts['vehicles'] ?? 0;
  return doubt(
    'Wheel ends of one vehicle',
    own < fewVehicles ? 'cannot-tell' : 'holds',
    own < fewVehicles
      ? `With ${counted(own, 'vehicle')} it cannot be told how far wheel ends of one vehicle fail together.`
      : 'The limits take the larger of the model’s error and that which allows for several wheel ends on one vehicle.',
    'more vehicles',
  );
}

/** Whoever renews what looks worn takes out what was about to fail: the records do not say why it was renewed then. */
function onSight({ lives }: RenewalEvidence, { places }: RenewalLives, many: string): Doubt {
  const renewed = places.filter((place) => lives.ended[place] === ended.renewed).length;
  return doubt(
    'Renewed on sight',
    'cannot-tell',
    `${counted(renewed, 'life', 'lives')} ended in a renewal without a failure and count as ones that would have gone on like the rest. Had those ${many} been renewed that looked worn, wear would set in sooner than told here.`,
    'the condition of renewed parts written down, or some cut open',
  );
}

function lateOf(evidence: RenewalEvidence, { places }: RenewalLives, { view, words }: Pick<Asking, 'view' | 'words'>) {
  const { lives } = evidence;
  const own = {
    ...{ rows: places.length, group: new Int32Array(places.length), unit: gather(lives.unit, places) },
    ...{ entry: gather(lives.entry, places), exit: gather(lives.exit, places), ended: gather(lives.ended, places) },
  };
  const starts = curveStarts(own, 1);
  return lateEntries(curveRows(own, starts, ['all']), starts, componentWords[view.component], words);
}

/** The fitted lives of a group with some ends told otherwise. */
export function livesIf(
  { lives }: RenewalEvidence,
  { places, fitted }: RenewalLives,
  change: (place: number) => { readonly exit?: number; readonly event?: 0 | 1 } | null,
): RenewalLives['fitted'] {
  const [exit, event] = [fitted.exit.slice(), fitted.event.slice()];
  const step = ageAxes.miles.step;
  places.forEach((place, at) => {
    const changed = change(place);
    if (changed?.event !== undefined) event[at] = changed.event;
    if (changed?.exit !== undefined)
      exit[at] = Math.min(exit[at] as number, Math.max(changed.exit, (lives.entry[place] as number) + step));
  });
  return { ...fitted, exit, event };
}
