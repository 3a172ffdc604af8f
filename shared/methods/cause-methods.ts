import { over, sub, sumOver } from './formula.ts';
import type { Method } from './method.ts';

/** What goes with failure, and whose work differs. */
export const causeMethods: readonly Method[] = [
  {
    id: 'hazard-ratio',
    name: 'Hazard ratio, like for like (Cox)',
    answers:
      'How many times as likely to fail, at the same age and in the same shop, lives with a deviation are as those without, what else is known taken into account.',
    formulas: [
      ['h(t | x) = ', sub('h', '0s'), '(t) exp(β₁x₁ + β₂x₂ + …)'],
      ['log L = ', sumOver('failures'), 'βx − log ', sumOver('at risk'), 'exp(βx)'],
    ],
    where:
      'h₀ₛ is the hazard of shop s (or axle, or vehicle) at that age, left free; x is 1 with the deviation and 0 without, and what else is taken into account. Lives enter at the age at which they came under observation; ties by Efron; limits by vehicle. Within the axle or the vehicle only unlike lives of the same one are compared. “Not known” is a level of its own, never no.',
    assumes: 'One ratio through all ages; nothing that matters is left out. Both are looked at under doubts.',
    misleads:
      'It is what goes with the deviation, not what it does: a hurried job carries more than one thing. A deviation found only at teardown is found only on parts that failed.',
    sources: [
      'D. R. Cox: Regression models and life-tables. J. R. Stat. Soc. B 34, 1972.',
      'B. Efron: The efficiency of Cox’s likelihood function for censored data. J. Am. Stat. Assoc. 72, 1977.',
      'J. D. Holt, R. L. Prentice: Survival analyses in twin studies and matched pair experiments. Biometrika 61, 1974 (within the axle).',
    ],
    of: [/Cox|joint model|ratio without/],
  },
  {
    id: 'early-and-later-ratio',
    name: 'Early and later ratio',
    answers: 'Whether a deviation goes with failure soon after installation, later, or throughout.',
    formulas: [['h(t | x) = h₀(t) exp(β₁ x) up to c,   h₀(t) exp(β₂ x) after']],
    where: 'c is the early age. Both ratios come from one fit.',
    assumes: 'What the hazard ratio assumes, on either side of the cut.',
    misleads: 'A later ratio below 1 may be what is left once the weak have failed, not a benefit.',
    sources: [
      'T. M. Therneau, P. M. Grambsch: Modeling Survival Data. Springer, 2000, §6.5.',
      'M. A. Hernán: The hazards of hazard ratios. Epidemiology 21, 2010.',
    ],
    of: [/a ratio of its own up to/],
  },
  {
    id: 'many-at-once',
    name: 'Many compared at once',
    answers: 'Whether what stands out of many still stands once it is allowed for that many were looked at.',
    formulas: [['p̃₍ₖ₎ = ', sub('max', 'j ≤ k'), ' min(1, (m − j + 1) p₍ⱼ₎)']],
    where:
      'm comparisons, their p-values in order (Holm). Where the worst of several groups is set against the best, the p-value is multiplied by the pairs that could have been picked.',
    assumes: 'Nothing of how the comparisons hang together.',
    misleads: 'It allows for what was asked here, not for what was tried and forgotten.',
    sources: ['S. Holm: A simple sequentially rejective multiple test procedure. Scand. J. Stat. 6, 1979.'],
    of: [/Holm|Bonferroni/i],
  },
  {
    id: 'chance-alone',
    name: 'What chance alone would rank',
    answers: 'How often a whole ranking of deviations finds something where nothing is to be found.',
    formulas: [['p = ', over('1 + rankings in which a line stood', '1 + rankings made')]],
    where:
      'Each vehicle’s answers are dealt out at random within its shop, many times, from a fixed seed, and the ranking is made again each time.',
    assumes: 'Within a shop any vehicle could have had any other’s answers.',
    misleads: 'It looks at chance alone: a hidden difference passes it untouched.',
    sources: ['R. A. Fisher: The Design of Experiments. Oliver and Boyd, 1935, ch. III.'],
    of: [/dealt out at random/],
  },
  {
    id: 'hidden-strength',
    name: 'Strength that something hidden would need (E-value)',
    answers:
      'How strongly something nobody wrote down would have to go with both the deviation and failure to explain the ratio away.',
    formulas: [['E = R + √(R (R − 1))']],
    where:
      'R is the ratio (its inverse below 1). The same of the limit nearer to 1 tells what would bring that limit to 1.',
    assumes: 'The ratio is about one of risks, as it is while few have failed.',
    misleads: 'A large value is no proof: hurry, night work and worn spindles can be strong.',
    sources: [
      'T. J. VanderWeele, P. Ding: Sensitivity analysis in observational research. Ann. Intern. Med. 167, 2017.',
    ],
    of: [/E-value/],
  },
  {
    id: 'excess',
    name: 'Failures in excess',
    answers:
      'What share of the failures by the horizon is more than the same lives would have had without the deviation, by the model.',
    formulas: [['excess(h) = 1 − ', over([sub('F', 'without'), '(h)'], [sub('F', 'as it is'), '(h)'])]],
    where:
      'F is averaged over these lives, each predicted by the adjusted fit. Limits by drawing whole vehicles, or by their influences where there are many.',
    assumes: 'What the hazard ratio assumes, and that it would go away with the deviation.',
    misleads:
      'Shares of several deviations do not add up, and may pass the whole together. It is an excess by the model, not a promise of a saving.',
    sources: [
      'S. Greenland, K. Drescher: Maximum likelihood estimation of the attributable fraction from logistic models. Biometrics 49, 1993.',
      'L. Chen, D. Y. Lin, D. Zeng: Attributable fraction functions for censored event times. Biometrika 97, 2010.',
    ],
    of: [/standardised to these lives|part of the excess/],
  },
  {
    id: 'observed-over-expected',
    name: 'Failures seen over those expected of like work',
    answers:
      'Whether a shop’s work fails more often than the same work does elsewhere: same ages, roles, lubricants, builds.',
    formulas: [
      ['E = ', sumOver('i'), 'Λ(exitᵢ | xᵢ) − Λ(entryᵢ | xᵢ)'],
      ['ratio = ', over('O', 'E')],
    ],
    where:
      'Λ is the cumulative hazard of all shops together at that age and for that work, from a fit whose coefficients are had within shops. Exact limits, and limits by vehicle with the error of E; the wider are shown.',
    assumes: 'What is taken into account tells the work; others do like work, else nothing is compared.',
    misleads:
      'Where somebody looks harder more is found. A shop that is sent the broken ones looks bad by what it was sent.',
    sources: [
      'N. E. Breslow, N. E. Day: Statistical Methods in Cancer Research, vol. II. IARC, 1987, ch. 2.',
      'T. M. Therneau, P. M. Grambsch: Modeling Survival Data. Springer, 2000, §10.3.',
    ],
    of: [
      /observed over expected|predicted without the terms|recorded deviations taken into account|failures seen over/i,
    ],
  },
  {
    id: 'drawn-to-the-average',
    name: 'Drawn to the average',
    answers:
      'What to make of the extremes of many shops: the smaller a shop, the more of its distance from the average is chance.',
    formulas: [['ratio* = ', over('O + a', 'E + b')]],
    where:
      'a and b come from how far all shops lie apart (gamma–Poisson), averaged over what their spread may be. The design effect widens chance where vehicles carry it.',
    assumes: 'Shops are of one kind and lie about an average as a gamma has it.',
    misleads: 'A truly bad small shop is drawn in with the lucky ones: look at what it was expected to have.',
    sources: [
      'D. Clayton, J. Kaldor: Empirical Bayes estimates of age-standardized relative risks. Biometrics 43, 1987.',
      'C. L. Christiansen, C. N. Morris: Hierarchical Poisson regression modeling. J. Am. Stat. Assoc. 92, 1997.',
    ],
    of: [/gamma–Poisson/],
  },
  {
    id: 'dose',
    name: 'How the measured value goes with failure (dose)',
    answers: 'How the hazard changes over torque or end play as measured, against the middle of the window.',
    formulas: [['log h(t | x) = log h₀(t) + f(x),   f a natural cubic curve']],
    where:
      'f may bend at four of the readings (at 5, 35, 65 and 95 in a hundred of them) and is straight beyond the outer two. Too high and too low are told apart.',
    assumes: 'Values were read, not filled in; jobs that measure are like those that do not.',
    misleads:
      'A heap at the nominal value hides what was there. The middle of the window is a check value, no specification.',
    sources: ['F. E. Harrell: Regression Modeling Strategies, 2nd ed. Springer, 2015, §2.4.5 and 2.4.6.'],
    of: [/natural cubic|smooth|spline/i],
  },
  {
    id: 'rule-strip',
    name: 'The answer under every defensible rule',
    answers:
      'Whether the answer hangs on a choice that somebody had to make: what counts as failure, where to cut, which lives to leave out.',
    formulas: [],
    where:
      'The same number is worked out again under each rule; the strip shows them side by side, the rule chosen first.',
    assumes: 'The rules shown are the ones that could be defended.',
    misleads: 'All agreeing does not make them right: a weakness that all share shows in none.',
    sources: [
      'S. Steegen, F. Tuerlinckx, A. Gelman, W. Vanpaemel: Increasing transparency through a multiverse analysis. Perspect. Psychol. Sci. 11, 2016.',
    ],
    of: [],
  },
];
