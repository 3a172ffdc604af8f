import type { Random } from '../../../data/demo/random.ts';
import { pick, whole } from '../pick.ts';
import type { BytesMutation } from './mutation.ts';

const spliced = (bytes: Uint8Array, at: number, gone: number, put: Uint8Array = new Uint8Array(0)): Uint8Array => {
  const all = new Uint8Array(bytes.length - gone + put.length);
  all.set(bytes.subarray(0, at));
  all.set(put, at);
  all.set(bytes.subarray(at + gone), at + put.length);
  return all;
};

const absurd = [0, 1, 0x7f, 0xff, 0x7fff, 0xffff, 0x00ff_ffff, 0x7fff_ffff, 0x8000_0000, 0xffff_ffff];

/** Tables of contents stand at the end, headers at the beginning: there most is decided. */
const place = (random: Random, length: number): number => {
  const near = Math.min(length, 400);
  if (random.chance(0.3)) return length - 1 - random.below(near);
  return random.chance(0.4) ? random.below(near) : random.below(length);
};

/** Ways to spoil a file of any kind as its bytes. */
export const byteMutations: readonly BytesMutation[] = [
  {
    name: 'bytes: cut at a tenth',
    weight: 2,
    apply: (bytes, random) => bytes.slice(0, Math.floor((bytes.length * random.below(10)) / 10)),
  },
  { name: 'bytes: cut anywhere', apply: (bytes, random) => bytes.slice(0, random.below(bytes.length)) },
  {
    name: 'bytes: the beginning gone',
    weight: 0.5,
    apply: (bytes, random) => bytes.slice(whole(random, 1, Math.min(64, bytes.length))),
  },
  {
    name: 'bytes: some flipped',
    weight: 4,
    apply(bytes, random) {
      const flipped = bytes.slice();
      for (let times = whole(random, 1, 8); times > 0; times--)
        flipped[place(random, bytes.length)]! ^= 1 << random.below(8);
      return flipped;
    },
  },
  {
    name: 'bytes: a number made absurd',
    weight: 4,
    apply(bytes, random) {
      const changed = bytes.slice();
      if (bytes.length < 9) return changed;
      const at = Math.min(bytes.length - 4, place(random, bytes.length));
      new DataView(changed.buffer).setUint32(random.chance(0.7) ? at & ~3 : at, pick(random, absurd), true);
      return changed;
    },
  },
  {
    name: 'bytes: a stretch of zeros',
    apply: (bytes, random) =>
      bytes
        .slice()
        .fill(
          0,
          ...([place(random, bytes.length)].flatMap((at) => [at, at + whole(random, 1, 64)]) as [number, number]),
        ),
  },
  {
    name: 'bytes: a stretch gone',
    apply: (bytes, random) => {
      const at = place(random, bytes.length);
      return spliced(bytes, at, Math.min(bytes.length - at, whole(random, 1, 40)));
    },
  },
  {
    name: 'bytes: a stretch twice',
    apply: (bytes, random) => {
      const at = place(random, bytes.length);
      return spliced(bytes, at, 0, bytes.slice(at, at + whole(random, 1, 200)));
    },
  },
  {
    name: 'bytes: noise',
    apply: (bytes, random) =>
      spliced(
        bytes,
        place(random, bytes.length),
        0,
        Uint8Array.from({ length: whole(random, 1, 40) }, () => random.below(256)),
      ),
  },
  { name: 'bytes: the file twice', weight: 0.5, apply: (bytes) => spliced(bytes, bytes.length, 0, bytes) },
];
