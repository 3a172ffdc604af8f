import { readFileSync, writeFileSync } from 'node:fs';
import { parseArgs } from 'node:util';
import { format, resolveConfig } from 'prettier';
import { studies } from './studies/index.ts';
import { playStudy, type Outcome } from './study.ts';
import { resultsTable, wholeRun } from './results-table.ts';

/**
 * `npm run test:simulation` plays every study over 1,000 fleets and rewrites RESULTS.md; exit code 1 when a claim does
 * not hold. `-- --only TEXT` plays the studies whose method or setting holds TEXT, prints, and puts those methods into
 * the table that were played whole.
 */
const { values } = parseArgs({
  options: {
    fleets: { type: 'string', default: String(wholeRun.fleets) },
    seed: { type: 'string', default: String(wholeRun.seed) },
    only: { type: 'string', default: '' },
  },
});
const [fleets, seed] = [Number(values.fleets), Number(values.seed)];
const chosen = studies.filter(({ method, setting }) => `${method} ${setting}`.includes(values.only));
const outcomes: Outcome[] = [];
for (const study of chosen) {
  const started = performance.now();
  const found = await playStudy(study, fleets, seed);
  outcomes.push(...found);
  const seconds = ((performance.now() - started) / 1000).toFixed(1);
  process.stdout.write(`\n${study.method} · ${study.setting} (${seconds} s)\n`);
  for (const { what, claim, value, lower, upper, unanswered, holds } of found)
    process.stdout.write(
      `  ${holds ? ' ' : '✗'} ${what}: ${value.toFixed(3)} (${lower.toFixed(3)} to ${upper.toFixed(3)}) — ${claim}${unanswered ? `, ${unanswered} without answer` : ''}\n`,
    );
}
const methods = [...new Set(studies.map(({ method }) => method))];
const whole = methods.filter((method) => studies.every((study) => study.method !== method || chosen.includes(study)));
if (whole.length > 0) {
  const file = new URL('RESULTS.md', import.meta.url);
  const text = resultsTable(
    outcomes.filter(({ method }) => whole.includes(method)),
    { fleets, seed },
    methods,
    values.only === '' ? null : readFileSync(file, 'utf8'),
  );
  writeFileSync(file, await format(text, { ...(await resolveConfig(file)), parser: 'markdown' }));
  process.stdout.write(`\nwrote ${values.only === '' ? 'all' : whole.join(', ')} to tests/simulation/RESULTS.md\n`);
}
const broken = outcomes.filter(({ holds }) => !holds);
process.stdout.write(
  `\n${outcomes.length - broken.length} of ${outcomes.length} claims hold, labelled limits among them\n`,
);
process.exitCode = broken.length === 0 ? 0 : 1;
