import { deviationCodes, deviationColumn } from '../../../shared/deviations.ts';
import type { LifeList } from '../../../shared/finding.ts';
import { daysAMonth } from '../../../shared/units.ts';
import type { Component } from '../../../shared/vocabulary.ts';
import type { View } from '../../../shared/view.ts';
import { numberColumn } from '../../engine/engine.ts';
import { identifier, joinSql, sql, type Statement } from '../../engine/statement.ts';
import { livesTable } from '../../lives/index.ts';
import { createRandom, type Random } from '../../statistics/index.ts';
import { run, type Asking } from '../asking.ts';
import type { CutCodes } from '../columns/cut-codes.ts';
import { placesWhere } from '../gather.ts';
import { ended } from '../life-rows.ts';
import { componentWords } from '../words/component-words.ts';
import { deviationWords } from '../words/deviation-words.ts';
import { count, counted } from '../words/wording.ts';
import type { AheadEvidence } from './ahead-evidence.ts';
import { namedLives } from './named-lives.ts';

/** Of each kind so many are drawn; what was renewed is drawn among so many nearest in miles. */
const ofEachKind = 3;
const nearestInMiles = 5;
/** Parts removed longer ago are seldom still on a shelf. */
const keptDays = 365;

/** Failed replacements with and without each deviation: the one told both ways most often is asked about. */
export const deviationsToldStatement = (component: Component): Statement => sql`
select ${joinSql(
  deviationCodes.map((code) => {
    const column = identifier(deviationColumn(code));
    return sql`cast(least(count(*) filter (${column} = 'yes'), count(*) filter (${column} = 'no')) as double) as ${column}`;
  }),
  ', ',
)} from ${identifier(livesTable(component))} where state = 'failed' and install_kind = 'replacement'`;

/** The deviation in question: the one looked into, else the one that failures tell both ways most often; null where none is. */
async function inQuestion(asking: Asking): Promise<string | null> {
  const { view } = asking;
  if (view.deviation !== null) return view.deviation;
  const told = await run(asking, deviationsToldStatement(view.component));
  const both = (code: string) => numberColumn(told, deviationColumn(code))[0] ?? 0;
  const [first] = [...deviationCodes].sort((a, b) => both(b) - both(a));
  return first !== undefined && both(first) > 0 ? first : null;
}

type Kinds = Map<number, string>;

/**
 * Which removed parts to cut open next: drawn at random, by a seed of the records alone, among those
 * that failed early and later, with and without the deviation in question, each with one renewed
 * without a failure at like miles, so that what is found in failed ones can be told from what is in all.
 */
export async function teardownSample(evidence: AheadEvidence, asking: Asking, seed: number): Promise<LifeList | null> {
  const { view, signal } = asking;
  const deviation = await inQuestion(asking);
  const cut = deviation === null ? null : await evidence.asked.cut(deviationColumn(deviation), signal);
  const { places, recent } = removed(evidence, asking);
  const random = createRandom(seed);
  const kinds: Kinds = new Map();
  for (const word of cut ? ['yes', 'no'] : [null]) {
    const carries = (place: number) => word === null || labelAt(evidence, cut as CutCodes, place) === word;
    const own = places.filter(carries);
    const where =
      word === null || deviation === null ? '' : `, ${deviationWords[deviation]?.[word as 'yes' | 'no'] ?? word}`;
    drawKinds({ evidence, view, own, where, random, kinds }, asking.words.miles);
  }
  if (kinds.size === 0) return null;
  const drawn = Int32Array.from(kinds.keys());
  const lives = await namedLives(evidence, drawn, asking, (place) => ({
    ...{ aheadMiles: null, chance: null, kind: kinds.get(place) ?? null },
  }));
  return { name: 'teardown', lives, says: saysOf(deviation, lives.length, recent, view) };
}

const labelAt = ({ rows }: AheadEvidence, { levels, codes }: CutCodes, place: number): string =>
  levels[codes[rows[place] as number] as number] as string;

/** Replacements that failed or were renewed; of the last year of the records where the days are told. */
function removed({ lives, rows, columns }: AheadEvidence, { source }: Asking) {
  const off = (place: number) => lives.ended[place] === ended.failed || lives.ended[place] === ended.renewed;
  const all = placesWhere(
    lives.rows,
    (place) => columns.replacement[rows[place] as number] === 1 && off(place) && !Number.isNaN(lives.exit[place]),
  );
  const { observedTo } = source.account;
  if (observedTo === null) return { places: all, recent: false };
  const last = Date.parse(`${observedTo}T00:00:00Z`) / 86_400_000;
  const places = all.filter((place) => {
    const row = rows[place] as number;
    const day = (columns.installDay[row] as number) + (columns.months.exit[row] as number) * daysAMonth;
    return last - day <= keptDays;
  });
  return places.length === 0 ? { places: all, recent: false } : { places, recent: true };
}

interface Drawing {
  readonly evidence: AheadEvidence;
  readonly view: View;
  readonly own: Int32Array;
  readonly where: string;
  readonly random: Random;
  readonly kinds: Kinds;
}

function drawKinds(
  { evidence: { lives }, view, own, where, random, kinds }: Drawing,
  miles: (value: number) => string,
): void {
  const age = (place: number) => lives.exit[place] as number;
  const failed = own.filter((place) => lives.ended[place] === ended.failed);
  const renewed = [...own.filter((place) => lives.ended[place] === ended.renewed)];
  const early = failed.filter((place) => age(place) <= view.earlyMiles);
  const later = failed.filter((place) => age(place) > view.earlyMiles);
  const parts = [
    { among: early, says: `failed within ${miles(view.earlyMiles)}` },
    { among: later, says: `failed after ${miles(view.earlyMiles)}` },
  ];
  for (const { among, says } of parts)
    for (const place of someOf(among, ofEachKind, random)) {
      kinds.set(place, `${says}${where}`);
      renewed.sort((a, b) => Math.abs(age(a) - age(place)) - Math.abs(age(b) - age(place)) || a - b);
      const [mate] = someOf(Int32Array.from(renewed.slice(0, nearestInMiles)), 1, random);
      if (mate === undefined) continue;
      kinds.set(mate, `renewed without a failure, at miles like one that ${says}${where}`);
      renewed.splice(renewed.indexOf(mate), 1);
    }
}

/** So many at random, in the order drawn. */
function someOf(places: Int32Array, most: number, random: Random): number[] {
  const left = [...places];
  const drawn: number[] = [];
  while (drawn.length < most && left.length > 0) drawn.push(...left.splice(random.below(left.length), 1));
  return drawn;
}

function saysOf(deviation: string | null, lives: number, recent: boolean, { component }: View): string {
  const { one, many } = componentWords[component];
  const asked =
    deviation === null
      ? 'No deviation is told both ways, so they are drawn by how they ended alone'
      : `The question: what do ${many} show ${deviationWords[deviation]?.yes ?? `with ${deviation}`}, against the rest`;
  const when = recent ? ` that came off in the last ${count(keptDays)} days of the records` : '';
  return `${asked}. ${counted(lives, one, many)}${when}, drawn at random within each kind; survivors are among them, else what all have would be taken for what fails. The draw hangs on the records alone: the same records draw the same ones. Who cuts them open should not know which kind each is.`;
}
