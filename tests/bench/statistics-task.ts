import { writeFileSync } from 'node:fs';
import { readMillionLives } from './statistics/million-lives.ts';
import { tasks, type Task } from './statistics/tasks.ts';

/**
 * One task in a process of its own, so that neither memory nor warm code passes from one to the next. Called with the
 * task's name, the lives and where the answers go; prints what it measured as JSON.
 */
const [name, livesFile, answersFile] = process.argv.slice(2) as [string, string, string];
const task = tasks[name] as Task;
const lives = readMillionLives(livesFile);
const inputBytes = task.input(lives).reduce((sum, { byteLength }) => sum + byteLength, 0);
const collect = (globalThis as { gc?: () => void }).gc;

const RUNS = 7;
/** No run is begun after this long. */
const PATIENCE_SECONDS = 15;
const seconds: number[] = [];
let grownBytes = 0;
let answers: (() => ArrayLike<number>) | null = null;
for (let spent = 0; seconds.length < RUNS && spent < PATIENCE_SECONDS;) {
  answers = null;
  collect?.();
  const before = process.memoryUsage.rss();
  const [start, used] = [performance.now(), process.cpuUsage()];
  answers = task.run(lives);
  // Processor time, its own compiler and collector threads included: others at work on the machine blur it least.
  const { user, system } = process.cpuUsage(used);
  seconds.push((user + system) / 1e6);
  spent += (performance.now() - start) / 1000;
  // The high-water mark is that of the whole process, so only the first run says what a run needs.
  if (seconds.length === 1) grownBytes = process.resourceUsage().maxRSS * 1024 - before;
}
writeFileSync(answersFile, Float64Array.from(answers?.() ?? []));
process.stdout.write(JSON.stringify({ seconds, grownBytes, inputBytes }));
