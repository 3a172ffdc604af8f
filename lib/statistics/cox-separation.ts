import { NEGLIGIBLE } from './climb-to-top.ts';
import { patternPredictors, type CoxProblem } from './cox-problem.ts';

/**
 * Whether the likelihood is monotone along a direction: at every event time each event scores as
 * high as anyone at risk (Bryson & Johnson 1981, Technometrics 23:381; Heinze & Schemper 2001,
 * Biometrics 57:114). A runaway Newton step is only a suspicion; this is the proof, to within a
 * thousandth of the covariates' range.
 */
export function isMonotone(problem: CoxProblem, direction: Float64Array): boolean {
  const { sets, pattern, patterns } = problem;
  const score = patternPredictors(problem, direction);
  const byScore = Array.from(score.keys()).sort((a, b) => (score[a] as number) - (score[b] as number));
  const rank = new Int32Array(patterns);
  byScore.forEach((k, place) => (rank[k] = place));
  const atRisk = new Int32Array(patterns);
  for (let stratum = 0; stratum < sets.strata.length; stratum++) {
    let top = -1;
    const start = sets.firstTime[stratum] as number;
    for (let time = (sets.firstTime[stratum + 1] as number) - 1; time >= start; time--) {
      const [from, to] = [sets.firstPosition[time] as number, sets.firstPosition[time + 1] as number];
      let lowest = patterns;
      for (let position = from; position < to; position++) {
        const place = rank[pattern[position] as number] as number;
        atRisk[place] = (atRisk[place] as number) + 1;
        if (place > top) top = place;
        if (position < from + (sets.deaths[time] as number) && place < lowest) lowest = place;
      }
      for (let index = sets.firstLate[time] as number; index < (sets.firstLate[time + 1] as number); index++) {
        const place = rank[pattern[sets.late[index] as number] as number] as number;
        atRisk[place] = (atRisk[place] as number) - 1;
      }
      while (atRisk[top] === 0) top--;
      if ((score[byScore[top] as number] as number) - (score[byScore[lowest] as number] as number) > NEGLIGIBLE)
        return false;
    }
    // Only what this stratum touched: strata may be as many as vehicles.
    const end = sets.firstPosition[sets.firstTime[stratum + 1] as number] as number;
    for (let position = sets.firstPosition[start] as number; position < end; position++)
      atRisk[rank[pattern[position] as number] as number] = 0;
  }
  return true;
}
