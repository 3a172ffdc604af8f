import { openNodeEngine } from '../../lib/engine/node.ts';
import { ask } from '../../lib/questions/index.ts';
import { viewSchema } from '../../shared/view.ts';
import { fleet } from '../questions/fleet.ts';
import { deviantSeals } from './deviant-seals.ts';

/** Another set of columns taken into account over 50,000 lives: the promise is a ranking in under a second. */
const promisedMs = 1000;
const adjusting = [['role', 'duty'], ['role', 'lubricant', 'hub_build'], ['install_year']];

for (const lives of [50_000, 1_000_000]) {
  const engine = await openNodeEngine();
  const source = await fleet(engine, deviantSeals(lives));
  const time = async (view: object, whole: boolean) => {
    const start = performance.now();
    const cancel = new AbortController();
    let ranked = 0;
    const onFirst = () => {
      ranked = performance.now() - start;
      if (!whole) cancel.abort(new Error('ranked'));
    };
    await ask(source, 'causes', viewSchema.parse(view), cancel.signal, { onFirst }).catch((error: unknown) => {
      if (whole) throw error;
    });
    return { ranked, all: performance.now() - start };
  };
  const first = await time({}, lives <= 50_000);
  console.log(`${lives} lives: ranked in ${first.ranked.toFixed(0)} ms, all in ${first.all.toFixed(0)} ms`);
  for (const adjust of adjusting) {
    const { ranked } = await time({ adjust }, false);
    const over = lives <= 50_000 && ranked > promisedMs ? `  OVER ${promisedMs}` : '';
    console.log(`${lives} lives, ${adjust.join(' and ')} taken into account: ranked in ${ranked.toFixed(0)} ms${over}`);
  }
  await engine.close();
}
