import type { Formula } from './formula.ts';

/** A method in half a screen: what it answers, how, on what assumptions, what misleads, and whose it is. */
export interface Method {
  readonly id: string;
  readonly name: string;
  readonly answers: string;
  readonly formulas: readonly Formula[];
  /** What the letters of the formulas stand for, and how the limits are had. */
  readonly where: string;
  readonly assumes: string;
  readonly misleads: string;
  readonly sources: readonly string[];
  /** How findings name it among their methods; none where it stands in figures, doubts or counts only. */
  readonly of: readonly RegExp[];
}
