import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { DuckDBInstance } from '@duckdb/node-api';
import { NativeEngine } from './native-engine.ts';

export interface NodeEngineOptions {
  /** File of the database; in memory if absent. */
  readonly path?: string;
  /** Such as `4GB`; what does not fit spills to disk beside the database. */
  readonly memoryLimit?: string;
  readonly threads?: number;
}

/** Native DuckDB, for the command line and for histories too large for a browser's tab. @param ended called once it is closed */
export async function openNodeEngine(options: NodeEngineOptions = {}, ended?: () => void): Promise<NativeEngine> {
  const instance = await DuckDBInstance.create(options.path ?? ':memory:', {
    ...(options.memoryLimit === undefined ? {} : { memory_limit: options.memoryLimit }),
    ...(options.threads === undefined ? {} : { threads: String(options.threads) }),
  });
  const engine = new NativeEngine(instance, await instance.connect(), ended);
  await engine.goOffline();
  if (options.path === undefined) await engine.packInMemory();
  return engine;
}

/** Files of up to this many bytes are worked on in memory. */
const inMemoryBytes = 1e9;
const heldOfMore = '4GB';

/**
 * An engine for files of so many bytes: in memory where they are few, else over a database in the system's
 * folder for temporary files, of which a bounded part is held at a time. It goes when the engine is closed.
 */
export function openWorkingEngine(bytes: number, inMemory = inMemoryBytes): Promise<NativeEngine> {
  if (bytes <= inMemory) return openNodeEngine();
  const folder = mkdtempSync(join(tmpdir(), 'hubcause-'));
  return openNodeEngine({ path: join(folder, 'records.duckdb'), memoryLimit: heldOfMore }, () =>
    rmSync(folder, { recursive: true, force: true }),
  );
}

export { openTableFile, saveTableFile } from './table-files.ts';
export type { NativeEngine } from './native-engine.ts';
