import { DuckDBInstance } from '@duckdb/node-api';
import { NativeEngine } from './native-engine.ts';

export interface NodeEngineOptions {
  /** File of the database; in memory if absent. */
  readonly path?: string;
  /** Such as `4GB`; what does not fit spills to disk beside the database. */
  readonly memoryLimit?: string;
  readonly threads?: number;
}

/** Native DuckDB, for the command line and for histories too large for a browser's tab. */
export async function openNodeEngine(options: NodeEngineOptions = {}): Promise<NativeEngine> {
  const instance = await DuckDBInstance.create(options.path ?? ':memory:', {
    ...(options.memoryLimit === undefined ? {} : { memory_limit: options.memoryLimit }),
    ...(options.threads === undefined ? {} : { threads: String(options.threads) }),
  });
  const engine = new NativeEngine(instance, await instance.connect());
  await engine.goOffline();
  return engine;
}

export { openTableFile, saveTableFile } from './table-files.ts';
export type { NativeEngine } from './native-engine.ts';
