import { stateWords } from '../../../lib/charts/index.ts';
import { displayUnit, type UnitSystem } from '../../../shared/units.ts';
import type { Found, LivesPick } from '../../../shared/lives-pick.ts';
import { lifeStates, type Component, type LifeState } from '../../../shared/vocabulary.ts';
import type { LivesCounted } from '../../_state/lives-desk.ts';

const whole = (value: number): string => value.toLocaleString('en-US');
export const counted = (value: number, one: string, many = `${one}s`): string =>
  `${whole(value)} ${value === 1 ? one : many}`;

const lifeNames: Readonly<Record<Component, readonly [string, string]>> = {
  seal: ['seal life', 'seal lives'],
  gasket: ['gasket life', 'gasket lives'],
  bearing: ['bearing life', 'bearing lives'],
};

export const livesNamed = (count: number, component: Component): string => counted(count, ...lifeNames[component]);

/** How lives ended, after a count of them. */
const stateTail: Readonly<Record<LifeState, string>> = {
  failed: 'failed',
  planned: 'renewed',
  'other-failure': 'ended by another part',
  'removed-unknown': 'renewed for reasons not told',
  'unit-left': 'gone with their vehicle',
  running: 'still running',
};

export interface StateCount {
  readonly state: LifeState;
  readonly says: string;
}

/** `1,431 failed`, `2,949 still running`: the ways lives ended that any of these did. */
export const stateCounts = ({ states }: LivesCounted): StateCount[] =>
  lifeStates.flatMap((state, place) =>
    (states[place] ?? 0) === 0 ? [] : [{ state, says: `${whole(states[place] ?? 0)} ${stateTail[state]}` }],
  );

/** `on 560 vehicles, over 684 million wheel-end miles`. */
export function extentSays({ vehicles, exposureMiles }: LivesCounted, units: UnitSystem): string {
  const { factor } = displayUnit('miles', units);
  const shown = exposureMiles * factor;
  const unit = units === 'us' ? 'miles' : 'km';
  const distance =
    shown >= 1e6
      ? `${(shown / 1e6).toLocaleString('en-US', { maximumFractionDigits: shown >= 1e7 ? 0 : 1 })} million ${unit}`
      : `${whole(Math.round(shown))} ${unit}`;
  return `on ${counted(vehicles, 'vehicle')}, watched over ${distance}`;
}

export const endedSays = (ended: LivesPick['ended']): string =>
  ended.length === 0 ? 'ended in any way' : ended.map((state) => stateWords[state]).join(' or ');

const foundSays: Readonly<Record<Found, string>> = {
  failure: 'a failure of the wheel end was found in them',
  soaked: 'a failure soaked the lining',
  'leak-soaked': 'a seal leak reached the lining',
  'leak-clean': 'a seal leak left the lining clean',
  'leak-unknown': 'a seal leak does not tell of the lining',
};

/** What else narrows the list, each with what gives it up. */
export function narrowings(pick: LivesPick, units: UnitSystem): { says: string; without: Partial<LivesPick> }[] {
  const { factor, symbol } = displayUnit('miles', units);
  const age = (miles: number) => `${whole(Math.round(miles * factor))} ${symbol}`;
  return [
    ...(pick.found === null ? [] : [{ says: foundSays[pick.found], without: { found: null } }]),
    ...(pick.past === null
      ? []
      : [
          {
            says: `fitted at known miles and watched${pick.past > 0 ? ` past ${age(pick.past)}` : ''}, as a life curve takes them`,
            without: { past: null },
          },
        ]),
    ...(pick.at === null ? [] : [{ says: `at risk at ${age(pick.at)}`, without: { at: null } }]),
  ];
}
