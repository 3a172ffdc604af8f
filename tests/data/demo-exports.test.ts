import { readFileSync, readdirSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { messyFleet } from '../../data/demo/messy/messy-fleet.ts';
import { heldBytes } from '../../lib/records/source-bytes.ts';
import { zipMembers } from '../../lib/records/zip-archive.ts';

const folder = new URL('../../data/demo-exports/', import.meta.url);

/** What is in an archive; how it is packed may differ between versions of the packer. */
async function unpacked(bytes: Uint8Array): Promise<Record<string, string>> {
  const members = await zipMembers(heldBytes(new Uint8Array(bytes)));
  const texts = members.map(async ({ name, stream }) => {
    const pieces: Uint8Array[] = [];
    for await (const piece of stream()) pieces.push(piece);
    return [name, Buffer.concat(pieces).toString('utf8')] as const;
  });
  return Object.fromEntries(await Promise.all(texts));
}

describe('the shipped exports of five shops', () => {
  const { exports, documents } = messyFleet();
  const files = [...exports, ...documents.map(({ name, text }) => ({ name, bytes: new TextEncoder().encode(text) }))];
  const shipped = (name: string) => new Uint8Array(readFileSync(new URL(name, folder)));

  it('are what the generator makes, file for file', async () => {
    expect(readdirSync(folder).sort()).toEqual(files.map(({ name }) => name).sort());
    for (const { name, bytes } of files) {
      if (/\.(xlsx|zip)$/.test(name)) expect(await unpacked(shipped(name)), name).toEqual(await unpacked(bytes));
      else expect(Buffer.compare(shipped(name), bytes), name).toBe(0);
    }
  });

  it('stay under a megabyte and a half', () => {
    expect(files.reduce((sum, { bytes }) => sum + bytes.length, 0)).toBeLessThan(1_500_000);
  });
});
