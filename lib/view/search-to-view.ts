import { z } from 'zod';
import { cutColumns } from '../../shared/lives.ts';
import type { UnitSystem } from '../../shared/units.ts';
import { defaultView, viewSchema, type View } from '../../shared/view.ts';
import { costParameters } from './cost-parameters.ts';
import { textToHorizon } from './horizon-text.ts';
import { notice } from './notice.ts';
import { pickNames } from './pick-in-search.ts';
import { recordsParameter } from './records-in-search.ts';

export interface LinkView {
  readonly view: View;
  readonly units: UnitSystem;
  /** One sentence for every part of the link that could not be used; it then stands as first shown. */
  readonly notices: readonly string[];
}

/** Links are also typed by hand: a comma parts words as a space does. */
const words = (text: string) => text.split(/[ ,]+/).filter((word) => word !== '');
/** `seal-cocked:0.02`. */
function levelOfDeviation(text: string): [string, number] {
  const [code = '', share = ''] = text.split(':');
  return [code, share.trim() === '' ? Number.NaN : Number(share)];
}
const dayRule = 'a day written 2024-12-31';
const numberIn = ([text]: string[]): number => (text === undefined || text.trim() === '' ? Number.NaN : Number(text));

interface Parameter {
  readonly field: keyof View;
  readonly read: (texts: string[]) => unknown;
  readonly rule: string;
}

const costs: Readonly<Record<string, Parameter>> = Object.fromEntries(
  costParameters.map(([name, field]) => [
    name,
    { field, read: numberIn, rule: 'a cost, at most 100,000,000 and not below 0 (above 0 for the first two)' },
  ]),
);

/** How each parameter is read, the view's field it fills, and the rule to quote when it cannot be. */
const parameters: Readonly<Record<string, Parameter | undefined>> = {
  component: { field: 'component', read: ([text]) => text, rule: 'seal, gasket or bearing' },
  mode: { field: 'mode', read: ([text]) => text, rule: 'one failure mode of the records' },
  by: { field: 'by', read: (texts) => texts.flatMap(words), rule: 'at most two columns of the lives table' },
  from: { field: 'installedFrom', read: ([text]) => text, rule: dayRule },
  to: { field: 'installedTo', read: ([text]) => text, rule: dayRule },
  axis: { field: 'axis', read: ([text]) => text, rule: 'miles or months' },
  months: {
    field: 'horizonMonths',
    read: numberIn,
    rule: 'months above 0 and at most 1,200',
  },
  horizon: {
    field: 'horizonMiles',
    read: ([text]) => textToHorizon(text ?? ''),
    rule: 'miles (or 150000km) above 0 and at most 5,000,000',
  },
  level: { field: 'level', read: ([text]) => Number(text), rule: 'a number between 0.5 and 1, such as 0.95' },
  interval: { field: 'interval', read: ([text]) => text, rule: 'log-log, log or plain' },
  outcome: { field: 'outcome', read: ([text]) => text, rule: 'component, any or lining' },
  early: {
    field: 'earlyMiles',
    read: ([text]) => textToHorizon(text ?? ''),
    rule: 'miles (or 40000km) above 0 and at most 5,000,000',
  },
  'early-months': {
    field: 'earlyMonths',
    read: numberIn,
    rule: 'months above 0 and at most 1,200',
  },
  deviation: { field: 'deviation', read: ([text]) => text, rule: "a deviation's code, such as nut-backed-off" },
  attribution: { field: 'attribution', read: ([text]) => text, rule: 'installing or finding' },
  change: { field: 'change', read: ([text]) => text, rule: dayRule },
  'changed-shop': { field: 'changedShops', read: (texts) => texts, rule: 'the name of a shop' },
  saving: { field: 'saving', read: (texts) => texts.flatMap(words), rule: "deviations' codes, such as seal-cocked" },
  'saving-to': { field: 'savingTo', read: ([text]) => text, rule: 'best-shop or zero' },
  'saving-level': {
    field: 'savingLevels',
    read: (texts) => Object.fromEntries(texts.map(levelOfDeviation)),
    rule: "a deviation's code and a share from 0 to 1, such as seal-cocked:0.02",
  },
  ...costs,
  ahead: { field: 'ahead', read: ([text]) => text, rule: 'miles or months' },
  'ahead-miles': {
    field: 'aheadMiles',
    read: ([text]) => textToHorizon(text ?? ''),
    rule: 'miles (or 40000km) above 0 and at most 1,000,000',
  },
  'ahead-months': { field: 'aheadMonths', read: numberIn, rule: 'months above 0 and at most 120' },
  adjust: { field: 'adjust', read: (texts) => texts.flatMap(words), rule: 'columns of the lives table' },
};

const unitsSchema = z.enum(['us', 'metric'] satisfies UnitSystem[]);
const columnNames = new Set(cutColumns);

/** Reads a link's query part; what cannot be read falls back to what is first shown, with a notice. */
export function searchToView(search: string): LinkView {
  const query = new URLSearchParams(search);
  const notices: string[] = [];
  const where: Record<string, string[]> = {};
  let view: View = { ...defaultView };
  let units: UnitSystem = 'us';
  for (const name of new Set(query.keys())) {
    // Said and read by the lives page alone; and what records a link was made from, by the page's frame.
    if (pickNames.has(name) || name === recordsParameter) continue;
    const texts = query.getAll(name);
    const parameter = Object.hasOwn(parameters, name) ? parameters[name] : undefined;
    if (name === 'units') {
      const read = unitsSchema.safeParse(texts[0]);
      if (read.success) units = read.data;
      else notices.push(notice(name, 'us or metric', texts));
    } else if (columnNames.has(name)) where[name] = texts;
    else if (parameter === undefined) notices.push(notice(name, 'a word this version knows', texts));
    else {
      const read = viewSchema.shape[parameter.field].safeParse(parameter.read(texts));
      if (read.success) view = { ...view, [parameter.field]: read.data };
      else notices.push(notice(name, parameter.rule, texts));
    }
  }
  return { view: viewSchema.parse({ ...view, where }), units, notices };
}
