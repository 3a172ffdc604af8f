/** Where a method comes from, by what the findings call it. */
const sources: readonly { readonly of: RegExp; readonly source: string }[] = [
  {
    of: /product-limit/i,
    source:
      'E. L. Kaplan, P. Meier: Nonparametric estimation from incomplete observations. J. Am. Stat. Assoc. 53, 1958.',
  },
  {
    of: /cumulative incidence|competing/i,
    source:
      'O. O. Aalen, S. Johansen: An empirical transition matrix for non-homogeneous Markov chains. Scand. J. Stat. 5, 1978.',
  },
  { of: /exact Poisson/i, source: 'F. Garwood: Fiducial limits for the Poisson distribution. Biometrika 28, 1936.' },
  {
    of: /Wilson/i,
    source:
      'E. B. Wilson: Probable inference, the law of succession, and statistical inference. J. Am. Stat. Assoc. 22, 1927.',
  },
  { of: /Cox/, source: 'D. R. Cox: Regression models and life-tables. J. R. Stat. Soc. B 34, 1972.' },
  {
    of: /E-value/,
    source: 'T. J. VanderWeele, P. Ding: Sensitivity analysis in observational research. Ann. Intern. Med. 167, 2017.',
  },
  { of: /Weibull/i, source: 'W. Q. Meeker, L. A. Escobar: Statistical Methods for Reliability Data. Wiley, 1998.' },
  {
    of: /restricted mean|area under the product-limit/i,
    source: 'P. Royston, M. K. B. Parmar: Restricted mean survival time. BMC Med. Res. Methodol. 13:152, 2013.',
  },
];

/** The sources of the methods named, in the order above. */
export const sourcesOf = (methods: readonly string[]): string[] =>
  sources.filter(({ of }) => methods.some((method) => of.test(method))).map(({ source }) => source);
