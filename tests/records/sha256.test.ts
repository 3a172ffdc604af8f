import { describe, expect, it } from 'vitest';
import { startSha256 } from '../../lib/records/sha256.ts';

/** The examples of FIPS 180-2, appendix B. */
const examples = [
  ['abc', 'ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad'],
  [
    'abcdbcdecdefdefgefghfghighijhijkijkljklmklmnlmnomnopnopq',
    '248d6a61d20638b8e5c026930c3e6039a33ce45964ff2167f6ecedd419db06c1',
  ],
] as const;

describe.each([
  ['of Node', undefined],
  ['of a browser', null],
])('the SHA-256 %s', (_, own) => {
  it.each(examples)('is that of the standard for %s', async (text, expected) => {
    const hash = await startSha256(own);
    for (const letter of text) hash.update(new TextEncoder().encode(letter));
    expect(hash.digest('hex')).toBe(expected);
  });
});
