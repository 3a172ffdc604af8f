/** The documented rule of firmness: what findings are judged by and what the methods page shows. */
export const firmnessRule = {
  firmFailures: 30,
  fairFailures: 15,
  thinFailures: 5,
  /** One group alone is firm only where upper / lower is at most this. */
  firmWidth: 1.5,
  firmPValue: 0.05,
  /** A ratio whose whole interval lies in here is no difference worth the name. */
  noDifference: [0.8, 1.25] as const,
};
