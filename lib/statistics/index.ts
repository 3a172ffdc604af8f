/** The public face of the statistics library: numbers in, numbers out. */
export { StatisticsError } from './statistics-error.ts';
export type { Category, CategoryColumn, Covariates, NumberColumn, SurvivalData } from './survival-data.ts';
