import { inflateRawSync } from 'node:zlib';

/** A file inside an archive. */
export interface Part {
  readonly name: string;
  readonly content: string | Uint8Array;
}

/** The files of an archive as `zipFile` packs them: each behind its own header, whose sizes are true. */
export function partsOf(archive: Uint8Array): Part[] {
  const bytes = Buffer.from(archive);
  const parts: Part[] = [];
  for (let at = 0; bytes.readUInt32LE(at) === 0x0403_4b50;) {
    const [packed, name] = [bytes.readUInt32LE(at + 18), bytes.readUInt16LE(at + 26)];
    const start = at + 30 + name;
    const content = inflateRawSync(bytes.subarray(start, start + packed)).toString();
    parts.push({ name: bytes.toString('utf8', at + 30, start), content });
    at = start + packed;
  }
  return parts;
}
