import { fleet } from '../questions/fleet.ts';
import { openNodeEngine } from '../../lib/engine/node.ts';
import { openWasmEngine } from '../../lib/engine/wasm-node.ts';
import { ask } from '../../lib/questions/index.ts';
import { questionIds } from '../../shared/finding.ts';
import { seals } from './seals.ts';
import { viewSchema, type View } from '../../shared/view.ts';

/** Time of a changed filter's answer over 50,000 lives; the promise is under 150 ms in the browser's engine. */
const promisedMs = 150;
const repeats = 7;

const views: Readonly<Record<string, Partial<View>>> = {
  everything: {},
  'one role': { where: { role: ['trailer'] } },
  'by role': { by: ['role'] },
  'by shop': { by: ['shop'] },
  'by deviation': { by: ['dev_nut_backed_off'] },
  'by position and lubricant': { by: ['position', 'lubricant'] },
};

const median = (times: number[]): number => times.sort((a, b) => a - b)[times.length >> 1] as number;

for (const [name, open] of [
  ['WASM', openWasmEngine],
  ['native', openNodeEngine],
] as const) {
  const engine = await open();
  const source = await fleet(engine, seals());
  // A ranking of everything is no filter's answer: `ranking.ts` times it.
  for (const question of questionIds.filter((id) => id !== 'causes'))
    for (const [filter, view] of Object.entries(views)) {
      const times: number[] = [];
      for (let repeat = 0; repeat < repeats; repeat++) {
        const start = performance.now();
        await ask(source, question, viewSchema.parse(view));
        times.push(performance.now() - start);
      }
      // The first answer also reads what the view needs; a changed filter finds it there.
      const [first, ...later] = times;
      const middle = median(later);
      const over = middle > promisedMs ? `  OVER ${promisedMs}` : '';
      console.log(
        `${name} ${question}, ${filter}: ${middle.toFixed(0)} ms (best ${Math.min(...later).toFixed(0)}, first ${(first ?? 0).toFixed(0)})${over}`,
      );
    }
  await engine.close();
}
