import { cumulate } from './cox-likelihood.ts';
import type { RiskSets } from './cox-risk-sets.ts';
import type { Failed, LifeRatios } from './excess-share-failed.ts';
import { addSlope, slopesOf, slopeSums } from './excess-share-slopes.ts';
import { lifeRisks } from './excess-share-risks.ts';
import type { ExcessFit } from './excess-share-fit.ts';
import type { ExcessLives } from './excess-share-lives.ts';

interface Both {
  readonly asRecorded: Float64Array;
  readonly without: Float64Array;
}

interface FailedGradient {
  /** By cluster, at fixed coefficients: by its own lives, and by the baseline hazard. */
  readonly clusters: Both;
  /** By coefficient, the baseline hazard following. */
  readonly slopes: Both;
}

/** What a little more weight on each cluster, and a little more of each coefficient, does to the standardised failures. */
export function failedGradient(lives: ExcessLives, fit: ExcessFit, ratios: LifeRatios, at: Failed): FailedGradient {
  const { cluster } = lives;
  const { hazard, problem } = fit;
  const times = problem.sets.time.length;
  const cumulated = cumulate(problem.sets.firstTime, hazard);
  const own = { asRecorded: new Float64Array(cluster.count), without: new Float64Array(cluster.count) };
  // By event time, what one more unit of cumulative hazard there does.
  const byHazard = { asRecorded: new Float64Array(times), without: new Float64Array(times) };
  const slopes = { asRecorded: slopeSums(fit, ratios), without: slopeSums(fit, ratios) };
  let all = 0;
  const risks = lifeRisks(lives, fit, ratios);
  const add = (to: Float64Array, place: number, value: number) => {
    if (place >= 0) to[place] = (to[place] as number) + value;
  };
  for (let life = 0; life < lives.exit.length; life++) {
    const { weight, fails, spares, steps, pieces } = risks(life, cumulated);
    all += weight;
    const code = cluster.codes[life] as number;
    add(own.asRecorded, code, weight * (fails - at.asRecorded));
    add(own.without, code, weight * (spares - at.without));
    const pattern = ratios.patternOf[life] as number;
    for (const { effect, asRecorded, without, before } of pieces) {
      const late = before * (fails - at.asRecorded);
      addSlope(slopes.asRecorded, pattern, effect, weight * ((1 - fails) * asRecorded + late));
      const lateSpared = before * (spares - at.without);
      // Without the exposure its own effect is at work only before entry.
      const removed = lives.removed[lives.exposure.codes[life] as number] === 1;
      const common = weight * ((1 - spares) * without + lateSpared);
      addSlope(slopes.without, pattern, effect, common, removed ? weight * lateSpared : common);
    }
    for (const { place, asRecorded, without, before } of steps) {
      // The weight of a late entrant rises with the hazard before its entry.
      add(byHazard.asRecorded, place, weight * ((1 - fails) * asRecorded + before * (fails - at.asRecorded)));
      add(byHazard.without, place, weight * ((1 - spares) * without + before * (spares - at.without)));
    }
  }
  const by = { asRecorded: new Float64Array(0), without: new Float64Array(0) };
  for (const name of ['asRecorded', 'without'] as const) {
    const rise = risesOf(problem.sets, byHazard[name]);
    throughHazard(lives, fit, ratios, rise, own[name]);
    own[name].forEach((value, code) => (own[name][code] = value / all));
    by[name] = slopesOf(fit, ratios, slopes[name], rise).map((value) => value / all);
  }
  return { clusters: own, slopes: by };
}

/** By event time, what one more unit of hazard there does: it counts at that time and at all after. */
function risesOf({ strata, firstTime, time }: RiskSets, byHazard: Float64Array): Float64Array {
  const rise = new Float64Array(time.length);
  for (let stratum = 0; stratum < strata.length; stratum++)
    for (let at = (firstTime[stratum + 1] as number) - 1, later = 0; at >= (firstTime[stratum] as number); at--)
      rise[at] = later += byHazard[at] as number;
  return rise;
}

/** Adds to each cluster what its rows do to the hazard increments: events raise them, rows at risk lower them. */
function throughHazard(
  lives: ExcessLives,
  { problem, sums, clusterOfRow }: ExcessFit,
  ratios: LifeRatios,
  rise: Float64Array,
  to: Float64Array,
): void {
  const { sets, weight } = problem;
  const { row, piece } = lives.split;
  const levels = lives.exposure.levels.length;
  const fall = new Float64Array(sets.time.length);
  for (let stratum = 0; stratum < sets.strata.length; stratum++) {
    const [from, end] = [sets.firstTime[stratum] as number, sets.firstTime[stratum + 1] as number];
    for (let time = from, so = 0; time < end; time++)
      fall[time] = so += (rise[time] as number) * (sums.outer[time] as number);
  }
  for (let time = 0; time < sets.time.length; time++) {
    const start = sets.firstPosition[time] as number;
    const alive = start + (sets.deaths[time] as number);
    const perEvent = ((rise[time] as number) * (sums.hazard[time] as number)) / (problem.events.weight[time] as number);
    for (let position = start; position < (sets.firstPosition[time + 1] as number); position++) {
      const at = sets.row[position] as number;
      const life = row[at] as number;
      const w = weight ? (weight[position] as number) : 1;
      const effect = ratios.effect[(piece[at] as number) * levels + (lives.exposure.codes[life] as number)] as number;
      const risk = w * (ratios.ratio[ratios.patternOf[life] as number] as number) * effect;
      const entered = sets.entryTime[position] as number;
      const lowered = (fall[time] as number) - (entered < 0 ? 0 : (fall[entered] as number));
      const code = clusterOfRow[at] as number;
      to[code] = (to[code] as number) + (position < alive ? w * perEvent : 0) - risk * lowered;
    }
  }
}
