/** A call that cannot be understood; the command line ends with code 2. */
export class WrongCall extends Error {}

/** Records in which nothing can be used; the command line ends with code 3. */
export class NothingUsable extends Error {}

/** Numbers of a brief that do not hold any more, all said; the command line ends with code 1. */
export class NotAllHold extends Error {}

/** Where a command writes: answers to `out`, everything said besides to `err`. */
export interface Streams {
  readonly out: (text: string) => void;
  readonly err: (text: string) => void;
  /** How far a long answer is, where somebody watches; each overwrites the one before. */
  readonly progress?: (text: string) => void;
}
