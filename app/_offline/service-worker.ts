/**
 * Keeps the whole export for opening without a network. Built by app/_export/write-service-worker.ts,
 * which writes the list of files in front. It stores the app's own files and never anything else:
 * no record, no answer, no address with a view in it.
 *
 * One worker serves the files of one build only, so that no page is half old and half new. The next
 * build waits beside it, complete and checked, and takes over at the next load when no other tab
 * still runs the old one.
 */
declare const exported: {
  /** Told by the content of all files. */
  readonly version: string;
  /** SHA-256 by path below the scope; a page by the path it is asked for at. */
  readonly files: Readonly<Record<string, string>>;
};

interface Lasting extends Event {
  waitUntil(work: Promise<unknown>): void;
}
interface Fetching extends Event {
  readonly request: Request;
  respondWith(response: Promise<Response>): void;
}
interface Worker {
  readonly registration: ServiceWorkerRegistration;
  readonly clients: { matchAll(options: { type: 'window' }): Promise<readonly unknown[]> };
  skipWaiting(): Promise<void>;
  addEventListener(type: 'install' | 'activate', listener: (event: Lasting) => void): void;
  addEventListener(type: 'fetch', listener: (event: Fetching) => void): void;
  addEventListener(type: 'message', listener: (event: MessageEvent<unknown>) => void): void;
}

(() => {
  const worker = globalThis as unknown as Worker;
  const { scope } = worker.registration;
  const prefix = `hubcause ${scope} `;
  const cacheName = `${prefix}${exported.version}`;
  const listAddress = new URL('exported-files.json', scope).href;
  const atOnce = 6;

  const hexOf = (bytes: ArrayBuffer) =>
    Array.from(new Uint8Array(bytes), (byte) => byte.toString(16).padStart(2, '0')).join('');

  async function keptCaches(): Promise<string[]> {
    return (await caches.keys()).filter((name) => name.startsWith(prefix));
  }

  /** A file of an older build that has not changed since. */
  async function keptBefore(path: string, hash: string): Promise<Response | undefined> {
    for (const name of await keptCaches()) {
      if (name === cacheName) continue;
      const list = await caches.match(listAddress, { cacheName: name });
      const files = ((await list?.json()) ?? {}) as Readonly<Record<string, string>>;
      if (files[path] === hash) return caches.match(new URL(path, scope).href, { cacheName: name });
    }
    return undefined;
  }

  /** @throws Error where the server gives another file than this build has: it is then not kept at all */
  async function fetched(path: string, hash: string): Promise<Response> {
    // What names its content never changes; anything else is asked for anew.
    const cache = path.startsWith('_next/static/') ? 'default' : 'no-cache';
    const response = await fetch(new URL(path, scope).href, { cache, redirect: 'error' });
    const copy = response.clone();
    const found = hexOf(await crypto.subtle.digest('SHA-256', await response.arrayBuffer()));
    if (!response.ok || found !== hash) throw new Error(`${path} is not of the build ${exported.version}`);
    return copy;
  }

  async function keepAll(): Promise<void> {
    const cache = await caches.open(cacheName);
    const waiting = Object.entries(exported.files);
    const keepSome = async () => {
      for (let next = waiting.pop(); next !== undefined; next = waiting.pop()) {
        const [path, hash] = next;
        const address = new URL(path, scope).href;
        if ((await cache.match(address)) === undefined)
          await cache.put(address, (await keptBefore(path, hash)) ?? (await fetched(path, hash)));
      }
    };
    await Promise.all(Array.from({ length: atOnce }, keepSome));
    await cache.put(listAddress, Response.json(exported.files));
  }

  async function dropOlder(): Promise<void> {
    for (const name of await keptCaches()) if (name !== cacheName) await caches.delete(name);
  }

  /**
   * A worker takes its address, and with it what it was asked to do, from the response: one that is
   * made here has none of its own and leaves it the address that was asked for.
   */
  function withoutAddress({ body, status, headers: given }: Response): Response {
    const headers = new Headers(given);
    // Of the body as it travelled: it lies here unpacked.
    for (const name of ['content-encoding', 'content-length']) headers.delete(name);
    return new Response(body, { status, headers });
  }

  async function kept(address: string, request: Request): Promise<Response> {
    const found = await caches.match(address, { cacheName });
    return found ? withoutAddress(found) : fetch(request);
  }

  async function page(address: string, request: Request): Promise<Response> {
    const { waiting } = worker.registration;
    if (waiting && (await worker.clients.matchAll({ type: 'window' })).length < 2) {
      waiting.postMessage('take over');
      // An icon of its own: browsers would ask for one at the root of the server.
      const nothing = '<!doctype html><link rel="icon" href="data:,"><title>Hubcause</title>';
      return new Response(nothing, { headers: { Refresh: '0', 'Content-Type': 'text/html' } });
    }
    return kept(address, request);
  }

  worker.addEventListener('install', (event) => event.waitUntil(keepAll()));
  worker.addEventListener('activate', (event) => event.waitUntil(dropOlder()));
  worker.addEventListener('message', ({ data }) => {
    if (data === 'take over') void worker.skipWaiting();
  });
  worker.addEventListener('fetch', (event) => {
    const { request } = event;
    if (!['GET', 'HEAD'].includes(request.method) || !request.url.startsWith(scope)) return;
    // The view in an address is the page's own business: the file is the same for all.
    const address = `${new URL(request.url).origin}${new URL(request.url).pathname}`;
    if (exported.files[address.slice(scope.length)] === undefined) return;
    event.respondWith(request.mode === 'navigate' ? page(address, request) : kept(address, request));
  });
})();
