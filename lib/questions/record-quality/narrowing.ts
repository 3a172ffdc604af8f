import { deviationColumn, deviations } from '../../../shared/deviations.ts';
import type { Narrowing } from '../../../shared/record-quality.ts';
import { numberColumn, type ResultTable } from '../../engine/engine.ts';
import { identifier, joinSql, sql, type Statement } from '../../engine/statement.ts';

// Failures of replacement lives, as every comparison of deviations uses them.
const failed = sql`state = 'failed' and install_kind = 'replacement'`;

const tally = (name: string, where: Statement): Statement =>
  sql`cast(count(*) filter (${failed} and ${where}) as double) as ${identifier(name)}`;

/** Failures by what their lives say of each deviation, and of whatever else answers are cut by. */
export const narrowingStatement = sql`select ${joinSql(
  [
    ...deviations.flatMap(({ code }) => {
      const column = identifier(deviationColumn(code));
      return ['yes', 'no', 'unknown'].map((said) => tally(`${code} ${said}`, sql`${column} = ${said}`));
    }),
    ...cutFields().map((field) => tally(`${field} unknown`, sql`${identifier(field)} is null`)),
    tally('failures', sql`true`),
    sql`cast(count(*) filter (state = 'failed' and lining_contaminated = 'yes') as double) as "lining yes"`,
    sql`cast(count(*) filter (state = 'failed' and lining_contaminated = 'no') as double) as "lining no"`,
    sql`cast(count(*) filter (state = 'failed' and coalesce(lining_contaminated, 'unknown') = 'unknown') as double) as "lining unknown"`,
    sql`cast(count(*) filter (state = 'failed') as double) as "all failures"`,
    sql`cast(count(*) filter (state = 'failed' and install_kind = 'unknown') as double) as "start unknown"`,
  ],
  ', ',
)} from lives_seal`;

function cutFields(): readonly string[] {
  return ['shop', 'role', 'lubricant', 'hub_build', 'seal_lot', 'hub_material'];
}

/** Two-sided 95 % point of the normal distribution. */
const z = 1.959963984540054;

/**
 * Upper over lower limit of a rate ratio whose two groups have so many failures: the log ratio's standard
 * error is √(1/a + 1/b) (Rothman, Greenland & Lash, Modern Epidemiology, ch. 14, person-time rates).
 */
const spreadOf = (a: number, b: number): number => Math.exp(2 * z * Math.sqrt(1 / a + 1 / b));

/** Fewest failures on each side for which a spread is worth saying. */
const fewest = 2;

function narrowed(field: string, answer: string, a: number, b: number, unknown: number): Narrowing[] {
  if (a < fewest || b < fewest || unknown === 0) return [];
  // What is not known is taken to split as what is known does.
  const grown = (a + b + unknown) / (a + b);
  const [now, then] = [spreadOf(a, b), spreadOf(a * grown, b * grown)];
  return [{ field, answer, known: a + b, unknown, now, then, narrower: 1 - 1 / Math.sqrt(grown) }];
}

/** What writing a field down is called, from the evidence its deviation rests on. */
const fieldOf = ({ code, evidence }: (typeof deviations)[number]): string =>
  evidence.measured?.column ?? evidence.stated?.column ?? evidence.step ?? `checklist_complete (for ${code})`;

/** Share of failures, as odds, for two outcomes: yes against no of the lining. */
export function narrowing(result: ResultTable): Narrowing[] {
  const n = (name: string) => numberColumn(result, name)[0] as number;
  const all = n('failures');
  const byDeviation = deviations.flatMap((deviation) => {
    const said = (word: string) => n(`${deviation.code} ${word}`);
    const answer = `failure rate with and without: ${deviation.says}`;
    return narrowed(fieldOf(deviation), answer, said('yes'), said('no'), said('unknown'));
  });
  const byCut = cutFields().flatMap((field) => {
    const unknown = n(`${field} unknown`);
    // Two equal groups stand for any cut: only the factor of narrowing is then meant, not the cut's own spread.
    const half = (all - unknown) / 2;
    return narrowed(field, `failure rates by ${field.replaceAll('_', ' ')}`, half, half, unknown);
  });
  const known = n('all failures') - n('start unknown');
  return [
    ...byDeviation,
    ...byCut,
    ...narrowed(
      'lining_contaminated',
      'share of leaks that soak the lining',
      n('lining yes'),
      n('lining no'),
      n('lining unknown'),
    ),
    ...narrowed('in_service_miles', 'curves of seal life by age', known / 2, known / 2, n('start unknown')),
  ].sort((a, b) => b.narrower - a.narrower || b.unknown - a.unknown);
}
