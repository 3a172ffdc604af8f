import type { CurveInterval, KaplanMeierOptions, SurvivalData } from '../../lib/statistics/index.ts';
import { loadData, numbers } from '../reference/reference.ts';

/** A survfit case of the reference pack as a call of ours; PACK.md names the sources. */
export interface CurveCase {
  readonly id: string;
  readonly data: SurvivalData;
  readonly options?: KaplanMeierOptions;
}

export const INTERVALS: readonly [CurveInterval, string][] = [
  ['plain', 'plain'],
  ['log', 'log'],
  ['log-log', 'loglog'],
];

const columns = (name: string, exit: string, event: string, rest: Record<string, string> = {}): SurvivalData => {
  const data = loadData(name);
  const of = (column: string | undefined) => (column === undefined ? {} : data[column]);
  return {
    exit: numbers(data, exit),
    event: numbers(data, event),
    ...Object.fromEntries(Object.entries(rest).map(([as, column]) => [as, of(column)])),
  };
};

export const KAPLAN_MEIER_CASES: readonly CurveCase[] = [
  { id: 'km-genfan', data: columns('genfan', 'hours', 'status') },
  { id: 'km-aml', data: columns('aml', 'time', 'status', { group: 'x' }) },
  { id: 'km-veteran-celltype', data: columns('veteran', 'time', 'status', { group: 'celltype' }) },
  { id: 'km-imotor-temp', data: columns('imotor', 'time', 'status', { group: 'temp' }) },
  { id: 'km-nickel-lefttrunc', data: columns('nickel', 'ageout', 'lung', { entry: 'agein', group: 'exposed' }) },
  {
    id: 'km-simseals-lefttrunc',
    data: columns('sim_lt_seals', 'miles_k', 'failed', { entry: 'entry', group: 'group' }),
  },
  { id: 'km-veteran-freqweights', data: columns('veteran', 'time', 'status', { group: 'trt', weight: 'fw' }) },
  {
    id: 'km-veteran-weights-robust',
    data: columns('veteran', 'time', 'status', { group: 'trt', weight: 'w' }),
    options: { robust: true },
  },
  {
    id: 'km-simseals-weighted-lefttrunc',
    data: columns('sim_lt_seals', 'miles_k', 'failed', { entry: 'entry', weight: 'weight' }),
  },
  { id: 'km-ovarian', data: columns('ovarian', 'futime', 'fustat', { group: 'rx' }) },
  { id: 'km-capacitor-volt', data: columns('capacitor', 'time', 'status', { group: 'voltage' }) },
];
