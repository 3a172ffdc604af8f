import type { Finding, Group, Series } from '../../shared/finding.ts';
import type { Figure } from './figure.ts';
import { groupNamed, groupSays } from './plain-words.ts';
import { mostSeries } from './themes.ts';

export interface CurvePoint {
  readonly group: string;
  /** In what the finding's axis counts. */
  readonly age: number;
  readonly survival: number;
  readonly lower: number | null;
  readonly upper: number | null;
}

export interface LifeCurve {
  readonly group: string;
  readonly says: string;
  readonly points: readonly CurvePoint[];
  readonly end: CurvePoint;
}

/** The ages of a series stand under the name of what they are counted in. */
export const ages = ({ columns }: Series): readonly (number | null)[] => columns['miles'] ?? columns['months'] ?? [];

const column = (series: Series, name: string): readonly (number | null)[] => series.columns[name] ?? [];

function curveOf(finding: Finding, group: Group): LifeCurve | null {
  const series = finding.series.find((candidate) => candidate.name === 'curve' && candidate.group === group.label);
  if (series === undefined) return null;
  const [told, survival] = [ages(series), column(series, 'survival')];
  const points = told.flatMap((at, index): CurvePoint[] => {
    const share = survival[index];
    if (at === null || share === null || share === undefined) return [];
    const [lower, upper] = [column(series, 'lower')[index] ?? null, column(series, 'upper')[index] ?? null];
    return [{ group: group.label, age: at, survival: share, lower, upper }];
  });
  const end = points.at(-1);
  return end === undefined ? null : { group: group.label, says: groupSays(group.by), points, end };
}

/** The curves a figure can hold: those with most lives where there are too many, in the finding's order. */
export function lifeCurves(
  finding: Finding,
): Pick<Figure, 'leftOut' | 'leftOutWhy'> & { readonly drawn: readonly LifeCurve[] } {
  const curves = finding.groups.flatMap((group) => {
    const curve = curveOf(finding, group);
    return curve === null ? [] : [{ curve, lives: group.lives }];
  });
  const kept = new Set([...curves].sort((a, b) => b.lives - a.lives).slice(0, mostSeries));
  const drawn = curves.filter((entry) => kept.has(entry)).map(({ curve }) => curve);
  const names = new Set(drawn.map(({ group }) => group));
  const leftOut = finding.groups.filter(({ label }) => !names.has(label)).map(({ by }) => groupNamed(by));
  const allHaveCurves = curves.length === finding.groups.length;
  return { drawn, leftOut, ...(allHaveCurves ? {} : { leftOutWhy: 'too few are watched for a curve' }) };
}

const mostPoints = 400;

/** Steps finer than a pixel cannot be seen: one point is kept for each pixel, the last of it, and 400 at most. */
export function thinCurve(curve: LifeCurve, agePerPixel: number): readonly CurvePoint[] {
  const step = Math.max(agePerPixel, curve.end.age / (mostPoints - 2));
  return curve.points.filter((point, index) => {
    const next = curve.points[index + 1];
    return index === 0 || next === undefined || Math.floor(next.age / step) !== Math.floor(point.age / step);
  });
}

export interface AtRiskRow {
  readonly group: string;
  readonly says: string;
  /** At each of the ages asked for; null past the end of the group's account. */
  readonly counts: readonly (number | null)[];
}

/** Numbers at risk of each group at given ages: the count known at the last point at or before each. */
export function numbersAtRisk(finding: Finding, asked: readonly number[]): readonly AtRiskRow[] {
  const drawn = new Set(lifeCurves(finding).drawn.map(({ group }) => group));
  return finding.groups
    .filter(({ label }) => drawn.has(label))
    .flatMap(({ label, by }) => {
      const series = finding.series.find(({ name, group }) => name === 'at-risk' && group === label);
      if (series === undefined) return [];
      const [told, counts] = [ages(series), column(series, 'atRisk')];
      return [{ group: label, says: groupSays(by), counts: asked.map((age) => countAt(told, counts, age)) }];
    });
}

function countAt(told: readonly (number | null)[], counts: readonly (number | null)[], age: number): number | null {
  const index = told.findIndex((candidate) => candidate !== null && Math.abs(candidate - age) < 1e-3);
  return index < 0 ? null : (counts[index] ?? null);
}
