import { detectionDelay, type DetectionEstimate } from '../../../lib/statistics/index.ts';
import type { Random } from '../../../lib/statistics/numeric/random.ts';
import { holds, type Study } from '../study.ts';

const TRUTH = { lives: 800, shape: 1.6, scale: 150, chance: 0.55, between: 0.008, gap: 15, end: 200 };

/** Lives looked at every 15; a look sees a defect that is there 55 times in 100, and it is noticed between looks. */
function looked(random: Random) {
  const [exit, found, checkLife, checkAge]: [number[], number[], number[], number[]] = [[], [], [], []];
  for (let life = 0; life < TRUTH.lives; life++) {
    const begins = TRUTH.scale * random.exponential() ** (1 / TRUTH.shape);
    const noticed = begins + random.exponential() / TRUTH.between;
    let [at, how] = [Math.min(TRUTH.end, noticed), noticed < TRUTH.end ? 2 : 0];
    for (let look = TRUTH.gap * (0.2 + random.uniform()); look < at; look += TRUTH.gap) {
      if (look > begins && random.uniform() < TRUTH.chance) [at, how] = [look, 1];
      else {
        checkLife.push(life);
        checkAge.push(look);
      }
    }
    exit.push(at);
    found.push(how);
  }
  return { exit, found, checkLife, checkAge };
}

const held = ({ value, lower, upper }: DetectionEstimate, truth: number): boolean | null =>
  value === null || lower === null || upper === null ? null : holds({ lower, upper }, truth);

const told: Study = {
  method: 'detectionDelay',
  setting: '800 lives looked at every 15, one look in two sees',
  claims: {
    'chance a look sees': 'labelled',
    'rate between looks': 'labelled',
    'shape of the onset': 'labelled',
    'scale of the onset': 'labelled',
  },
  shortRun: 20,
  play(random) {
    const { chance, rateBetween, shape, scale } = detectionDelay(looked(random));
    return {
      'chance a look sees': held(chance, TRUTH.chance),
      'rate between looks': held(rateBetween, TRUTH.between),
      'shape of the onset': held(shape, TRUTH.shape),
      'scale of the onset': held(scale, TRUTH.scale),
    };
  },
};

export const detectionDelayStudies: Study[] = [told];
