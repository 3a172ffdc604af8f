import type { CaseResult } from './run-case.ts';

/** Cases counted by what was done to them, and those that broke a law told as they come. */
export class Tally {
  failures = 0;
  readonly #counts = new Map<string, Map<string, number>>();
  readonly #outcomes = new Map<string, number>();
  #cases = 0;
  #slowest = { number: 0, milliseconds: 0 };
  readonly #start = performance.now();

  constructor(private readonly seed: number) {}

  add({ number, format, mutations, outcome, milliseconds, broken }: CaseResult): void {
    this.#cases++;
    this.#outcomes.set(outcome, (this.#outcomes.get(outcome) ?? 0) + 1);
    for (const name of mutations) this.#count('mutation', name);
    this.#count('format', format);
    if (milliseconds > this.#slowest.milliseconds) this.#slowest = { number, milliseconds };
    if (broken.length > 0)
      this.#fail(number, `${format}, ${mutations.join(' + ')}\n  ${broken.slice(0, 5).join('\n  ')}`);
    if (this.#cases % 500 === 0) process.stderr.write(`${this.#cases} cases, ${this.failures} failed\n`);
  }

  /** A case that gave no result. */
  lost(number: number, why: string): void {
    this.#cases++;
    this.#fail(number, why);
  }

  text(): string {
    const seconds = Math.round((performance.now() - this.#start) / 1000);
    const outcomes = [...this.#outcomes].map(([outcome, count]) => `${count} ${outcome}`).join(', ');
    return [
      ...[...this.#counts].flatMap(([kind, counts]) => [`by ${kind}`, ...lines(counts)]),
      `${this.#cases} cases of seed ${this.seed} in ${seconds} s: ${outcomes}; ${this.failures} failed`,
      `the slowest was case ${this.#slowest.number}, ${Math.round(this.#slowest.milliseconds)} ms`,
      '',
    ].join('\n');
  }

  #fail(number: number, why: string): void {
    this.failures++;
    process.stdout.write(`FAILED --seed ${this.seed} --case ${number}: ${why}\n`);
  }

  #count(kind: string, name: string): void {
    const counts = this.#counts.get(kind) ?? new Map<string, number>();
    this.#counts.set(kind, counts.set(name, (counts.get(name) ?? 0) + 1));
  }
}

const lines = (counts: ReadonlyMap<string, number>): string[] =>
  [...counts].sort(([a], [b]) => (a < b ? -1 : 1)).map(([name, count]) => `${String(count).padStart(7)}  ${name}`);
