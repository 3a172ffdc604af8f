import { readFileSync } from 'node:fs';
import { createServer, type Server } from 'node:http';
import type { AddressInfo } from 'node:net';
import { join } from 'node:path';
import sirv from 'sirv';
import { contentPolicy, scriptHashes } from './content-policy.ts';

export interface ServedExport {
  readonly url: string;
  close(): Promise<void>;
}

/** The page's own hashes where a page is asked for; the bare policy for workers and everything else. */
function policyFor(folder: string, path: string): string {
  const page = path.endsWith('.html') ? path : /\.[a-z0-9]+$/i.test(path) ? null : join(path, 'index.html');
  if (page === null) return contentPolicy();
  return `${contentPolicy(scriptHashes(readFileSync(join(folder, page), 'utf8')))}; frame-ancestors 'none'`;
}

const listening = (server: Server, port: number) =>
  new Promise<void>((resolve, reject) => {
    server.once('error', reject);
    // Only this machine can reach it: the records are private.
    server.listen(port, '127.0.0.1', resolve);
  });

/**
 * Serves a finished export on this machine only, below `basePath`.
 * @param port 0 for any free one
 */
export async function serveExport(folder: string, basePath = '', port = 0): Promise<ServedExport> {
  const policies = new Map<string, string>();
  const serve = sirv(folder, {
    gzip: true,
    setHeaders(response, path) {
      let policy = policies.get(path);
      if (policy === undefined) policies.set(path, (policy = policyFor(folder, path)));
      response.setHeader('Content-Security-Policy', policy);
      response.setHeader('X-Content-Type-Options', 'nosniff');
      response.setHeader('Referrer-Policy', 'no-referrer');
      response.setHeader(
        'Cache-Control',
        path.includes('/_next/static/') ? 'public, max-age=31536000, immutable' : 'no-cache',
      );
    },
  });
  const server = createServer((request, response) => {
    const url = request.url ?? '/';
    const notFound = () => void response.writeHead(404, { 'Content-Type': 'text/plain' }).end('not found');
    if (!url.startsWith(`${basePath}/`)) {
      notFound();
      return;
    }
    request.url = url.slice(basePath.length);
    serve(request, response, notFound);
  });
  await listening(server, port);
  const { port: taken } = server.address() as AddressInfo;
  const close = () => new Promise<void>((resolve) => (server.closeAllConnections(), server.close(() => resolve())));
  return { url: `http://127.0.0.1:${taken}${basePath}/`, close };
}
