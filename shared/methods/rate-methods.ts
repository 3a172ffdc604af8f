import { over, sub, subSup, sumOver, sup } from './formula.ts';
import type { Method } from './method.ts';

/** How often, what share, and how many are counted. */
export const rateMethods: readonly Method[] = [
  {
    id: 'rate',
    name: 'Failures per million miles, and miles between failures',
    answers: 'How often wheel ends fail for the distance, or the time, they were watched.',
    formulas: [
      ['λ̂ = ', over('d', 'T'), ',  miles between = ', over('T', 'd')],
      [over([sub('χ²', 'α/2; 2d')], '2T'), ' ≤ λ ≤ ', over([sub('χ²', '1 − α/2; 2d + 2')], '2T')],
    ],
    where:
      'd failures in T wheel-end miles (or years), watched to a fixed end. With no failure there is no mean, only a bound: at least T / 3.689 miles between failures. Limits by vehicle stand beside the exact ones, and the wider are shown.',
    assumes: 'Failures come at one rate through all the miles counted.',
    misleads:
      'Wheel ends fail neither young nor old at one rate: two groups of unlike age have unlike rates though their parts are alike. None seen is not no risk.',
    sources: [
      'F. Garwood: Fiducial limits for the Poisson distribution. Biometrika 28, 1936.',
      'NIST/SEMATECH e-Handbook of Statistical Methods, §8.4.5.1.',
    ],
    of: [/exact Poisson|checks that say dry or leaking|^counted$/i],
  },
  {
    id: 'rate-ratio',
    name: 'Ratio of two rates',
    answers: 'How many times as often one group fails as another.',
    formulas: [['R̂ = ', over([sub('d', '1'), ' / ', sub('T', '1')], [sub('d', '0'), ' / ', sub('T', '0')])]],
    where:
      'Given the d₁ + d₀ failures seen, d₁ is binomial; its exact limits give those of the ratio. Where one side has none, a bound is given and no ratio.',
    assumes: 'What each rate assumes. Nothing else is taken into account.',
    misleads:
      'A crude ratio compares the work as well as the part: another role, lubricant or duty may be the whole of it. The doubt “Like for like” says in what the groups differ.',
    sources: ['N. E. Breslow, N. E. Day: Statistical Methods in Cancer Research, vol. II. IARC, 1987, ch. 3.'],
    of: [/exact conditional|ratio of crude rates|exact bounds/i],
  },
  {
    id: 'share',
    name: 'Shares, and differences of shares',
    answers: 'What share of leaks reached the lining, of jobs carried a deviation, of lives came back within 30 days.',
    formulas: [
      ['p̂ = ', over('x', 'n')],
      ['limits = ', over(['p̂ + z²/2n ± z √(p̂(1 − p̂)/n + z²/4n²)'], '1 + z²/n')],
    ],
    where:
      'x of the n that tell. Unknown ones are in neither; where they could change the answer, it is bounded both ways. A difference of two shares takes Newcombe’s limits; a share of none takes exact ones. Where several deviations are compared before and after a change, each difference is weighted by the jobs of both sides (Mantel and Haenszel), so that a deviation written down more often after does not count for more.',
    assumes: 'Those that tell are like those that do not.',
    misleads:
      'A share of leaks says nothing of how many leaks there are. People write down what is bad: those that tell may be the soaked ones.',
    sources: [
      'E. B. Wilson: Probable inference, the law of succession, and statistical inference. J. Am. Stat. Assoc. 22, 1927.',
      'R. G. Newcombe: Two-sided confidence intervals for the single proportion; Interval estimation for the difference. Stat. Med. 17, 1998.',
      'S. Greenland, J. M. Robins: Estimation of a common effect parameter from sparse follow-up data. Biometrics 41, 1985.',
    ],
    of: [/Wilson|Newcombe|Mantel and Haenszel|none of the jobs; exact|answers recorded/i],
  },
  {
    id: 'wheel-ends-of-one-vehicle',
    name: 'Limits by vehicle',
    answers: 'How wide limits must be when several wheel ends share a driver, a load and a road.',
    formulas: [
      ['V = ', sup('I', '−1'), ' (', sumOver('v'), sub('u', 'v'), ' ', subSup('u', 'v', 'T'), ') ', sup('I', '−1')],
    ],
    where:
      'uᵥ is the sum of what all lives of vehicle v contribute, I the information of the model. Few vehicles widen it further. The wider of these limits and the model’s own are shown and judged.',
    assumes: 'Vehicles are unrelated to one another.',
    misleads: 'With fewer than some ten vehicles neither kind of limit is to be leaned on.',
    sources: [
      'D. Y. Lin, L. J. Wei: The robust inference for the Cox proportional hazards model. J. Am. Stat. Assoc. 84, 1989.',
      'T. M. Therneau, P. M. Grambsch: Modeling Survival Data. Springer, 2000, §7.2 and 8.2.',
    ],
    of: [],
  },
];
