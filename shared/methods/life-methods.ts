import { integral, over, productOver, sub, sumOver, sup } from './formula.ts';
import type { Method } from './method.ts';

/** How parts last. */
export const lifeMethods: readonly Method[] = [
  {
    id: 'life-curve',
    name: 'Life curve (product limit)',
    answers:
      'What share of parts is still without a failure at each age, had none been taken out for another reason. Lives still running, renewed early or first seen at a later age all count for as long as they were watched.',
    formulas: [
      ['Ŝ(t) = ', productOver('tᵢ ≤ t'), '(1 − ', over([sub('d', 'i')], [sub('n', 'i')]), ')'],
      [
        'var Ŝ(t) = ',
        sup('Ŝ(t)', '2'),
        ' ',
        sumOver('tᵢ ≤ t'),
        over([sub('d', 'i')], [sub('n', 'i'), '(', sub('n', 'i'), ' − ', sub('d', 'i'), ')']),
      ],
    ],
    where:
      'At each age tᵢ at which something failed: dᵢ failures among nᵢ lives at risk. A life is at risk from the age at which it came under observation to the age at which it ended. Limits are taken on the scale log(−log S), so that they stay between 0 and 1; beside them stand limits that let the wheel ends of one vehicle share their fate, and the wider are shown. A curve starts at the first age at which ten are at risk and then says of which lives it tells.',
    assumes:
      'Parts taken out without a failure would have gone on like those left in; lives first seen later are like those seen from new.',
    misleads:
      'A part renewed because it looked worn was about to fail: the curve then flatters. Leaks found late put the failure at too great an age. The far end rests on few lives: look at the numbers at risk beneath it.',
    sources: [
      'E. L. Kaplan, P. Meier: Nonparametric estimation from incomplete observations. J. Am. Stat. Assoc. 53, 1958.',
      'J. P. Klein, M. L. Moeschberger: Survival Analysis, 2nd ed. Springer, 2003, §4.2, 4.3 and 4.6.',
    ],
    of: [/product-limit/i],
  },
  {
    id: 'life-at-a-share',
    name: 'Age by which one in ten, or half, have failed',
    answers: 'The life to plan on: by what age a tenth (B10) or half of the parts have failed, had none been renewed.',
    formulas: [[sub('t', 'p'), ' = min { t : Ŝ(t) ≤ 1 − p }']],
    where:
      'p = 0.1 or 0.5. The limits are the ages at which the limits of the life curve cross 1 − p. Where the curve does not come down so far there is no number, and where a limit does not, there is no such limit.',
    assumes: 'What the life curve assumes.',
    misleads:
      'Half can look like a promise: half of the parts fail before it. A number from a curve that starts late is of the parts that reached that age.',
    sources: ['R. Brookmeyer, J. Crowley: A confidence interval for the median survival time. Biometrics 38, 1982.'],
    of: [/first age at or below/i],
  },
  {
    id: 'mean-life',
    name: 'Mean life up to the horizon, and differences of it',
    answers:
      'How far a part runs on average within the first so many miles or months without a failure. It needs no shape and answers in miles; a difference of two is what a step is worth.',
    formulas: [['μ(h) = ', integral('0', 'h'), ' Ŝ(t) dt']],
    where:
      'h is the horizon. Where it is compared like for like, lives without a deviation are weighted to the mix of those with it (by shop, role and what else is taken into account) before their curve is drawn.',
    assumes: 'What the life curve assumes; both curves reach the horizon, else none is given.',
    misleads:
      'It is not the mean of whole lives: most parts may outlast the horizon. Another horizon gives another number.',
    sources: [
      'P. Royston, M. K. B. Parmar: Restricted mean survival time. BMC Med. Res. Methodol. 13:152, 2013.',
      'J. P. Klein, M. L. Moeschberger: Survival Analysis, 2nd ed. Springer, 2003, §4.5.',
    ],
    of: [/restricted mean|area under (the )?product-limit/i],
  },
  {
    id: 'cumulative-incidence',
    name: 'Failed under today’s renewals (cumulative incidence)',
    answers:
      'What share of parts will be seen to fail by the horizon while others are renewed first, as is done today. It is what the shop meets; the life curve is what the part would do.',
    formulas: [['F̂(t) = ', sumOver('tᵢ ≤ t'), 'Ŝ(tᵢ−) ', over([sub('d', 'i')], [sub('n', 'i')])]],
    where: 'Ŝ(tᵢ−) is the share not yet ended in any way just before tᵢ; dᵢ are the failures of the kind asked about.',
    assumes: 'That renewals go on as they were.',
    misleads:
      'A low share may mean that parts are renewed early, not that they last. Never set it against a life curve of another group.',
    sources: [
      'O. O. Aalen, S. Johansen: An empirical transition matrix for non-homogeneous Markov chains. Scand. J. Stat. 5, 1978.',
      'J. P. Klein, M. L. Moeschberger: Survival Analysis, 2nd ed. Springer, 2003, §4.7.',
    ],
    of: [/cumulative incidence|competing/i],
  },
  {
    id: 'weibull',
    name: 'Weibull line',
    answers: 'Whether parts fail young, at any age, or by wear: the shape tells, below 1, near 1, above 1.',
    formulas: [
      ['S(t) = exp(−', sup('(t / η)', 'β'), ')'],
      ['log L = ', sumOver('i'), 'δᵢ log h(tᵢ) − H(tᵢ) + H(eᵢ)'],
    ],
    where:
      'β is the shape, η the age by which 63 in 100 have failed; δᵢ is 1 for a failure, h the hazard, H its sum over age, eᵢ the age at which the life came under observation. Limits on the log scale, and by vehicle.',
    assumes: 'One shape for all lives of a group.',
    misleads:
      'Early failures from installation mixed with wear-out bend the plot like an S, and one line through both is true of neither. Beyond the longest life watched the line is only a formula.',
    sources: ['W. Q. Meeker, L. A. Escobar: Statistical Methods for Reliability Data. Wiley, 1998, ch. 8 and 11.'],
    of: [/Weibull maximum likelihood|fitted survival|two-part/i],
  },
  {
    id: 'early-and-wear-out',
    name: 'Early failures beside wear-out (two-part Weibull)',
    answers:
      'What share of installations fails early, beside the wear-out of the rest; used for renewal and forecast where the lives call for it.',
    formulas: [['S(t) = π ', sub('S', 'early'), '(t) + (1 − π) ', sub('S', 'wear'), '(t)']],
    where:
      'π is the share that fails early. The two-part fit is taken only where there are failures enough, where the lives clearly call for it and where it settles.',
    assumes: 'Two kinds of installation, which nobody marked; each with a shape of its own.',
    misleads: 'Few failures cannot tell the two apart, and the split may then follow a few early ones.',
    sources: ['W. Q. Meeker, L. A. Escobar: Statistical Methods for Reliability Data. Wiley, 1998, §5.12 and ch. 11.'],
    of: [],
  },
  {
    id: 'interval-onset',
    name: 'When leaks began (intervals between checks)',
    answers:
      'How long seals last until they begin to leak, not until somebody finds it: the leak began between the last clean check and the one that found it.',
    formulas: [['log L = ', sumOver('i'), 'log (S(lᵢ) − S(uᵢ))']],
    where:
      'lᵢ is the age at the last clean check, uᵢ that at which the leak was found. A Weibull line is fitted to the intervals; beside it stands the curve that needs no shape, of which only the ends of its intervals are known.',
    assumes: 'A clean check means no leak then; checks do not come because of the leak.',
    misleads:
      'Wheel ends that are seldom checked have wide intervals and tell little. A driver who reports a drip makes the next check come sooner.',
    sources: [
      'B. W. Turnbull: The empirical distribution function with arbitrarily grouped, censored and truncated data. J. R. Stat. Soc. B 38, 1976.',
      'W. Q. Meeker, L. A. Escobar: Statistical Methods for Reliability Data. Wiley, 1998, ch. 8.',
    ],
    of: [/intervals in which leaks began|leaks begun as in all together/i],
  },
  {
    id: 'chance-a-check-sees',
    name: 'Chance that a check sees a leak (delay time)',
    answers: 'How likely one check is to see a leak that is there, from the record of dry and leaking checks alone.',
    formulas: [['P(seen at the k-th check after onset) = ', sup('(1 − r)', 'k − 1'), ' r']],
    where:
      'r is the chance that one check sees it, the same for every check; the onset follows a Weibull line and is integrated over. Both are fitted together.',
    assumes:
      'Every check is equally good and blind to the one before; a leak does not heal; one onset shape, one rate of finding between checks.',
    misleads:
      'Semi-fluid and packed hubs hide leaks, so their checks are not as good as others. Where no check follows a leak that was seen, the chance rests on the shape alone.',
    sources: [
      'A. H. Christer, W. M. Waller: Delay time models of industrial inspection maintenance problems. J. Oper. Res. Soc. 35, 1984.',
      'R. D. Baker, W. Wang: Estimating the delay-time distribution of faults in repairable machinery from failure data. IMA J. Math. Appl. Bus. Ind. 3, 1991.',
    ],
    of: [/delay-time/i],
  },
  {
    id: 'mean-number',
    name: 'Mean number of failures by age (wheel ends that fail again)',
    answers:
      'How many failures a wheel end has had on average since it came under observation, the second and third counted too.',
    formulas: [['M̂(t) = ', sumOver('tᵢ ≤ t'), over([sub('d', 'i')], [sub('n', 'i')])]],
    where:
      'nᵢ wheel ends were watched at that age. Limits treat each wheel end as one subject, however often it fails.',
    assumes: 'Wheel ends leave the records for reasons that have nothing to do with their next failure.',
    misleads:
      'A rising curve can be a few bad wheel ends. Vehicles sold because they broke down make the rest look good.',
    sources: [
      'W. B. Nelson: Recurrent Events Data Analysis. SIAM, 2003.',
      'J. F. Lawless, C. Nadeau: Some simple robust methods for the analysis of recurrent events. Technometrics 37, 1995.',
    ],
    of: [/mean cumulative function/i],
  },
];
