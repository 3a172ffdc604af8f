import type { Estimate } from '../../../shared/finding.ts';
import { horizonOf, type View } from '../../../shared/view.ts';
import { components } from '../../../shared/vocabulary.ts';
import { cumulativeIncidence, type IncidenceCurve } from '../../statistics/index.ts';
import { lining } from '../columns/episode-columns.ts';
import { modeCode } from '../columns/life-columns.ts';
import { noEstimate, toEstimate } from '../estimate.ts';
import { gather } from '../gather.ts';
import { ended } from '../life-rows.ts';
import type { DetectionEvidence } from './detection-evidence.ts';

/** What first befalls a wheel end with its seal, each ruling out the others; in the order of their codes from 1. */
export const competing = ['leakNotSoaked', 'soakedLining', 'bearingFailure'] as const;
const other = competing.length + 1;

/** The estimate of each outcome: `leakNotSoakedByHorizon` … */
export const competingName = (outcome: (typeof competing)[number]): string => `${outcome}ByHorizon`;

const sealModes = new Set(components.seal.modes.map(modeCode));
const bearingModes = new Set(components.bearing.modes.map(modeCode));

/**
 * Share of each group whose first outcome by the horizon was each of these, renewals at work: fewer
 * leaks are not fewer failures where bearings or linings pay for them (trade facts 2.3). By group.
 */
export function competingOutcomes(
  evidence: DetectionEvidence,
  view: View,
): Readonly<Record<string, Estimate>>[] | null {
  const { aged, lives, groups, outcomes } = evidence;
  if (!outcomes || aged.length === 0) return null;
  const { exit, event } = firstOutcomes(evidence, view);
  const group = { levels: groups.map(({ label }) => label), codes: gather(lives.group, aged) };
  const rows = { entry: gather(lives.entry, aged), exit, event, group, cluster: gather(lives.unit, aged) };
  const curves = cumulativeIncidence(rows, { level: view.level, interval: view.interval, causes: [1, 2, 3] });
  return groups.map(({ label }) =>
    Object.fromEntries(
      competing.map((outcome, at) => {
        const curve = curves.find((own) => own.group === label && own.cause === at + 1);
        return [competingName(outcome), atHorizon(curve, view)];
      }),
    ),
  );
}

function firstOutcomes({ aged, lives, outcomes, rows }: DetectionEvidence, view: View) {
  const found = outcomes as NonNullable<DetectionEvidence['outcomes']>;
  const placeOf = new Map(Array.from(rows, (row, place) => [row, place]));
  const [first, code] = [new Float64Array(lives.rows).fill(Infinity), new Uint8Array(lives.rows)];
  const ages = found.age[view.axis];
  for (let at = 0; at < found.rows; at++) {
    const place = placeOf.get(found.life[at] as number);
    const age = ages[at] as number;
    if (place === undefined || !(age < (first[place] as number))) continue;
    [first[place], code[place]] = [age, codeOf(found.mode[at] as number, found.lining[at] as number)];
  }
  const [exit, event] = [new Float64Array(aged.length), new Uint8Array(aged.length)];
  aged.forEach((place, at) => {
    const [end, happened] = [lives.exit[place] as number, first[place] as number];
    const within = happened > (lives.entry[place] as number) && happened <= end;
    exit[at] = within ? happened : end;
    event[at] = within ? (code[place] as number) : endCode(lives.ended[place] as number);
  });
  return { exit, event };
}

function codeOf(mode: number, says: number): number {
  if (says === lining.soaked) return 2;
  if (sealModes.has(mode)) return 1;
  return bearingModes.has(mode) ? 3 : other;
}

const endCode = (end: number): number => (end === ended.failed ? 1 : end === ended.running ? 0 : other);

function atHorizon(curve: IncidenceCurve | undefined, view: View): Estimate {
  const about = {
    ...{ level: view.level, unit: 'share' },
    method: 'cumulative incidence, the other outcomes and renewals competing',
  };
  const horizon = horizonOf(view);
  if (!curve || curve.time.length === 0) return noEstimate({ ...about, reason: 'no such outcome or no lives' });
  const last = curve.time.findLastIndex((age) => age <= horizon);
  if ((curve.time.at(-1) as number) < horizon)
    return noEstimate({ ...about, reason: 'no life was watched as far as the horizon' });
  if (last < 0) return toEstimate({ value: 0, lower: 0, upper: 1 }, about);
  const at = (column: Float64Array | undefined) => (column ? (column[last] as number) : null);
  return toEstimate(
    { value: at(curve.incidence), lower: at(curve.lower), upper: at(curve.upper) },
    about,
    curve.robustLower && { value: null, lower: at(curve.robustLower), upper: at(curve.robustUpper) },
  );
}
