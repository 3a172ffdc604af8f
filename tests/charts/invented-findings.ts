import { findingSchema, type Estimate, type Finding, type QuestionId } from '../../shared/finding.ts';
import { viewSchema, type View } from '../../shared/view.ts';

/** Findings made by hand, in the shape questions give; no number in them is anybody's result. */
export const estimate = (value: number | null, lower: number | null, upper: number | null, unit: string): Estimate => ({
  ...{ value, lower, upper, level: 0.95, unit, method: 'by hand' },
  ...(value === null ? { reason: 'no failure was seen' } : {}),
});

export interface HandGroup {
  readonly by: Record<string, string>;
  readonly estimates: Record<string, Estimate>;
  readonly counts?: Record<string, number>;
  /** Mean life of an exponential curve drawn for it, and the age where it ends. */
  readonly curve?: { mean: number; end: number; points?: number };
}

function survivalSeries(group: string, { mean, end, points = 60 }: NonNullable<HandGroup['curve']>) {
  const miles = Array.from({ length: points + 1 }, (_, index) => (end * index) / points);
  const survival = miles.map((at) => Math.exp(-at / mean));
  const [lower, upper] = [survival.map((share) => share * 0.95), survival.map((share) => Math.min(1, share * 1.04))];
  return { name: 'curve', group, columns: { miles, survival, lower, upper } };
}

export function handFinding(question: QuestionId, view: Partial<View>, groups: readonly HandGroup[]): Finding {
  const settings = viewSchema.parse(view);
  const label = ({ by }: HandGroup) => Object.values(by).join(' · ') || 'all';
  return findingSchema.parse({
    ...{ question, settings, title: 'How long do seals last?', emphasis: ['One in ten'] },
    ...{ answer: 'One in ten has leaked by 74,000 miles.', firmness: 'fair', firmnessReason: '41 failures' },
    data: {
      ...{ fingerprint: 'abc123', lives: 300, failures: 50, miles: 3e7, setAside: 4, invented: true },
      ...{ files: [], observedFrom: '2019-01-01', observedTo: '2024-12-31' },
    },
    groups: groups.map((group, index) => ({
      ...{
        label: label(group),
        by: group.by,
        lives: 100 + index,
        failures: Math.max(0, 20 - index),
        miles: 1e7 * (groups.length - index),
      },
      ...{ firmness: 'fair', counts: group.counts ?? {}, estimates: group.estimates },
    })),
    series: groups.flatMap((group) =>
      group.curve
        ? [
            survivalSeries(label(group), group.curve),
            { name: 'at-risk', group: label(group), columns: { miles: [0, 100_000, 200_000], atRisk: [100, 60, 12] } },
          ]
        : [],
    ),
    doubts: [{ name: 'Not known for 24 %', state: 'fails', detail: 'd', settledBy: 's' }],
    cautions: ['No figure here clears a wheel end for service.'],
  });
}

export const threeRoles = (view: Partial<View> = {}) =>
  handFinding('seal-life', { by: ['role'], ...view }, [
    {
      by: { role: 'steer' },
      curve: { mean: 800_000, end: 300_000 },
      estimates: { b10Life: estimate(165_000, 150_000, null, 'miles') },
    },
    {
      by: { role: 'drive' },
      curve: { mean: 790_000, end: 300_000 },
      estimates: { b10Life: estimate(127_000, 120_000, 135_000, 'miles') },
    },
    {
      by: { role: 'trailer' },
      curve: { mean: 300_000, end: 240_000 },
      estimates: { b10Life: estimate(74_000.5, 66_000, 83_000, 'miles') },
    },
  ]);

const rate = (value: number, lower: number, upper: number) => estimate(value, lower, upper, 'per million miles');

export const fourRates = () =>
  handFinding('mean-miles', { by: ['role', 'lubricant'] }, [
    { by: { role: 'trailer', lubricant: 'oil' }, estimates: { failuresPerMillionMiles: rate(2.59, 2.3, 2.9) } },
    { by: { role: 'drive', lubricant: 'oil' }, estimates: { failuresPerMillionMiles: rate(1.31, 1.15, 1.5) } },
    { by: { role: 'steer', lubricant: 'oil' }, estimates: { failuresPerMillionMiles: rate(0, 0, 46) } },
    {
      by: { role: 'tag', lubricant: 'unknown' },
      estimates: { failuresPerMillionMiles: estimate(null, null, null, 'per million miles') },
    },
  ]);

export const soaked = () =>
  handFinding('contamination', { by: ['lubricant'] }, [
    {
      by: { lubricant: 'oil' },
      counts: { contaminated: 38, notContaminated: 55, unknown: 7 },
      estimates: {
        contaminatedPerMillionMiles: rate(0.61, 0.5, 0.74),
        contaminatedShareOfLeaks: estimate(0.41, 0.31, 0.51, 'share'),
        contaminatedShareIfUnknownNo: estimate(0.38, 0.29, 0.48, 'share'),
        contaminatedShareIfUnknownYes: estimate(0.45, 0.35, 0.55, 'share'),
      },
    },
    {
      by: { lubricant: 'semi-fluid' },
      counts: { contaminated: 9, notContaminated: 31, unknown: 0 },
      estimates: {
        contaminatedPerMillionMiles: rate(0.2, 0.09, 0.38),
        contaminatedShareOfLeaks: estimate(0.225, 0.12, 0.38, 'share'),
      },
    },
  ]);
