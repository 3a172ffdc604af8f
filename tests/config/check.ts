import { spawn } from 'node:child_process';

/** Checks that take no turns with each other, each lane on a core of its own: linting takes as long as all the others. */
const lanes = [['check:lint'], ['check:types', 'check:format', 'check:imports', 'check:dead']];

/** One npm script to its end; what it says is printed whole, so that two lanes do not mix. */
function run(script: string): Promise<boolean> {
  const started = performance.now();
  return new Promise((resolve) => {
    const child = spawn('npm', ['run', '--silent', script], { stdio: ['ignore', 'pipe', 'pipe'] });
    const said: Buffer[] = [];
    child.stdout.on('data', (part: Buffer) => said.push(part));
    child.stderr.on('data', (part: Buffer) => said.push(part));
    child.on('close', (code) => {
      const seconds = ((performance.now() - started) / 1000).toFixed(0);
      process.stdout.write(`${code === 0 ? 'ok    ' : 'FAILED'} ${script} (${seconds} s)\n`);
      if (code !== 0) process.stdout.write(Buffer.concat(said));
      resolve(code === 0);
    });
  });
}

async function inTurn(scripts: readonly string[]): Promise<boolean> {
  let good = true;
  for (const script of scripts) good = (await run(script)) && good;
  return good;
}

const good = await Promise.all(lanes.map(inTurn));
process.exitCode = good.every(Boolean) ? 0 : 1;
