import type { Engine } from '../../lib/engine/engine.ts';
import { openNodeEngine } from '../../lib/engine/node.ts';
import { openWasmEngine } from '../../lib/engine/wasm-node.ts';

/** The WASM core takes three seconds to open, and several times that beside other tests, in ms. */
export const openingTime = 60_000;

/** Both cores behind the one interface: whatever is asked of an engine is asked of each. */
export const engines: readonly { readonly name: string; readonly open: () => Promise<Engine> }[] = [
  { name: 'native', open: () => openNodeEngine() },
  { name: 'WASM', open: () => openWasmEngine() },
];
