import { benchRecords } from './records.ts';
import { benchScale } from './scale.ts';
import { benchStatistics } from './statistics.ts';
import { benchTab } from './tab.ts';

/** `npm run bench` times everything; `npm run bench -- statistics [task]`, `-- records`, `-- questions`, `-- ranking` `-- scale [vehicles]` or `-- tab [vehicles]` one part. */
const [part, only] = process.argv.slice(2);
const asked = (name: string): boolean => part === undefined || part === name;
if (asked('questions')) await import('./questions.ts');
if (asked('ranking')) await import('./ranking.ts');
if (asked('records') && !(await benchRecords())) process.exitCode = 1;
if (asked('scale') && !benchScale(part === 'scale' && only !== undefined ? Number(only) : undefined))
  process.exitCode = 1;
if (asked('statistics') && !benchStatistics(only)) process.exitCode = 1;
if (asked('tab') && !(await benchTab(part === 'tab' && only !== undefined ? Number(only) : undefined)))
  process.exitCode = 1;
