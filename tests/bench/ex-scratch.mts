import { openNodeEngine } from '../../lib/engine/node.ts';
import { ask } from '../../lib/questions/index.ts';
import { viewSchema } from '../../shared/view.ts';
import { fleet } from '../questions/fleet.ts';
import { createRandom } from '../../lib/statistics/index.ts';
import { PAIRED_PLAN, pairedLives, pairedTruth } from '../simulation/paired-fleet.ts';
const plan = { ...PAIRED_PLAN, early: 1, later: 1 };
const truth = pairedTruth(plan);
console.log(truth);
const engine = await openNodeEngine();
const random = createRandom(77);
const zs: number[] = []; let low = 0, high = 0; const vals: number[] = [], ses: number[] = [];
for (let i = 0; i < 300; i++) {
  const source = await fleet(engine, pairedLives(plan, random));
  const { groups } = await ask(source, 'causes', viewSchema.parse({ by: ['dev_seal_cocked'] }));
  const g = groups[0]!; const e = g.estimates['excessFailuresPerThousand']!;
  if (i === 0) console.log(g.failures, g.lives, e);
  if (e.value == null) continue;
  const t = truth.excessFailuresPerThousand;
  if (e.upper! < t) high++; if (e.lower! > t) low++;
  vals.push(e.value); ses.push((e.upper! - e.lower!) / 3.92);
}
const mean = (x: number[]) => x.reduce((a, b) => a + b, 0) / x.length;
const sd = (x: number[]) => Math.sqrt(mean(x.map((v) => (v - mean(x)) ** 2)));
console.log('n', vals.length, 'upper<truth', high, 'lower>truth', low, 'mean', mean(vals), 'sd', sd(vals), 'mean se', mean(ses), 'rms se', Math.sqrt(mean(ses.map((s) => s * s))));
await engine.close();
