import { spawnSync } from 'node:child_process';
import { existsSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { format, resolveConfig } from 'prettier';

/**
 * Runs the statistics tests with `check` noting its worst errors and writes them, function by source, between the
 * markers of README.md. Fails when a test fails or a case of the pack is replayed by no test.
 */
const here = fileURLToPath(new URL('.', import.meta.url));
const root = join(here, '../..');
const [BEGIN, END] = ['<!-- table: begin -->', '<!-- table: end -->'];

interface Note {
  readonly method: string;
  readonly source: string;
  readonly worst: number;
  readonly tolerance: number;
  readonly compared: number;
}

const folder = mkdtempSync(join(tmpdir(), 'reference-'));
const log = join(folder, 'notes.jsonl');
const run = spawnSync(
  'npx',
  ['vitest', 'run', '--config', 'tests/config/vitest.config.ts', 'tests/statistics', ...process.argv.slice(2)],
  {
    cwd: root,
    env: { ...process.env, HUBCAUSE_REFERENCE_LOG: log },
    stdio: 'inherit',
  },
);
const lines = existsSync(log) ? readFileSync(log, 'utf8').trim().split('\n') : [];
rmSync(folder, { recursive: true });
const entries = lines.map((line) => JSON.parse(line) as Note | { readonly replayed: string });
const notes = entries.filter((entry): entry is Note => 'method' in entry);
const replayed = new Set(entries.map((entry) => ('replayed' in entry ? entry.replayed : '')));
const cases = readdirSync(join(here, 'expected')).map((file) => file.replace(/\.json$/, ''));
const missing = cases.filter((id) => !replayed.has(id));

const readme = join(here, 'README.md');
const text = readFileSync(readme, 'utf8');
const table = ['', ...summary(), '', ...rows(), ''].join('\n');
const written = text.slice(0, text.indexOf(BEGIN) + BEGIN.length) + table + text.slice(text.indexOf(END));
writeFileSync(readme, await format(written, { ...(await resolveConfig(readme)), filepath: readme }));
if (missing.length > 0) process.stderr.write(`replayed by no test: ${missing.join(', ')}\n`);
process.exitCode = run.status === 0 && missing.length === 0 ? 0 : 1;

function summary(): string[] {
  const numbers = notes.reduce((sum, { compared }) => sum + compared, 0).toLocaleString('en');
  const replays = `${cases.length - missing.length} of ${cases.length} cases of the pack are replayed, ${numbers} numbers compared.`;
  return missing.length === 0 ? [replays] : [replays, '', `Not yet: ${missing.join(', ')}.`];
}

function rows(): string[] {
  const groups = new Map<string, Note[]>();
  for (const note of notes) {
    const key = `${note.method}\n${note.source}`;
    groups.set(key, [...(groups.get(key) ?? []), note]);
  }
  const cells = [...groups]
    .sort(([one], [other]) => one.localeCompare(other, 'en'))
    .map(([key, group]) => {
      const [method, source] = key.split('\n') as [string, string];
      // Where several tolerances apply, the row shows the comparison that comes nearest to its own; counts that must
      // be equal outright (tolerance 0) have no nearness to show.
      const share = ({ worst, tolerance }: Note) => (tolerance > 0 ? worst / tolerance : -1);
      const nearest = group.reduce((most, note) => (share(note) > share(most) ? note : most));
      const compared = group.reduce((sum, note) => sum + note.compared, 0);
      const worst = nearest.worst === 0 ? '0' : nearest.worst.toExponential(1);
      return `| ${escape(method)} | ${escape(source)} | ${compared} | ${worst} | ${nearest.tolerance.toExponential(0)} |`;
    });
  return ['| function | source | numbers | worst relative error | tolerance |', '|---|---|--:|--:|--:|', ...cells];
}

function escape(cell: string): string {
  return cell.replaceAll('|', '\\|');
}
