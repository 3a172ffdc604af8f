import type { SurvivalData } from '../../lib/statistics/survival-data.ts';
import { loadData, numbers } from '../reference/reference.ts';

type Data = ReturnType<typeof loadData>;

/** A text column as a category whose levels are in the sort order R gives a factor. */
export const factor = (column: readonly string[]) => {
  const levels = [...new Set(column)].sort();
  return { levels, codes: column.map((value) => levels.indexOf(value)) };
};
const text = (data: Data, name: string) => data[name] as string[];
const pick = (data: Data, ...names: string[]) => Object.fromEntries(names.map((name) => [name, numbers(data, name)]));

const veteran = loadData('veteran');
const veteranLives = { exit: numbers(veteran, 'time'), event: numbers(veteran, 'status') };
const colon = loadData('colon');
const rats = loadData('rats');
const heart = loadData('heart');
const nickel = loadData('nickel');
const ovarian = loadData('ovarian');
const kidney = loadData('kidney');
const mgus = (() => {
  const all = loadData('mgus2');
  const kept = [...numbers(all, 'mspike').keys()].filter((row) => !Number.isNaN(numbers(all, 'mspike')[row]));
  const take = (name: string) => kept.map((row) => numbers(all, name)[row] as number);
  return {
    exit: take('etime'),
    cause: take('event'),
    age: take('age'),
    mspike: take('mspike'),
    sex: kept.map((row) => text(all, 'sex')[row] as string),
  };
})();
const mgusLives = (cause: number): SurvivalData => ({
  exit: mgus.exit,
  event: mgus.cause.map((code) => (code === cause ? 1 : 0)),
  covariates: { age: mgus.age, sex: factor(mgus.sex), mspike: mgus.mspike },
});

export const coxCases: { id: string; parts: readonly string[]; data: SurvivalData }[] = [
  {
    id: 'cox-veteran',
    parts: ['efron', 'breslow'],
    data: {
      ...veteranLives,
      covariates: {
        trt: numbers(veteran, 'trt'),
        celltype: factor(text(veteran, 'celltype')),
        ...pick(veteran, 'karno', 'diagtime', 'age', 'prior'),
      },
    },
  },
  {
    id: 'cox-veteran-strata',
    parts: ['efron', 'breslow'],
    data: { ...veteranLives, strata: text(veteran, 'celltype'), covariates: pick(veteran, 'trt', 'karno', 'age') },
  },
  {
    id: 'cox-veteran-weighted',
    parts: ['robust', 'breslow_robust'],
    data: {
      ...veteranLives,
      weight: numbers(veteran, 'w'),
      cluster: veteranLives.exit.map((_, row) => row),
      covariates: pick(veteran, 'trt', 'karno', 'age'),
    },
  },
  {
    id: 'cox-veteran-weighted',
    parts: ['naive'],
    data: { ...veteranLives, weight: numbers(veteran, 'w'), covariates: pick(veteran, 'trt', 'karno', 'age') },
  },
  {
    id: 'cox-colon-cluster',
    parts: ['efron', 'breslow'],
    data: {
      exit: numbers(colon, 'time'),
      event: numbers(colon, 'status'),
      cluster: numbers(colon, 'id'),
      strata: numbers(colon, 'etype'),
      covariates: {
        rx: {
          levels: ['Lev', 'Lev+5FU', 'Obs'],
          codes: text(colon, 'rx').map((rx) => ['Lev', 'Lev+5FU', 'Obs'].indexOf(rx)),
        },
        ...pick(colon, 'sex', 'age', 'node4'),
      },
    },
  },
  {
    id: 'cox-rats-cluster',
    parts: ['efron', 'breslow'],
    data: {
      exit: numbers(rats, 'time'),
      event: numbers(rats, 'status'),
      cluster: numbers(rats, 'litter'),
      covariates: { rx: numbers(rats, 'rx'), sex: factor(text(rats, 'sex')) },
    },
  },
  {
    id: 'cox-heart-timedependent',
    parts: ['efron', 'breslow'],
    data: {
      entry: numbers(heart, 'start'),
      exit: numbers(heart, 'stop'),
      event: numbers(heart, 'event'),
      covariates: pick(heart, 'age', 'year', 'surgery', 'transplant'),
    },
  },
  {
    id: 'cox-heart-timedependent',
    parts: ['robust_by_id'],
    data: {
      entry: numbers(heart, 'start'),
      exit: numbers(heart, 'stop'),
      event: numbers(heart, 'event'),
      cluster: numbers(heart, 'id'),
      covariates: pick(heart, 'age', 'year', 'surgery', 'transplant'),
    },
  },
  {
    id: 'cox-nickel-lefttrunc',
    parts: ['efron', 'breslow'],
    data: {
      entry: numbers(nickel, 'agein'),
      exit: numbers(nickel, 'ageout'),
      event: numbers(nickel, 'lung'),
      covariates: {
        exposure: numbers(nickel, 'exposure').map((value) => Math.log(value + 1)),
        age1st: numbers(nickel, 'age1st'),
      },
    },
  },
  {
    id: 'cox-ovarian',
    parts: ['efron', 'breslow'],
    data: {
      exit: numbers(ovarian, 'futime'),
      event: numbers(ovarian, 'fustat'),
      covariates: pick(ovarian, 'age', 'resid.ds', 'rx', 'ecog.ps'),
    },
  },
  {
    id: 'cox-kidney-cluster',
    parts: ['efron', 'breslow'],
    data: {
      exit: numbers(kidney, 'time'),
      event: numbers(kidney, 'status'),
      cluster: numbers(kidney, 'id'),
      covariates: { ...pick(kidney, 'age', 'sex'), disease: factor(text(kidney, 'disease')) },
    },
  },
  { id: 'cr-mgus2-causespecific', parts: ['cause1'], data: mgusLives(1) },
  { id: 'cr-mgus2-causespecific', parts: ['cause2'], data: mgusLives(2) },
];
