import { fitLife } from '../../../lib/statistics/index.ts';
import { findRoot } from '../../../lib/statistics/numeric/find-root.ts';
import type { Random } from '../../../lib/statistics/numeric/random.ts';
import { drawFleet, LATE_FLEET } from '../fleet.ts';
import { holds, type Study } from '../study.ts';

/** One life in five of an early kind (a fitting fault, say), the others wear out; thousand miles. */
const TRUTH = { earlyShare: 0.2, earlyShape: 1.2, earlyScale: 40, wearOutShape: 4, wearOutScale: 250 };

const trueFailed = (age: number): number => {
  const { earlyShare, earlyShape, earlyScale, wearOutShape, wearOutScale } = TRUTH;
  const failed = (shape: number, scale: number) => -Math.expm1(-((age / scale) ** shape));
  return earlyShare * failed(earlyShape, earlyScale) + (1 - earlyShare) * failed(wearOutShape, wearOutScale);
};

const trueB10 = findRoot((age) => trueFailed(age) - 0.1, 1, 250);

/** Two in five enter late, at up to 60; records end at 150 to 350. */
function drawLives(count: number, random: Random) {
  const rows: [exit: number, event: number, entry: number][] = [];
  while (rows.length < count) {
    const early = random.uniform() < TRUTH.earlyShare;
    const [shape, scale] = early ? [TRUTH.earlyShape, TRUTH.earlyScale] : [TRUTH.wearOutShape, TRUTH.wearOutScale];
    const life = scale * random.exponential() ** (1 / shape);
    const end = 150 + 200 * random.uniform();
    const entry = random.uniform() < 0.4 ? 60 * random.uniform() : 0;
    if (Math.min(life, end) > entry) rows.push([Math.min(life, end), life <= end ? 1 : 0, entry]);
  }
  const column = (index: 0 | 1 | 2) => Float64Array.from(rows, (row) => row[index]);
  return { exit: column(0), event: column(1), entry: column(2) };
}

const twoParts = (count: number): Study => ({
  method: 'fitLife',
  setting: `weibull-mixture; ${count} lives, one in five of an early kind, two in five enter late`,
  shortRun: 15,
  claims: {
    'B10 life': 'covers',
    'survival at 100': 'covers',
    'finds that two parts are called for': 'labelled',
    'share of the early part': 'labelled',
    'shape of the early part': 'labelled',
    'scale of the early part': 'labelled',
    'shape of the wear-out part': 'labelled',
    'scale of the wear-out part': 'labelled',
    'B10 life, one Weibull': 'off target',
  },
  play(random) {
    const lives = drawLives(count, random);
    const fit = fitLife(lives, { distribution: 'weibull-mixture' });
    const { earlyShare, earlyShape, earlyScale, wearOutShape, wearOutScale } = fit.parameters;
    const seen = {
      'B10 life': holds(fit.lifeAt(0.1), trueB10),
      'survival at 100': holds(fit.survivalAt(100), 1 - trueFailed(100)),
      'share of the early part': holds(earlyShare, TRUTH.earlyShare),
      'shape of the early part': holds(earlyShape, TRUTH.earlyShape),
      'scale of the early part': holds(earlyScale, TRUTH.earlyScale),
      'shape of the wear-out part': holds(wearOutShape, TRUTH.wearOutShape),
      'scale of the wear-out part': holds(wearOutScale, TRUTH.wearOutScale),
    };
    return {
      ...(fit.supported ? seen : {}),
      'finds that two parts are called for': fit.supported,
      'B10 life, one Weibull': fitLife(lives, { distribution: 'weibull' }).lifeAt(0.1).value / trueB10 - 1,
    };
  },
});

const onePart: Study = {
  method: 'fitLife',
  setting: 'weibull-mixture; lives of one Weibull, two in five enter late',
  shortRun: 15,
  claims: { 'finds two parts where there is one': 'rejects at most' },
  play: (random) => ({
    'finds two parts where there is one': fitLife(drawFleet(LATE_FLEET, random), { distribution: 'weibull-mixture' })
      .supported,
  }),
};

export const mixtureStudies: Study[] = [twoParts(250), twoParts(500), onePart];
