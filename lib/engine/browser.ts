import { AsyncDuckDB, VoidLogger } from '@duckdb/duckdb-wasm';
import type { Engine } from './engine.ts';
import { WasmEngine } from './wasm-engine.ts';

/**
 * DuckDB-WASM in a browser. To be called inside a worker of ours: it starts DuckDB's own worker,
 * which `close` ends, giving its memory back. Takes about three seconds.
 */
export async function openBrowserEngine(): Promise<Engine> {
  const worker = new Worker(new URL('@duckdb/duckdb-wasm/dist/duckdb-browser-eh.worker.js', import.meta.url));
  const database = new AsyncDuckDB(new VoidLogger(), worker);
  try {
    await database.instantiate(new URL('@duckdb/duckdb-wasm/dist/duckdb-eh.wasm', import.meta.url).href);
    await database.open({});
    const connection = await database.connect();
    const number = connection.useUnsafe((_, held) => held);
    // Each step already crosses to the other worker and back, which lets an abort in.
    const engine = new WasmEngine(
      database,
      number,
      () => Promise.resolve(),
      () => database.terminate(),
    );
    await engine.goOffline();
    await engine.packInMemory();
    return engine;
  } catch (error) {
    await database.terminate();
    throw error;
  }
}
