import type { View } from '../../../shared/view.ts';
import { leastAtRisk } from '../curve-rows.ts';
import { weibullMisses } from '../doubts/weibull-fit.ts';
import { firmnessRule } from '../firmness.ts';
import { fittedLives, watchedTo, type FittedLives } from '../fitted/fitted-lives.ts';
import { gather } from '../gather.ts';
import { lifeCurves } from '../life-curves.ts';
import { ended } from '../life-rows.ts';
import { fittedAt, type AheadEvidence } from './ahead-evidence.ts';

/** Lives that are taken to fail alike: of one axle role, original or replacement. */
export interface Kind {
  readonly label: string;
  /** Places of its own lives, of known start. */
  readonly aged: Int32Array;
  /** Places whose fit it takes: its own, or those of all kinds where its failures are few. */
  readonly told: Int32Array;
  /** Places of its running lives, those fitted just now too. */
  readonly running: Int32Array;
}

/** Kinds with failures enough for a fit of their own, and the rest together. */
export function kindsOf({ aged, running, lives, role, rows, columns }: AheadEvidence): Kind[] {
  const labelOf = (place: number): string => {
    const row = rows[place] as number;
    return `${role.levels[role.codes[row] as number] as string}${columns.replacement[row] === 1 ? '' : ', as first fitted'}`;
  };
  const byLabel = new Map<string, number[]>();
  for (const place of aged) {
    const label = labelOf(place);
    const own = byLabel.get(label) ?? [];
    own.push(place);
    byLabel.set(label, own);
  }
  const failures = (places: readonly number[]) =>
    places.reduce((sum, place) => sum + (lives.ended[place] === ended.failed ? 1 : 0), 0);
  const all = [...byLabel].sort(([a], [b]) => (a < b ? -1 : 1));
  const own = all.filter(([, places]) => failures(places) >= firmnessRule.firmFailures);
  const named = new Set(own.map(([label]) => label));
  const rest = Int32Array.from(aged.filter((place) => !named.has(labelOf(place))));
  const kinds = own.map(([label, places]): Kind => {
    const at = Int32Array.from(places);
    return { label, aged: at, told: at, running: running.filter((place) => labelOf(place) === label) };
  });
  const others = running.filter((place) => !named.has(labelOf(place)));
  if (rest.length === 0 && others.length === 0) return kinds;
  const told = failures([...rest]) >= firmnessRule.fairFailures ? rest : aged;
  return [...kinds, { label: 'the rest', aged: rest, told, running: others }];
}

export interface FittedKind extends Kind {
  readonly fits: FittedLives;
  readonly watchedTo: number;
}

/** The fit of a kind; two parts are asked for only where one shape leaves the curve. Null where it cannot be had. */
export function fittedKind(evidence: AheadEvidence, kind: Kind, view: View): FittedKind | null {
  const { lives } = evidence;
  const data = fittedAt(evidence, kind.told);
  const rows = {
    ...{ rows: kind.told.length, group: new Int32Array(kind.told.length), unit: data.cluster },
    ...{ entry: data.entry, exit: data.exit, ended: gather(lives.ended, kind.told) },
  };
  const { curves, starts } = lifeCurves(rows, [kind.label], view);
  const [curve, start = null] = [curves[0], starts[0]];
  const fits = fittedLives(
    data,
    view,
    (fit) => curve !== undefined && start !== null && weibullMisses({ label: kind.label, curve, start, fit }),
  );
  return typeof fits === 'string' ? null : { ...kind, fits, watchedTo: watchedTo(data.exit, leastAtRisk) };
}
