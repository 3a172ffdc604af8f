import type { Comparison } from './compare-answers.ts';
import type { Task } from './tasks.ts';

export interface Measured {
  readonly name: string;
  readonly task: Task;
  readonly seconds: number;
  /** Growth of the process while the task ran, as a multiple of the columns handed over. */
  readonly memory: number;
  readonly theirs: { readonly seconds: number; readonly reading: number } | null;
  readonly compared: Comparison | null;
  /** Of a Turnbull curve, per life. */
  readonly gap: number | null;
}

/** Issue-wide bound on memory, and on how far two programs' answers may lie apart. */
const MOST_MEMORY = 10;
const MOST_DIFFERENCE = 1e-5;

/** As Markdown, and whether every floor holds. */
export function resultsTable(measured: readonly Measured[]): { table: string; held: boolean } {
  const head = ['task', 'seconds', 'R seconds', 'ratio', 'floor', 'largest difference', 'memory / input', 'met'];
  const rows = measured.map((one) => {
    const { claim, met } = judge(one, measured);
    const ratio = one.theirs && one.theirs.seconds / one.seconds;
    return {
      met,
      cells: [
        one.task.label,
        one.seconds.toFixed(3),
        one.theirs?.seconds.toFixed(2) ?? '',
        ratio === null ? '' : `${ratio.toFixed(1)}×`,
        claim,
        difference(one),
        `${one.memory.toFixed(1)}×`,
        met ? 'yes' : 'NO',
      ],
    };
  });
  const lines = [head, head.map(() => '---'), ...rows.map(({ cells }) => cells)];
  const widths = head.map((_, column) => Math.max(...lines.map((line) => (line[column] as string).length)));
  const table = lines.map((line) => `| ${line.map((cell, j) => cell.padEnd(widths[j] as number)).join(' | ')} |`);
  return { table: table.join('\n'), held: rows.every(({ met }) => met) };
}

function judge({ task, seconds, memory, theirs, compared, gap }: Measured, all: readonly Measured[]) {
  const sound = memory < MOST_MEMORY && (compared?.largest ?? gap ?? 0) <= MOST_DIFFERENCE;
  const { floor, within, most } = task;
  if (floor !== undefined)
    return { claim: `${floor}×`, met: sound && (theirs === null || theirs.seconds >= floor * seconds) };
  if (within !== undefined) return { claim: `${within} s`, met: sound && seconds <= within };
  const other = most && all.find(({ name }) => name === most.of);
  if (!other) return { claim: '', met: sound };
  const claim = `≤ ${most.times} of it: ${(seconds / other.seconds).toFixed(2)}`;
  return { claim, met: sound && seconds <= most.times * other.seconds };
}

function difference({ compared, gap }: Measured): string {
  if (compared) return `${compared.largest.toExponential(1)} of ${compared.numbers}`;
  return gap === null ? '' : `${gap.toExponential(1)} to the top`;
}
