import type { CellQuantity, CellUnit } from '../../../shared/units.ts';
import { cellUnitFacts, inside } from '../../../shared/units.ts';

const unitWords: Readonly<Record<CellUnit, string>> = {
  mi: 'MI MILE MILES MLS',
  km: 'KM KMS KILOMETER KILOMETERS KILOMETRE KILOMETRES',
  'lbf·ft': 'LBFFT FTLB FTLBS FTLBF LBFT LBSFT FOOTPOUND FOOTPOUNDS FP',
  'lbf·in': 'LBFIN INLB INLBS INLBF LBIN INCHPOUND INCHPOUNDS',
  'N·m': 'NM NEWTONMETER NEWTONMETERS NEWTONMETRE NEWTONMETRES',
  'kgf·m': 'KGFM KGM KPM',
  in: 'IN INS INCH INCHES "',
  thousandths: 'THOU THOUS THOUSANDTH THOUSANDTHS MIL MILS',
  mm: 'MM MILLIMETER MILLIMETERS MILLIMETRE MILLIMETRES',
  h: 'H HR HRS HOUR HOURS STD',
  min: 'MIN MINS MINUTE MINUTES',
  d: 'D DAY DAYS',
};

const units = new Map(
  Object.entries(unitWords).flatMap(([unit, words]) =>
    words.split(' ').map((word) => [word, unit as CellUnit] as const),
  ),
);

/** The unit that a word means, whatever dots, dashes and spaces it is written with; undefined where it is none. */
export const unitNamed = (text: string): CellUnit | undefined =>
  units.get(text.toUpperCase().replaceAll(/[^\p{L}"]/gu, '')) ?? (text.trim() === "''" ? 'in' : undefined);

/** Groups of three digits are parted by a comma, a point, a space of any kind or an apostrophe. */
const point = /^([+-]?)((?:\d{1,3}(?:[,\s'’]\d{3})+|\d+)?(?:\.\d*)?)$/u;
const comma = /^([+-]?)((?:\d{1,3}(?:[.\s'’]\d{3})+|\d+)?(?:,\d*)?)$/u;
const withUnit = /^([^\p{L}"]*[\d.,])\s*(['"\p{L}]\D*)$/su;
const exponent = /^[+-]?\d+(?:\.\d+)?e[+-]?\d+$/i;
const money = /^[$€£]\s*|\s*[$€£]$/gu;

/** No number is written longer; to look for money behind thousands of blanks takes their square. */
const longestNumber = 400;

export interface NumberSettings {
  readonly decimal: 'point' | 'comma';
  readonly quantity: CellQuantity | null;
  readonly unit: CellUnit | undefined;
}

/** The number of a cell in the unit kept inside, or why it has none. A unit in the cell itself goes before that of its column. */
export function readNumber(text: string, { decimal, quantity, unit }: NumberSettings): number | string {
  if (text.length > longestNumber) return 'not a number as this source writes them';
  const [number, own] = parted(text.replaceAll(money, ''));
  const value = plainNumber(number, decimal);
  if (value === null) return 'not a number as this source writes them';
  if (own === null) return unit === undefined ? value : inside(value, unit);
  const named = unitNamed(own);
  if (named === undefined || quantity === null || cellUnitFacts[named].quantity !== quantity)
    return `a number with "${own.trim()}" behind it, which is no unit of this column`;
  return inside(value, named);
}

function parted(text: string): [number: string, unit: string | null] {
  const match = withUnit.exec(text);
  return match ? [match[1]!.trim(), match[2]!] : [text, null];
}

function plainNumber(text: string, decimal: 'point' | 'comma'): number | null {
  const match = (decimal === 'point' ? point : comma).exec(text);
  if (!match || !/\d/.test(text)) return exponent.test(text) ? Number(text) : null;
  const digits = match[2]!.replaceAll(decimal === 'point' ? /[,\s'’]/gu : /[.\s'’]/gu, '').replace(',', '.');
  return Number(`${match[1]!}${digits}`);
}
