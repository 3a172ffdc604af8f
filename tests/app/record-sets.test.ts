import * as Comlink from 'comlink';
import { afterEach, beforeEach, describe, expect, test, vi } from 'vitest';
import { RecordSets } from '../../app/_state/record-sets.ts';
import type { RecordDesk } from '../../app/_state/record-desk.ts';
import type { OpenedRecords } from '../../app/_state/opened-records.ts';
import { defaultChoices } from '../../shared/choices.ts';
import type { ReadReport } from '../../shared/record-set.ts';

const report = (name: string): ReadReport => ({
  ...{
    name,
    invented: false,
    observedFrom: null,
    observedTo: null,
    fingerprint: 'f',
    messages: [],
    procedures: [],
    choices: defaultChoices,
    files: [],
  },
});
const opened = (name: string): OpenedRecords => ({
  ...{ report: report(name), vehicles: 1, lives: 2, miles: 3 },
  choices: { columns: [], deviations: [], firstYear: null, lastYear: null },
  settings: { procedures: [], choices: defaultChoices },
  fingerprint: 'f',
  maps: [],
});

/** A worker without a thread: its desk answers over a real message channel. */
class DeskWorker extends EventTarget {
  static desk: Partial<RecordDesk>;
  static started: DeskWorker[] = [];
  ended = false;
  readonly endpoint: Comlink.Endpoint;
  private readonly ports: MessagePort[];
  constructor() {
    super();
    const { port1, port2 } = new MessageChannel();
    this.ports = [port1, port2];
    this.endpoint = port1;
    port1.start();
    Comlink.expose(DeskWorker.desk, port2);
    DeskWorker.started.push(this);
  }
  postMessage(message: unknown, transfer: Transferable[] = []) {
    this.endpoint.postMessage(message, transfer);
  }
  override addEventListener(type: string, listener: EventListenerOrEventListenerObject) {
    if (type === 'message') this.endpoint.addEventListener(type, listener);
    else super.addEventListener(type, listener);
  }
  override removeEventListener(type: string, listener: EventListenerOrEventListenerObject) {
    if (type === 'message') this.endpoint.removeEventListener(type, listener);
    else super.removeEventListener(type, listener);
  }
  terminate() {
    this.ended = true;
    for (const port of this.ports) port.close();
  }
}

const never = new Promise<never>(() => undefined);
const files = [{ name: 'services.csv', file: {} as File }];

beforeEach(() => {
  DeskWorker.started = [];
  vi.stubGlobal('Worker', DeskWorker);
});
afterEach(() => {
  for (const worker of DeskWorker.started) worker.terminate();
  vi.unstubAllGlobals();
});

describe('opening records', () => {
  test('says what is being done, then what is open', async () => {
    DeskWorker.desk = {
      openDemo: async (told) => {
        // Over the channel the call comes back as a promise, whatever its type says.
        await Promise.resolve(told({ doing: 'Reading units.csv', share: 0.5 }));
        return opened('Demo');
      },
    };
    const sets = new RecordSets();
    const said: (string | undefined)[] = [];
    sets.subscribe(() => said.push(sets.now().opening?.progress.doing));
    await sets.openDemo();
    expect(said).toEqual(expect.arrayContaining(['Starting the engine', 'Reading units.csv']));
    expect(sets.now()).toMatchObject({ open: { report: { name: 'Demo' }, demo: true }, opening: null, trouble: null });
  });

  test('takes the place of the last set only once it has been read', async () => {
    const sets = new RecordSets();
    DeskWorker.desk = {
      openDemo: () => Promise.resolve(opened('Demo')),
      openFiles: () => Promise.resolve(opened('Yours')),
    };
    await sets.openDemo();
    const [first] = DeskWorker.started;
    const opening = sets.openFiles(files);
    expect(sets.now().open?.report.name).toBe('Demo');
    expect(first?.ended).toBe(false);
    await opening;
    expect(sets.now().open?.report.name).toBe('Yours');
    expect(first?.ended).toBe(true);
  });

  test('cancelled, leaves the last set as it was and ends its own worker', async () => {
    const sets = new RecordSets();
    DeskWorker.desk = { openDemo: () => Promise.resolve(opened('Demo')), openFiles: () => never };
    await sets.openDemo();
    void sets.openFiles(files);
    sets.cancel();
    expect(sets.now()).toMatchObject({ open: { report: { name: 'Demo' } }, opening: null });
    expect(DeskWorker.started.map(({ ended }) => ended)).toEqual([false, true]);
  });

  test('of nothing usable says so with the account of the files, and keeps the last set', async () => {
    const sets = new RecordSets();
    DeskWorker.desk = {
      openDemo: () => Promise.resolve(opened('Demo')),
      openFiles: () => Promise.resolve(report('Bad')),
    };
    await sets.openDemo();
    await sets.openFiles(files);
    expect(sets.now()).toMatchObject({
      open: { report: { name: 'Demo' } },
      trouble: { kind: 'nothing-usable', report: { name: 'Bad' } },
    });
  });

  test('tells an engine that cannot start from records that cannot be read', async () => {
    const sets = new RecordSets();
    DeskWorker.desk = {
      openDemo: () => Promise.reject(Object.assign(new Error('no WebAssembly'), { name: 'EngineFailure' })),
      openFiles: () => Promise.reject(new Error('the stream broke')),
    };
    await sets.openDemo();
    expect(sets.now().trouble).toEqual({ kind: 'engine', message: 'no WebAssembly' });
    await sets.openFiles(files);
    expect(sets.now().trouble).toEqual({ kind: 'reading', message: 'the stream broke' });
  });

  test('forgets by ending the worker', async () => {
    const sets = new RecordSets();
    DeskWorker.desk = { openDemo: () => Promise.resolve(opened('Demo')) };
    await sets.openDemo();
    sets.forget();
    expect(sets.now()).toMatchObject({ open: null, opening: null });
    expect(DeskWorker.started[0]?.ended).toBe(true);
  });

  test('says so when a worker dies later, as in a tab out of memory', async () => {
    const sets = new RecordSets();
    DeskWorker.desk = { openDemo: () => Promise.resolve(opened('Demo')) };
    await sets.openDemo();
    DeskWorker.started[0]?.dispatchEvent(Object.assign(new Event('error'), { message: 'out of memory' }));
    // What the engine said, and what can be done.
    const told = expect.stringMatching(
      /more memory than a browser tab may have.*command line.*out of memory/s,
    ) as string;
    await vi.waitFor(() => expect(sets.now().trouble).toEqual({ kind: 'engine', message: told }));
    expect(sets.now().open).toBeNull();
  });
});
