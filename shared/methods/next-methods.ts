import { integral, over, sub, sumOver } from './formula.ts';
import type { Method } from './method.ts';

/** What to change, and whether it worked. */
export const nextMethods: readonly Method[] = [
  {
    id: 'renewal-age',
    name: 'Age of planned renewal',
    answers: 'At what miles a planned renewal costs least per mile, and whether planning pays at all.',
    formulas: [['C(a) = ', over('c S(a) + k F(a)', [integral('0', 'a'), ' S(t) dt'])]],
    where:
      'c is the cost of a planned renewal, k that of a failure with its lining and road call, S the fitted life. An age is named only where the saving over running to failure lies above zero at its limits (drawn from the error of the fit, by model and by vehicle, the larger).',
    assumes: 'Costs as entered; a renewed part is as good as new; the fitted shape holds.',
    misleads:
      'The curve is often flat: a sharp optimum is a drawing of a flat one. Where parts fail young, renewing makes more failures.',
    sources: ['R. E. Barlow, F. Proschan: Mathematical Theory of Reliability. Wiley, 1965, §4.2.'],
    of: [/age replacement/],
  },
  {
    id: 'forecast',
    name: 'Failures ahead',
    answers:
      'How many of the parts now running will fail in the next months, and on which wheel ends that is likeliest.',
    formulas: [['P(fails in the next m | reached t) = 1 − ', over('S(t + m)', 'S(t)')]],
    where:
      'm are each vehicle’s own miles for the months ahead. The limits are for the number to be seen: error of the fit, chance, and what the wheel ends of one vehicle share.',
    assumes: 'Work and looking go on as they were; parts fail as those of their kind did.',
    misleads:
      'It is a count for planning stock and inspection, not a statement about one wheel end: the likeliest may outlast all others.',
    sources: [
      'W. Q. Meeker, L. A. Escobar: Statistical Methods for Reliability Data. Wiley, 1998, ch. 12.',
      'J. F. Lawless: Negative binomial and mixed Poisson regression. Can. J. Stat. 15, 1987 (what a vehicle shares).',
    ],
    of: [/fitted life given the age now/],
  },
  {
    id: 'before-and-after',
    name: 'Did a change work',
    answers:
      'Whether lives begun after a change fail less often than those begun before, beyond what other shops did over the same time.',
    formulas: [
      [
        'θ = ',
        over(
          [sub('h', 'after'), ' / ', sub('h', 'before'), ' (changed)'],
          [sub('h', 'after'), ' / ', sub('h', 'before'), ' (others)'],
        ),
      ],
    ],
    where:
      'Cox within shop, only at ages that both cohorts reach, so that young lives are not set against old ones. The same contrast is made where nothing was changed, to say how far it goes there. Where a bad spell came just before, the limits reach over the answer with it and without it.',
    assumes: 'Without the change these shops would have moved as the others did.',
    misleads: 'A shop picked after its worst quarter gets better by itself. Two changes at once cannot be told apart.',
    sources: ['J. D. Angrist, J.-S. Pischke: Mostly Harmless Econometrics. Princeton, 2009, ch. 5.'],
    of: [/ages both cohorts reach/],
  },
  {
    id: 'running-sum',
    name: 'Running sum since the change',
    answers: 'Whether failures run below, or above, what was expected, month by month, without peeking being punished.',
    formulas: [[sub('W', 'm'), ' = max(0, ', sub('W', 'm − 1'), ' + O log ρ − (ρ − 1) E)']],
    where:
      'O failures seen and E expected in the month, ρ the ratio watched for. It signals at a limit that, over the months planned, at most one in twenty stretches without a change would pass.',
    assumes: 'The expected numbers are right.',
    misleads: 'No signal is not no change: with few failures expected it takes years.',
    sources: [
      'S. H. Steiner, R. J. Cook, V. T. Farewell, T. Treasure: Monitoring surgical performance using risk-adjusted cumulative sum charts. Biostatistics 1, 2000.',
    ],
    of: [],
  },
  {
    id: 'failures-needed',
    name: 'Failures needed to tell',
    answers:
      'How many failures it takes to see a ratio of a given size, or what size can be seen with those there are.',
    formulas: [['d = ', over(['(', sub('z', '0.975'), ' + ', sub('z', '0.80'), ')²'], ['p (1 − p) (log R)²'])]],
    where: 'R is the ratio and p the share with it: two sides, 5 in a hundred, and four chances in five to see it.',
    assumes: 'One ratio throughout, and nothing else to take into account.',
    misleads: 'Small shops cannot tell small effects within a year, however the chart is drawn.',
    sources: [
      'D. A. Schoenfeld: Sample-size formula for the proportional-hazards regression model. Biometrics 39, 1983.',
    ],
    of: [],
  },
  {
    id: 'saving',
    name: 'What fewer deviations would save',
    answers: 'How many failures fewer there would be if a deviation fell to a level that is named.',
    formulas: [['saved = ', sumOver('i'), '(F(h | as it was) − F(h | with fewer))']],
    where:
      'All deviations stand in one model. Each life carries the deviation with the chance of the new level in place of the old; jobs whose record does not tell stay as they are. Limits by drawing whole vehicles again.',
    assumes: 'What goes with the deviation would go away with it.',
    misleads:
      'Chosen because it stood out, a deviation stands out too far. The best shop may be best by writing less down.',
    sources: [
      'S. Greenland, K. Drescher: Maximum likelihood estimation of the attributable fraction from logistic models. Biometrics 49, 1993.',
    ],
    of: [
      /every other deviation told/,
      /^as chosen$/,
      /lowest of the shops/,
      /joint/i,
      /^failures fewer times the cost/,
    ],
  },
];
