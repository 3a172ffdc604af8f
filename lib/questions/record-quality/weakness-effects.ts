import type { RecordQuality, WeaknessEffect } from '../../../shared/record-quality.ts';
import { counted, significant } from '../words/wording.ts';
import { intensitySpread } from './inspection-intensity.ts';
import { columnSays } from '../../../shared/column-says.ts';
import { percentSign } from '../../../shared/percent-sign.ts';

type Known = Omit<RecordQuality, 'effects'>;

const percent = (part: number, whole: number): string => `${significant((100 * part) / whole, 2)}${percentSign}`;
const all = ['seal-life', 'mean-miles', 'contamination'] as const;

/** Each weakness found, with what it does to which answers. None is left out for being small. */
export function weaknessEffects(known: Known): WeaknessEffect[] {
  return [...setAside(known), ...links(known), ...silence(known), ...intensity(known), ...blanks(known)];
}

function setAside({ tables }: Known): WeaknessEffect[] {
  return tables.flatMap(({ table, read, setAside }): WeaknessEffect[] =>
    setAside === 0
      ? []
      : [
          {
            weakness: `${counted(setAside, 'row')} of ${table} set aside (${percent(setAside, read)})`,
            effect: {
              units: 'their wheel ends run no miles here: rates come out too high',
              readings: 'miles between the readings left are less sure',
              services: 'a job left out joins two lives into one, and its failure or its age is then wrong',
              inspections: 'a leak looks as if it had begun earlier, and clean checks are fewer',
              failures: 'lives that failed look as if they ended otherwise: seals seem to last longer',
            }[table],
            questions: table === 'inspections' ? ['seal-life'] : [...all],
          },
        ],
  );
}

const linkEffects: Readonly<Record<string, string>> = {
  'failures that met no life': 'these failures are in no rate and no curve: seals seem to last longer',
  'services of units or axles that the units table does not have': 'these jobs begin and end no life',
  'inspections of units or axles that the units table does not have': 'these checks bound nothing',
  'leaks of 2 or more without a failure row within 60 days':
    'if these were failures that nobody wrote down, seals last shorter than said',
  'services with reason failure or comeback and no failure row in the 30 days before':
    'the failure is inferred from the job, at the miles of the job rather than of the finding',
  'failures naming a repair that no service has': 'the repair is then looked for by miles and days instead',
  'units whose miles nobody wrote down': 'their wheel ends are in no rate and no curve',
};

const links = (known: Known): WeaknessEffect[] =>
  known.links
    .filter(({ rows }) => rows > 0)
    .map(({ name, rows, of }) => ({
      weakness: `${name}: ${rows.toLocaleString('en-US')} of ${of.toLocaleString('en-US')}`,
      effect: linkEffects[name] ?? 'these rows count for nothing',
      questions: name.startsWith('inspections') ? ['seal-life'] : [...all],
    }));

const silence = ({ silent }: Known): WeaknessEffect[] =>
  silent.slice(0, 5).map(({ shop, from, to, days }) => ({
    weakness: `${shop} wrote no service from ${from} to ${to} (${counted(days, 'day')})`,
    effect: 'if work went on unwritten, lives run on through it: seals seem to last longer and this shop to fail less',
    questions: [...all],
  }));

/** From this ratio on, how often somebody looks may by itself explain a difference. */
const unlike = 1.5;

const intensity = (known: Known): WeaknessEffect[] =>
  (['lubricant', 'shop'] as const).flatMap((by): WeaknessEffect[] => {
    const spread = intensitySpread(known.intensity, by);
    if (spread === null || spread < unlike) return [];
    const times = Number.isFinite(spread) ? `${significant(spread, 2)} times as often` : 'while others never are';
    return [
      {
        weakness: `Some ${by}s are checked ${times} per mile as others`,
        effect: `a leak is found later where somebody looks seldom: a difference between ${by}s may be one of looking`,
        questions: [...all],
      },
    ];
  });

/** Fields filled in fewer than half of the rows where they could be: one weakness, however many they are. */
function blanks({ fields }: Known): WeaknessEffect[] {
  const blank = fields
    .filter(({ table, rows, filled }) => table === 'services' && rows > 0 && filled / rows < 0.5)
    .map(({ column, rows, filled }) => `${columnSays(column)} ${percent(rows - filled, rows)}`);
  if (blank.length === 0) return [];
  return [
    {
      weakness: `Blank on more than half of the jobs where it could be filled: ${blank.join(', ')}`,
      effect: 'blank means not known: these lives stand apart as unknown in any cut by it',
      questions: [...all],
    },
  ];
}
