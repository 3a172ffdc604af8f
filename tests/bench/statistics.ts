import { execFileSync } from 'node:child_process';
import { mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { cpus, tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { compareAnswers, type Comparison } from './statistics/compare-answers.ts';
import { columnNames, LIVES, writeMillionLives } from './statistics/million-lives.ts';
import { resultsTable, type Measured } from './statistics/results-table.ts';
import { tasks } from './statistics/tasks.ts';

interface OurRun {
  readonly seconds: readonly number[];
  readonly grownBytes: number;
  readonly inputBytes: number;
}

interface TheirRun {
  readonly reading?: number;
  readonly seconds?: readonly number[];
  readonly version?: string;
}

const here = (file: string): string => fileURLToPath(new URL(file, import.meta.url));

function runOurs(name: string, lives: string, answers: string): OurRun {
  const options = ['--expose-gc', '--import', 'tsx', here('statistics-task.ts')];
  return JSON.parse(execFileSync(process.execPath, [...options, name, lives, answers], { encoding: 'utf8' })) as OurRun;
}

function runTheirs(name: string, lives: string, answers: string): TheirRun {
  const options = [here('statistics.R'), name, lives, answers, columnNames.join(','), String(LIVES)];
  return JSON.parse(execFileSync('Rscript', ['--vanilla', ...options], { encoding: 'utf8' })) as TheirRun;
}

/** Why R cannot take part, or null. */
function whyNoR(): string | null {
  try {
    execFileSync('Rscript', ['--vanilla', '-e', 'library(survival)'], { stdio: 'ignore' });
    return null;
  } catch {
    return 'R with its package survival is missing (Debian: r-base-core r-cran-survival): our own times only';
  }
}

const median = (values: readonly number[]): number => {
  const sorted = [...values].sort((a, b) => a - b);
  return ((sorted[(sorted.length - 1) >> 1] as number) + (sorted[sorted.length >> 1] as number)) / 2;
};

const numbersIn = (file: string): Float64Array => new Float64Array(new Uint8Array(readFileSync(file)).buffer);

/** One task by us and, at once after it, by R: what else the machine does meets both alike. */
function measure(name: string, folder: string, withR: boolean): Measured & { readonly version?: string } {
  const task = tasks[name] as (typeof tasks)[string];
  const [lives, ours, theirs] = ['lives', 'ours', 'theirs'].map((file) => join(folder, file)) as [
    string,
    string,
    string,
  ];
  const { seconds, grownBytes, inputBytes } = runOurs(name, lives, ours);
  const r = withR ? runTheirs(name, lives, theirs) : {};
  const compared: Comparison | null = r.seconds ? compareAnswers(numbersIn(ours), numbersIn(theirs)) : null;
  return {
    name,
    task,
    seconds: median(seconds),
    memory: grownBytes / inputBytes,
    theirs: r.seconds ? { seconds: median(r.seconds), reading: r.reading ?? NaN } : null,
    compared,
    gap: task.within === undefined ? null : (numbersIn(ours)[0] ?? null),
    ...(r.version ? { version: r.version } : {}),
  };
}

/** Times every task on the same million lives, prints the table; false where a floor does not hold. `only` picks tasks by a part of their name. */
export function benchStatistics(only = ''): boolean {
  const folder = mkdtempSync(join(tmpdir(), 'hubcause-bench-'));
  try {
    writeMillionLives(join(folder, 'lives'));
    const missing = whyNoR();
    const chosen = Object.keys(tasks).filter((name) => name.startsWith(only));
    const measured = chosen.map((name) => {
      process.stderr.write(`${name} … `);
      return measure(name, folder, missing === null);
    });
    process.stderr.write('\n');
    const { table, held } = resultsTable(measured);
    const theirs = missing ?? measured.find(({ version }) => version)?.version ?? '';
    process.stdout.write(`${table}\n${cpus()[0]?.model ?? ''}; Node ${process.version}; ${theirs}\n`);
    return held;
  } finally {
    rmSync(folder, { recursive: true });
  }
}
