import { describe, expect, it } from 'vitest';
import { createRandom } from '../../lib/statistics/numeric/random.ts';
import { drawFleet, FRAIL_FLEET, LATE_FLEET, trueLifeAt, trueSurvival } from '../simulation/fleet.ts';
import { studies } from '../simulation/studies/index.ts';
import { couldHold, playStudy } from '../simulation/study.ts';

/**
 * The short form of `npm run test:simulation`: some hundred fleets a study. A claim fails when chance leaves less than
 * 1 in 10,000 for it (exact binomial limits), so what fails here is wrong and not unlucky; finer faults show in the table.
 */
const short = studies.filter(({ shortRun }) => shortRun !== 0);

describe('honesty under simulation, short run', () => {
  it.each(short.map((study) => [`${study.method} · ${study.setting}`, study] as const))('%s', async (_name, study) => {
    const outcomes = await playStudy(study, study.shortRun ?? 100, 20_260_301, 1e-4);
    expect(outcomes.filter((outcome) => !couldHold(outcome))).toEqual([]);
  });
});

describe('the simulated fleets themselves', () => {
  const plan = { ...FRAIL_FLEET, vehicles: 4000, lateShare: 0, ratio: 2 };
  const fleet = drawFleet(plan, createRandom(3));

  it('have the marginal lives they say, with and without the exposure, whatever the frailty', () => {
    for (const exposed of [0, 1]) {
      const lives = fleet.life.filter((_, row) => fleet.exposed[row] === exposed);
      for (const fraction of [0.1, 0.5, 0.9]) {
        const age = trueLifeAt(plan, fraction, exposed === 1);
        const share = lives.filter((life) => life <= age).length / lives.length;
        expect(Math.abs(share - fraction)).toBeLessThan(0.025);
        expect(trueSurvival(plan, age, exposed === 1)).toBeCloseTo(1 - fraction, 12);
      }
    }
  });

  it('have the planned rank correlation between lives on one vehicle', () => {
    const unexposed = drawFleet({ ...plan, ratio: 1 }, createRandom(4));
    let [agree, pairs] = [0, 0];
    for (let vehicle = 0; vehicle + 1 < 4000; vehicle += 2) {
      const [a, b, c, d] = [0, 1, 4, 5].map((place) => unexposed.life[4 * vehicle + place] as number);
      agree += ((a as number) - (c as number)) * ((b as number) - (d as number)) > 0 ? 1 : -1;
      pairs++;
    }
    // 2,000 independent pairs of pairs: standard error 0.02.
    expect(Math.abs(agree / pairs - FRAIL_FLEET.tau)).toBeLessThan(0.08);
  });

  it('leave out lives over before their records begin', () => {
    const late = drawFleet(LATE_FLEET, createRandom(5));
    expect(late.exit.every((exit, row) => exit > (late.entry[row] as number))).toBe(true);
    expect(late.exit.length).toBeLessThan(LATE_FLEET.vehicles * LATE_FLEET.ends);
  });
});
