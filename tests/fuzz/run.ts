import { fork, type ChildProcess } from 'node:child_process';
import { parseArgs } from 'node:util';
import { openNodeEngine } from '../../lib/engine/node.ts';
import { runCase, type CaseResult } from './run-case.ts';
import { Tally } from './tally.ts';

/**
 * `npm run test:fuzz` runs 10,000 cases; `-- --seed S --case N` runs one again, `--cases COUNT` so many,
 * `--from N` those from N on. The cases run in a process of their own: one that hangs, or takes the
 * process with it, is told by its number, and the rest go on.
 */
const { values } = parseArgs({
  options: {
    seed: { type: 'string', default: '1' },
    cases: { type: 'string', default: '10000' },
    from: { type: 'string', default: '0' },
    case: { type: 'string' },
  },
});
const seed = Number(values.seed);
const first = Number(values.case ?? values.from);
const end = values.case === undefined ? first + Number(values.cases) : first + 1;
if (![seed, first, end].every(Number.isSafeInteger))
  throw new Error('--seed, --case, --cases and --from take whole numbers');

/** Beyond this a case hangs, whatever else the machine has to do. */
const patience = 120_000;

if (process.send) await runAll(process.send.bind(process));
else await watch();

async function runAll(send: (message: CaseResult) => boolean): Promise<void> {
  const engine = await openNodeEngine({ threads: 1 });
  for (let number = first; number < end; number++) send(await runCase(engine, seed, number));
  await engine.close();
  process.disconnect();
}

async function watch(): Promise<void> {
  const tally = new Tally(seed);
  for (let next = first; next < end;) next = await runFrom(next, tally);
  process.stdout.write(tally.text());
  process.exitCode = tally.failures === 0 ? 0 : 1;
}

/** Runs cases until the last, or until one takes the process with it; gives the number to go on with. */
function runFrom(from: number, tally: Tally): Promise<number> {
  return new Promise((go) => {
    const parts = ['--seed', String(seed), '--from', String(from), '--cases', String(end - from)];
    const child: ChildProcess = fork(new URL(import.meta.url), parts, {
      execArgv: [...process.execArgv, '--max-old-space-size=3072'],
    });
    let next = from;
    let hangs = false;
    const hang = () => {
      hangs = true;
      child.kill('SIGKILL');
    };
    let timer = setTimeout(hang, patience);
    child.on('message', (result: CaseResult) => {
      clearTimeout(timer);
      timer = setTimeout(hang, patience);
      next = result.number + 1;
      tally.add(result);
    });
    child.on('exit', (code, signal) => {
      clearTimeout(timer);
      if (next < end)
        tally.lost(next++, hangs ? `hangs: no end after ${patience} ms` : `ended the process: ${signal ?? code}`);
      go(next);
    });
  });
}
