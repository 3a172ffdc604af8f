import { createHash } from 'node:crypto';

const always = [
  "default-src 'none'",
  "connect-src 'self'",
  "worker-src 'self'",
  "style-src 'self' 'unsafe-inline'",
  "img-src 'self' data: blob:",
  "font-src 'self'",
  "manifest-src 'self'",
  "base-uri 'none'",
  "form-action 'none'",
];

const inlineScript = /<script(?![^>]*\bsrc=)[^>]*>([\s\S]*?)<\/script>/g;

const hashOf = (text: string) => `'sha256-${createHash('sha256').update(text).digest('base64')}'`;

/** Hashes of a page's inline scripts, so that no other inline script can run. */
export const scriptHashes = (html: string): string[] => [
  ...new Set([...html.matchAll(inlineScript)].map(([, text]) => hashOf(text ?? ''))),
];

/** The content security policy: this origin only; WebAssembly for the engine, no eval. */
export const contentPolicy = (hashes: readonly string[] = []): string =>
  [...always, `script-src 'self' 'wasm-unsafe-eval' ${hashes.join(' ')}`.trim()].join('; ');
