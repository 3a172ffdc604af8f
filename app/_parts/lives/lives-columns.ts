import { lifeSays, valueSays } from '../../../lib/charts/index.ts';
import { displayUnit, type UnitSystem } from '../../../shared/units.ts';
import type { ListColumn } from '../../../shared/lives-pick.ts';
import type { ListedLife } from '../../_state/lives-desk.ts';

/** A column of the list of lives: its head, its width in pixels, what stands in it. */
export interface LivesColumn {
  readonly key: ListColumn;
  readonly head: string;
  /** The head with the unit of the numbers below. */
  readonly unit: 'miles' | '';
  readonly width: number;
  readonly number: boolean;
  readonly text: (life: ListedLife, units: UnitSystem) => string;
}

const shown = (miles: number | null, units: UnitSystem): string =>
  miles === null ? '—' : Math.round(miles * displayUnit('miles', units).factor).toLocaleString('en-US');

const text = (
  key: ListColumn,
  head: string,
  width: number,
  says: LivesColumn['text'],
  number = false,
  unit: LivesColumn['unit'] = '',
): LivesColumn => ({ key, head, width, number, unit, text: says });

const endSays = ({ state, mode, inferred }: ListedLife): string =>
  `${lifeSays(state, mode)}${inferred ? ' (inferred)' : ''}`;

const builds: Readonly<Record<string, string>> = { adjusted: 'by hand', spacer: 'by spacer' };

/** The columns in the order shown; all together as wide as the page. */
export const livesColumns: readonly LivesColumn[] = [
  text('unit_id', 'vehicle', 104, ({ unitId }) => unitId),
  text('position', 'wheel end', 158, ({ position, role }) =>
    role === 'unknown' ? valueSays('position', position) : `${valueSays('position', position)} · ${role}`,
  ),
  text('life_number', 'life', 44, ({ lifeNumber }) => lifeNumber, true),
  text('install_date', 'fitted on', 98, ({ installDate }) => installDate ?? '—'),
  text('install_miles', 'fitted at', 92, ({ installMiles }, units) => shown(installMiles, units), true, 'miles'),
  text('exit_miles', 'ran', 88, ({ exitMiles }, units) => shown(exitMiles, units), true, 'miles'),
  text('exposure_miles', 'watched', 88, ({ exposureMiles }, units) => shown(exposureMiles, units), true, 'miles'),
  text('state', 'how it ended', 200, endSays),
  text('shop', 'fitted by', 108, ({ shop }) => valueSays('shop', shop)),
  text('lubricant', 'lubricant', 100, ({ lubricant }) => valueSays('lubricant', lubricant)),
  text('hub_build', 'hub build', 88, ({ hubBuild }) => builds[hubBuild] ?? valueSays('hub_build', hubBuild)),
];

/** The line as a sentence, for the link that opens it. */
export const lifeNamed = ({ unitId, position, lifeNumber }: ListedLife): string =>
  `Vehicle ${unitId}, ${valueSays('position', position)}, life ${lifeNumber}`;
