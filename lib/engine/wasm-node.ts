import { createRequire } from 'node:module';
import type * as blocking from '@duckdb/duckdb-wasm/blocking';
import type { Engine } from './engine.ts';
import { WasmEngine } from './wasm-engine.ts';

/**
 * The browser's engine core in Node, through its blocking bindings: for tests that must see the
 * same answers from both cores. Takes about three seconds.
 */
export async function openWasmEngine(): Promise<Engine> {
  const require = createRequire(import.meta.url);
  const { createDuckDB, VoidLogger, NODE_RUNTIME } = require('@duckdb/duckdb-wasm/blocking') as typeof blocking;
  const core = (name: string) => ({
    mainModule: require.resolve(`@duckdb/duckdb-wasm/dist/duckdb-${name}.wasm`),
    mainWorker: '',
  });
  const database = await createDuckDB({ mvp: core('mvp'), eh: core('eh') }, new VoidLogger(), NODE_RUNTIME);
  await database.instantiate(() => undefined);
  database.open({});
  const connection = database.connect();
  const number = connection.useUnsafe((_, held) => held);
  const pause = () => new Promise<void>((resume) => setImmediate(resume));
  const end = () => {
    connection.close();
    database.reset();
    return Promise.resolve();
  };
  const engine = new WasmEngine(database, number, pause, end);
  await engine.goOffline();
  await engine.packInMemory();
  return engine;
}
