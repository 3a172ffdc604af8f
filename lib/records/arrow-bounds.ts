import { ByteBuffer } from 'flatbuffers';

const lengthOf = Object.getOwnPropertyDescriptor(ByteBuffer.prototype, '__vector_len')?.value as (
  this: ByteBuffer,
  offset: number,
) => number;

/**
 * Makes the metadata of Arrow say no more than it can hold. Its reader believes any number of columns,
 * children or places that a damaged file gives, and fills the memory with them; no element is smaller
 * than a byte.
 */
export function boundArrowMetadata(): void {
  ByteBuffer.prototype.__vector_len = function (offset) {
    const length = lengthOf.call(this, offset);
    if (length >= 0 && length <= this.capacity()) return length;
    throw new Error('its metadata says that it has more than it can hold');
  };
}
