import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, beforeEach } from 'vitest';
import { run } from '../../lib/cli/main.ts';

export interface Called {
  readonly code: number;
  readonly out: string;
  readonly err: string;
}

/** Runs one call of the command line, and keeps what it wrote. */
export async function call(...parts: string[]): Promise<Called> {
  const out: string[] = [];
  const err: string[] = [];
  const code = await run(parts, { out: (text) => out.push(text), err: (text) => err.push(text) });
  return { code, out: out.join('\n'), err: err.join('\n') };
}

/** A folder of its own for every test, gone after it; `put` writes a file into it and says where. */
export function useFolder(): { readonly folder: () => string; readonly put: (name: string, text: string) => string } {
  let held = '';
  beforeEach(() => {
    held = mkdtempSync(join(tmpdir(), 'hubcause-cli-'));
  });
  afterEach(() => rmSync(held, { recursive: true, force: true }));
  const put = (name: string, text: string) => {
    const path = join(held, name);
    writeFileSync(path, text);
    return path;
  };
  return { folder: () => held, put };
}
