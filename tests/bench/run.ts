import { benchStatistics } from './statistics.ts';

/** `npm run bench` times everything; `npm run bench -- statistics [task]` or `-- questions` one part. */
const [part = '', only] = process.argv.slice(2);
if (part !== 'statistics') await import('./questions.ts');
if (part !== 'questions' && !benchStatistics(only)) process.exitCode = 1;
