import type { Random } from '../../../data/demo/random.ts';
import type { TextTable } from '../valid-tables.ts';

/** One way to spoil something. */
export interface Mutation<Thing> {
  readonly name: string;
  readonly weight?: number;
  /** Whether the file as a whole may have become one that cannot be used. */
  readonly mayRefuse?: boolean;
  apply(thing: Thing, random: Random): Thing;
}

export type TableMutation = Mutation<TextTable>;
export type BytesMutation = Mutation<Uint8Array>;
