let jobs = 0;

/** A number for the next thing asked of the desk, by which it can be given up. */
export const nextJob = (): number => (jobs += 1);
