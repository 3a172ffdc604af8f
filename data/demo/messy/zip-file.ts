import { crc32, deflateRawSync } from 'node:zlib';

export interface ZipPart {
  readonly name: string;
  readonly content: string | Uint8Array;
}

/**
 * A zip archive by APPNOTE 6.3: local headers with the data, the central directory, its end.
 * @param told a size to tell of every part in place of its own, for archives that lie
 */
export function zipFile(parts: readonly ZipPart[], told: { readonly size?: number } = {}): Uint8Array {
  const files: Buffer[] = [];
  const directory: Buffer[] = [];
  let offset = 0;
  for (const { name, content } of parts) {
    const bytes = Buffer.from(content as Uint8Array);
    const packed = deflateRawSync(bytes, { level: 9 });
    const fields = Buffer.alloc(26);
    fields.writeUInt16LE(20, 0);
    // The name is UTF-8; the data are deflated; 1 January 1980, since an archive knows no "no day".
    fields.writeUInt16LE(0x800, 2);
    fields.writeUInt16LE(8, 4);
    fields.writeUInt16LE(0x21, 8);
    fields.writeUInt32LE(crc32(bytes), 10);
    fields.writeUInt32LE(packed.length, 14);
    fields.writeUInt32LE(told.size ?? bytes.length, 18);
    fields.writeUInt16LE(Buffer.byteLength(name), 22);
    const at = Buffer.alloc(4);
    at.writeUInt32LE(offset);
    files.push(Buffer.from('PK\u0003\u0004'), fields, Buffer.from(name), packed);
    const made = Buffer.from([20, 0]);
    directory.push(Buffer.from('PK\u0001\u0002'), made, fields, Buffer.alloc(10), at, Buffer.from(name));
    offset += 30 + Buffer.byteLength(name) + packed.length;
  }
  const list = Buffer.concat(directory);
  const end = Buffer.alloc(22);
  end.write('PK\u0005\u0006', 'latin1');
  end.writeUInt16LE(parts.length, 8);
  end.writeUInt16LE(parts.length, 10);
  end.writeUInt32LE(list.length, 12);
  end.writeUInt32LE(offset, 16);
  return new Uint8Array(Buffer.concat([...files, list, end]));
}
