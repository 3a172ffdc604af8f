import { deviations } from '../../../shared/deviations.ts';

/** `outer nut not torqued`: a deviation as the table beneath names it. */
export const deviationSays = (code: string): string =>
  deviations.find((own) => own.code === code)?.says ?? code.replaceAll('-', ' ');
