import type { Engine } from '../../lib/engine/engine.ts';
import type { FuzzCase } from './fuzz-case.ts';
import { accountLaws } from './laws/accounts.ts';
import { exportLaw, rebuildLaw } from './laws/exports.ts';
import { readCase } from './laws/read-case.ts';
import { truthLaws } from './laws/truth.ts';
import { makeCase } from './make-case.ts';

/** Lives are rebuilt in one case of so many, as that takes longer than all the rest. */
const rebuiltEvery = 50;
/** Of processor time, which does not hang on what else the machine has to do. */
const mostMilliseconds = 20_000;
const mostGrown = 2 ** 30;

export interface CaseResult {
  readonly number: number;
  readonly format: string;
  readonly mutations: readonly string[];
  readonly outcome: 'kept whole' | 'rows set aside' | 'refused';
  readonly milliseconds: number;
  /** Laws that were broken. */
  readonly broken: readonly string[];
}

/** Makes a case, reads it as the app and the command line do, and holds it to the laws. */
export async function runCase(engine: Engine, seed: number, number: number): Promise<CaseResult> {
  const rebuild = number % rebuiltEvery === 0;
  const fuzz = await makeCase(seed, number, rebuild);
  const { format, mutations } = fuzz;
  const memory = process.resourceUsage().maxRSS;
  const start = process.cpuUsage();
  const told = await judged(engine, fuzz, rebuild).catch((error: unknown) => ({
    outcome: 'refused' as const,
    broken: [`threw ${error instanceof Error ? (error.stack ?? error.message) : String(error)}`],
  }));
  const { user, system } = process.cpuUsage(start);
  const milliseconds = (user + system) / 1000;
  const grown = (process.resourceUsage().maxRSS - memory) * 1024;
  const slow = milliseconds > mostMilliseconds ? [`took ${Math.round(milliseconds)} ms`] : [];
  const large = grown > mostGrown ? [`took ${Math.round(grown / 2 ** 20)} MB`] : [];
  return { number, format, mutations, milliseconds, ...told, broken: [...told.broken, ...slow, ...large] };
}

async function judged(
  engine: Engine,
  fuzz: FuzzCase,
  rebuild: boolean,
): Promise<Pick<CaseResult, 'outcome' | 'broken'>> {
  const read = await readCase(engine, fuzz);
  const broken = [...accountLaws(read)];
  for await (const law of truthLaws(engine, read)) broken.push(law);
  for await (const law of exportLaw(engine, read)) broken.push(law);
  if (rebuild) for await (const law of rebuildLaw(engine, read)) broken.push(law);
  const refused = read.own.some((file) => file.refused !== null);
  const aside = read.own.some(({ setAside }) => setAside > 0);
  return { outcome: refused ? 'refused' : aside ? 'rows set aside' : 'kept whole', broken };
}
