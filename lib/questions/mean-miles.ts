import type { Finding } from '../../shared/finding.ts';
import type { Asking } from './asking.ts';
import { rateFinding, type RateQuestion } from './rate-finding.ts';
import { rateName } from './age-axis.ts';
import { meanBetweenEstimate, rateEstimate } from './rates.ts';
import { rateAnswer } from './words/rate-answer.ts';

/**
 * How often do wheel ends fail? Failure episodes of any wheel-end mode (or of the one mode asked
 * for) over all miles (or months) watched, lives of unknown start included. Time-terminated exact limits
 * (NIST/SEMATECH e-Handbook §8.4.5.1), vehicle-robust ones beside.
 */
const question: RateQuestion = {
  id: 'mean-miles',
  title: 'How often do wheel ends fail?',
  events: 'failures',
  what: { event: 'failure', happens: 'wheel ends fail', happened: 'wheel ends failed' },
  counts: {
    unknownStartLives: 'unknownStart',
    unknownStartMiles: 'unknownStartMiles',
    removedUnknown: 'removedUnknown',
    inferredFailures: 'inferred',
  },
  estimates: (rate, _counts, { level, axis }) => ({
    [axis === 'months' ? 'meanMonthsBetweenFailures' : 'meanMilesBetweenFailures']: meanBetweenEstimate(
      rate,
      level,
      axis,
    ),
    [rateName('failures', axis)]: rateEstimate(rate, level, axis),
  }),
  answer: rateAnswer,
  doubts: () => [],
};

export const meanMiles = (asking: Asking): Promise<Finding> => rateFinding(question, asking);
