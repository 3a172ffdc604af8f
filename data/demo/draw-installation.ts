import type { AxlePlan } from './draw-unit.ts';
import { DEVIATIONS, type PlantedDeviation, bitOf } from './planted-deviations.ts';
import { NOT_DRESSED_AT_FIRST } from './planted-effects.ts';
import type { Random } from './random.ts';
import { BAD_SPELL, CHANGE, SHOPS } from './story.ts';

/** What was really done when a wheel end was put together, whatever was written down. */
export interface Installation {
  readonly bits: number;
  readonly endPlayThousandths: number;
  readonly innerTorque: number;
  readonly outerTorque: number;
}

export interface Job {
  readonly shop: number;
  readonly day: number;
  readonly duty: string;
  readonly priorFailures: number;
}

export const FACTORY: Installation = { bits: 0, endPlayThousandths: 3, innerTorque: 300, outerTorque: 300 };

const TOOL = bitOf('seal-tool-missing');
const COCKED = bitOf('seal-cocked');
const DIRTY = bitOf('dirty-cavity');
const NOT_DRESSED = bitOf('spindle-not-dressed');
const UNDER = bitOf('underfilled');
const OVER = bitOf('overfilled');
const PLAY_HIGH = bitOf('end-play-high');
const PLAY_LOW = bitOf('end-play-low');
const INNER = bitOf('inner-torque-out');
const OUTER = bitOf('outer-torque-out');
const OUTER_SKIPPED = bitOf('outer-nut-skipped');
const SPACER_MISSING = bitOf('spacer-missing');
const SPACER_REVERSED = bitOf('spacer-reversed');
const BACKED_OFF = bitOf('nut-backed-off');

const RUSHED_SHARE = [0.2, 0.25, 0.25, 0.2, 0.35, 0.4];
const RUSHED_FACTOR = 1.8;
const NO_TOOL_COCKS = 3;

export function drawInstallation(random: Random, axle: AxlePlan, job: Job): Installation {
  const rushedShare = RUSHED_SHARE[job.shop] as number;
  // Rush leaves the shop's mean prevalence as planted: the calm jobs are that much better.
  const rush = random.chance(rushedShare) ? RUSHED_FACTOR : (1 - rushedShare * RUSHED_FACTOR) / (1 - rushedShare);
  let bits = 0;
  for (let index = 0; index < DEVIATIONS.length; index++) {
    const deviation = DEVIATIONS[index] as PlantedDeviation;
    if (!canExist(deviation, axle)) continue;
    let probability = prevalenceAt(deviation, job.shop, job.day) * rush;
    const bit = 1 << index;
    if (bit === COCKED) probability *= toolFactor(bits, job, rush);
    if (bit === DIRTY && job.duty === 'quarry') probability *= 2;
    if (bit === NOT_DRESSED && job.priorFailures === 0) probability *= NOT_DRESSED_AT_FIRST;
    if (random.chance(probability)) bits |= bit;
  }
  return withMeasures(random, axle, withoutContradictions(bits));
}

/** Structural zeros of the record contract, section 4. */
export function canExist(deviation: PlantedDeviation, axle: AxlePlan): boolean {
  if (!deviation.builds.includes(axle.build)) return false;
  if (deviation.only === 'double-nut') return axle.nutSystem === 'double';
  if (deviation.only === 'oil') return axle.lubricant === 'oil';
  return true;
}

/** True share of installations with the deviation at a shop on a day, before rush and duty. */
function prevalenceAt(deviation: PlantedDeviation, shop: number, day: number): number {
  const base = deviation.prevalence[shop] as number;
  const name = SHOPS[shop];
  if (name === CHANGE.shop && day >= CHANGE.day) return base * (CHANGE.prevalenceFactor[deviation.code] ?? 1);
  if (name === BAD_SPELL.shop && day >= BAD_SPELL.fromDay && day <= BAD_SPELL.toDay)
    return Math.min(0.9, base * BAD_SPELL.prevalenceFactor);
  return base;
}

const TOOL_DEVIATION = DEVIATIONS.find(({ code }) => code === 'seal-tool-missing') as PlantedDeviation;

/** Without the seal driver a seal is cocked three times as often; the mean stays as planted. */
function toolFactor(bits: number, job: Job, rush: number): number {
  if (bits & TOOL) return NO_TOOL_COCKS;
  const share = prevalenceAt(TOOL_DEVIATION, job.shop, job.day) * rush;
  return Math.max(0, (1 - NO_TOOL_COCKS * share) / (1 - share));
}

function withoutContradictions(bits: number): number {
  let kept = bits;
  if (kept & PLAY_HIGH) kept &= ~PLAY_LOW;
  if (kept & UNDER) kept &= ~OVER;
  if (kept & SPACER_MISSING) kept &= ~SPACER_REVERSED;
  if (kept & OUTER_SKIPPED) kept &= ~OUTER;
  return kept;
}

/** Torques in lbf·ft and end play in thousandths of an inch that agree with the deviations drawn. */
function withMeasures(random: Random, axle: AxlePlan, bits: number): Installation {
  const endPlayThousandths =
    bits & PLAY_HIGH
      ? 6 + Math.floor(random.exponential(3))
      : bits & PLAY_LOW
        ? random.pick([0, 0.5])
        : Math.round(2 * Math.min(5, Math.max(1, random.normal(3, 0.9)))) / 2;
  let innerTorque = axle.build === 'adjusted' ? 50 : nearNominal(random, 300);
  if (bits & INNER) innerTorque = random.chance(0.6) ? 5 * random.below(16) + 165 : 5 * random.below(16) + 365;
  else if (bits & BACKED_OFF) innerTorque = Math.max(250, nearNominal(random, 275));
  const nominal = axle.build === 'spacer' ? 300 : axle.role === 'steer' ? 250 : 350;
  let outerTorque = nearNominal(random, nominal);
  if (bits & OUTER)
    outerTorque = random.chance(0.7) ? nominal - 60 - 5 * random.below(15) : nominal + 60 + 5 * random.below(12);
  return { bits, endPlayThousandths, innerTorque, outerTorque };
}

/** Most torques are written down as the nominal value: rounding the tool must be able to show. */
function nearNominal(random: Random, nominal: number): number {
  return random.chance(0.7) ? nominal : nominal + 5 * Math.round(Math.min(9, Math.max(-9, random.normal(0, 3.5))));
}
