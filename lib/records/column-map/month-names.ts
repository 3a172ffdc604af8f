/** Months by the beginning of their names in English, German, French and Spanish; accents left out. */
const beginnings: Readonly<Record<number, string>> = {
  1: 'JAN ENE',
  2: 'FEB FEV',
  3: 'MAR MRZ MAER',
  4: 'APR AVR ABR',
  5: 'MAY MAI MAYO',
  6: 'JUNE JUN JUIN',
  7: 'JULY JUL JUIL',
  8: 'AUG AOU AGO',
  9: 'SEP SET',
  10: 'OCT OKT',
  11: 'NOV',
  12: 'DEC DEZ DIC',
};

const months = Object.entries(beginnings).flatMap(([month, names]) =>
  names.split(' ').map((name) => ({ name, month: Number(month) })),
);
// `JUILLET` begins with `JUI`, so longer beginnings come first.
months.sort((a, b) => b.name.length - a.name.length);

/** The month that a name or its abbreviation means, 1 to 12; NaN where it is none. */
export function monthNamed(name: string): number {
  const plain = name
    .normalize('NFKD')
    .replaceAll(/[^\p{L}]/gu, '')
    .toUpperCase();
  return plain.length < 3 ? NaN : (months.find(({ name }) => plain.startsWith(name))?.month ?? NaN);
}
