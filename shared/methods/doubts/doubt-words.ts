/** A doubt explained: what is looked at, and what it does to an answer where it stands. */
export interface DoubtWords {
  readonly asks: string;
  readonly so: string;
}
