const encoder = new TextEncoder();

/** Writes a struct in Thrift's compact protocol, in which Parquet files describe themselves; fields in rising order. */
export class CompactThrift {
  readonly #bytes: number[] = [];
  #field = 0;

  #begin(field: number, type: number): void {
    this.#bytes.push(((field - this.#field) << 4) | type);
    this.#field = field;
  }

  /** Seven bits a byte, the last without the mark that more come. */
  #varint(value: number): void {
    let left = value;
    for (; left > 127; left = Math.floor(left / 128)) this.#bytes.push((left % 128) | 128);
    this.#bytes.push(left);
  }

  #list(size: number, type: number): void {
    this.#bytes.push((Math.min(size, 15) << 4) | type);
    if (size >= 15) this.#varint(size);
  }

  #string(text: string): void {
    const bytes = encoder.encode(text);
    this.#varint(bytes.length);
    this.#bytes.push(...bytes);
  }

  // None of the numbers written here is negative: zigzag doubles them.
  integer(field: number, value: number): this {
    this.#begin(field, 5);
    this.#varint(value * 2);
    return this;
  }

  long(field: number, value: number): this {
    this.#begin(field, 6);
    this.#varint(value * 2);
    return this;
  }

  text(field: number, text: string): this {
    this.#begin(field, 8);
    this.#string(text);
    return this;
  }

  texts(field: number, texts: readonly string[]): this {
    this.#begin(field, 9);
    this.#list(texts.length, 8);
    for (const text of texts) this.#string(text);
    return this;
  }

  integers(field: number, values: readonly number[]): this {
    this.#begin(field, 9);
    this.#list(values.length, 5);
    for (const value of values) this.#varint(value * 2);
    return this;
  }

  struct(field: number, fill: (inner: CompactThrift) => CompactThrift): this {
    this.#begin(field, 12);
    this.#bytes.push(...fill(new CompactThrift()).end());
    return this;
  }

  structs(field: number, fills: readonly ((inner: CompactThrift) => CompactThrift)[]): this {
    this.#begin(field, 9);
    this.#list(fills.length, 12);
    for (const fill of fills) this.#bytes.push(...fill(new CompactThrift()).end());
    return this;
  }

  end(): Uint8Array {
    return Uint8Array.from([...this.#bytes, 0]);
  }
}
